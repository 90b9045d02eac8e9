/// Formulas of a netlist: behavioural sources and {parameters}, with exact slopes.
///
/// Grammar, case-blind: numbers with the netlist's suffixes (f p n u m k meg g t; letters after them are units), names,
/// + - * / ** ^ (both are powers, right to left, binding tighter than a sign), unary + and -, ( ), { } as brackets,
/// the functions exp ln log sqrt abs tanh min max pow sin cos tan atan sinh cosh sgn u(step), pi, and, in laws,
/// v(net), v(net,net) and i(source); further log10, and pwr(x,y) = sgn(x) |x|^y. log is the natural logarithm; u(0) is
/// one half.
///
/// Powers are those of algebra: (-2)**3 is -8. An exponent that is no whole number, or that itself reads the circuit,
/// takes the magnitude of a negative base, so that Newton may pass there; between plain numbers, where it would be a
/// slip, such a power is refused. Other programs take it for every exponent, and a**b**c from left to right.
///
/// Newton's iteration must never fall off a formula's edge, so valueAndSlopes goes on where value() has no number, with
/// slopes that are exactly those of what it gives:
///   exp, sinh, cosh beyond 80     their tangent (ln(1 + exp(x)) is taken as a whole and exact everywhere)
///   ln, log10 below 1e-30         their tangent
///   sqrt(x), |x|^p with 0 < p < 1 below 1e-24 the chord to 0; sqrt of a negative is 0 with slope 0
///   x/y, y^-p for |y| < 1e-30     as at 1e-30 of y's sign, flat
/// At a kink (abs at 0, min and max of equals) the slope is the mean of both sides, which is what a small tone about it
/// sees at its own frequency; sgn and u have slope 0.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <functional>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// Something of the circuit that a law reads.
struct LawVariable {
    enum class What { voltage, current };
    What what = What::voltage;
    std::string first;   ///< Net, or the source whose current is meant.
    std::string second;  ///< Other net of a difference; "0" for v(net).

    friend bool operator==(const LawVariable&, const LawVariable&) = default;
};

class Expression {
public:
    /// At most 64 KiB of text, 200 brackets deep, 200 variables.
    /// @param parameters  named constants, lower case; they shadow nothing but pi.
    /// Errors: invalidInput with one sentence naming the place in the text, what was found and what to do; `where` is
    /// the offending word. No text can exhaust the stack.
    static Result<Expression> parse(std::string_view text, const std::map<std::string, double>& parameters = {});

    /// Numbers that may not mean what they say, a sentence each: "1M is read as 1 milli ..."; see NetlistNumber.
    [[nodiscard]] const std::vector<std::string>& doubts() const;

    /// Each variable once, in the order of first mention.
    [[nodiscard]] const std::vector<LawVariable>& variables() const;

    /// Both are safe from several threads at once and allocate nothing once warm.
    /// @param variables  one value each. May be no number where the formula has none (ln of a negative, x/0).
    [[nodiscard]] double value(std::span<const double> variables) const;
    /// The value; `slopes` (one a variable) gets the exact partial derivatives. Beyond an exponent of 80, exp goes on
    /// as its tangent.
    double valueAndSlopes(std::span<const double> variables, std::span<double> slopes) const;

    /// The function that makes the formula's slope infinite there, though the formula has a value: "sqrt" of 0, "pow"
    /// of 0 with an exponent under 1, "sgn" and "u" at their jump. Empty where all slopes are finite.
    [[nodiscard]] std::string_view steepFunctionAt(std::span<const double> variables) const;

    /// The formula in full precision with parameters put in and every variable renamed; parse reads it back to the
    /// same values.
    [[nodiscard]] std::string text(const std::function<LawVariable(const LawVariable&)>& rename = {}) const;

private:
    struct Formula;
    explicit Expression(std::shared_ptr<const Formula> formula);
    std::shared_ptr<const Formula> m_formula;
};

/// A number of a netlist and what may be wrong with it.
struct NetlistNumber {
    double value = 0.0;
    /// Empty, or a sentence: a capital M that is read as milli, a capital F that is read as femto.
    std::string doubt;
};

/// A netlist's number: "4.7k", "10u", "1meg", "100nF", "1e3k", "10ohm"; whole text, spaces around it aside.
/// Errors: invalidInput saying both readings of "4k7", "0x10", "4,7k", "25mil"; what is no number at all.
Result<NetlistNumber> readDoubtfulNumber(std::string_view text);
/// The same without the doubt.
Result<double> readNetlistNumber(std::string_view text);

/// A formula without variables as its number. Errors: as parse; invalidInput when it reads a net, or is no finite
/// number. The doubts of several numbers in it are joined.
Result<NetlistNumber> evaluateDoubtfulConstant(std::string_view text, const std::map<std::string, double>& parameters);
/// The same without the doubts.
Result<double> evaluateConstant(std::string_view text, const std::map<std::string, double>& parameters);

}  // namespace ohmwright
