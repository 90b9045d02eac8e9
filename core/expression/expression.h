/// Formulas of a netlist: behavioural sources and {parameters}, with exact slopes.
///
/// Grammar, case-blind: numbers with the netlist's suffixes (f p n u m k meg g t; letters after them are units), names,
/// + - * / ** ^ (both are powers, right to left, binding tighter than a sign), unary + and -, ( ), { } as brackets,
/// the functions exp ln log sqrt abs tanh min max pow sin cos tan atan sinh cosh sgn u(step), pi, and, in laws,
/// v(net), v(net,net) and i(source).
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
    /// @param parameters  named constants, lower case; they shadow nothing but pi.
    /// Errors: invalidInput with one sentence naming the place in the text, what was found and what to do; `where` is
    /// the offending word. Depth and length are bounded: no text can exhaust the stack.
    static Result<Expression> parse(std::string_view text, const std::map<std::string, double>& parameters = {});

    /// Each variable once, in the order of first mention.
    [[nodiscard]] const std::vector<LawVariable>& variables() const;

    /// @param variables  one value each. May be no number where the formula has none (ln of a negative, x/0).
    [[nodiscard]] double value(std::span<const double> variables) const;
    /// The value; `slopes` (one a variable) gets the exact partial derivatives. Beyond an exponent of 80, exp goes on
    /// as its tangent.
    double valueAndSlopes(std::span<const double> variables, std::span<double> slopes) const;

    /// The formula in full precision with parameters put in and every variable renamed; parse reads it back to the
    /// same values.
    [[nodiscard]] std::string text(const std::function<LawVariable(const LawVariable&)>& rename = {}) const;

private:
    struct Formula;
    explicit Expression(std::shared_ptr<const Formula> formula);
    std::shared_ptr<const Formula> m_formula;
};

/// A formula without variables as its number. Errors: as parse; invalidInput when it reads a net, or is no finite
/// number.
Result<double> evaluateConstant(std::string_view text, const std::map<std::string, double>& parameters);

/// A netlist's number: "4.7k", "10u", "1meg", "100nF". Errors: invalidInput saying both readings of "4k7", "0x10",
/// "4,7k"; what is no number at all.
Result<double> readNetlistNumber(std::string_view text);

}  // namespace ohmwright
