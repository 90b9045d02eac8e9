/// A formula as a list of steps, each on the results of earlier ones; the last one's result is the formula's.
///
/// Slopes by reverse accumulation: one pass up for the values and local slopes, one pass down for the sensitivity of
/// the result to each step, whatever the number of variables. Source: Griewank, Walther, Evaluating Derivatives (2008),
/// chapter 3.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

enum class Operation {
    number,    ///< FormulaStep::number
    variable,  ///< The variable of index FormulaStep::first.
    negate,
    add,
    subtract,
    multiply,
    divide,
    wholePower,   ///< first ^ number, number whole: as algebra has it.
    fixedPower,   ///< |first| ^ number
    power,        ///< |first| ^ second
    signedPower,  ///< sgn(first) |first| ^ second
    exp,
    softplus,  ///< ln(1 + exp(first))
    ln,
    log10,
    sqrt,
    abs,
    tanh,
    sin,
    cos,
    tan,
    atan,
    sinh,
    cosh,
    sign,
    step,  ///< 0, 1/2 at 0, 1
    min,
    max,
};

struct FormulaStep {
    Operation operation = Operation::number;
    int first = -1;  ///< Steps whose results are used; -1 for none.
    int second = -1;
    double number = 0.0;
};

/// A function that is written as name(...).
struct FormulaFunction {
    std::string_view name;
    Operation operation;
    int arguments;
};
std::span<const FormulaFunction> formulaFunctions();

/// The result of one step; no number where there is none.
double resultOf(const FormulaStep& step, double first, double second);

/// REQUIRES, here and below: at least one step; each refers to earlier ones.
double tapeValue(std::span<const FormulaStep> steps, std::span<const double> variables);
/// Goes on beyond the edges of functions as expression.h says. `slopes` is as long as `variables`.
double tapeValueAndSlopes(std::span<const FormulaStep> steps, std::span<const double> variables,
                          std::span<double> slopes);

/// The function whose slope is infinite there and reaches the result; empty when there is none. See expression.h.
std::string_view steepFunctionOf(std::span<const FormulaStep> steps, std::span<const double> variables);

/// The formula with no bracket more than it needs, numbers in full precision.
/// @param variableText  how the variable of an index is written.
std::string tapeText(std::span<const FormulaStep> steps, const std::function<std::string(int)>& variableText);

}  // namespace ohmwright
