// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/formula_tape.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <limits>
#include <numbers>
#include <utility>

namespace ohmwright {

namespace {

constexpr double noNumber = std::numeric_limits<double>::quiet_NaN();

// Where valueAndSlopes leaves a function for its continuation; see expression.h.
constexpr double greatestExponent = 80.0;  // e^80 is 5e34: beyond any current, and its square is still a number.
constexpr double leastLogarithm = 1e-30;
constexpr double leastDenominator = 1e-30;
constexpr double leastRoot = 1e-24;  // The chord misses the root by less than 3e-13 there.
constexpr double greatestPower = 1e300;

constexpr std::array<FormulaFunction, 20> functionTable{{
    {"exp", Operation::exp, 1},         {"ln", Operation::ln, 1},       {"log", Operation::ln, 1},
    {"log10", Operation::log10, 1},     {"sqrt", Operation::sqrt, 1},   {"abs", Operation::abs, 1},
    {"tanh", Operation::tanh, 1},       {"min", Operation::min, 2},     {"max", Operation::max, 2},
    {"pow", Operation::power, 2},       {"sin", Operation::sin, 1},     {"cos", Operation::cos, 1},
    {"tan", Operation::tan, 1},         {"atan", Operation::atan, 1},   {"sinh", Operation::sinh, 1},
    {"cosh", Operation::cosh, 1},       {"sgn", Operation::sign, 1},    {"u", Operation::step, 1},
    {"pwr", Operation::signedPower, 2}, {"arctan", Operation::atan, 1},
}};

double signOf(double x) {
    return x > 0.0 ? 1.0 : x < 0.0 ? -1.0 : 0.0;
}

double wholePower(double base, double exponent) {
    constexpr double fewFactors = 8.0;
    if (exponent < 0.0 || exponent > fewFactors) {
        return std::pow(base, exponent);
    }
    double product = 1.0;
    for (int k = 0; k < int(exponent); ++k) {
        product *= base;
    }
    return product;
}

double magnitudePower(double base, double exponent) {
    const double magnitude = std::abs(base);
    return magnitude == 0.0 && exponent < 0.0 ? noNumber : std::pow(magnitude, exponent);
}

/// A step's result where Newton may ask for it, and its slopes.
struct Local {
    double value = 0.0;
    double byFirst = 0.0;
    double bySecond = 0.0;
};

Local continuedExp(double x) {
    if (x <= greatestExponent) {
        const double e = std::exp(x);
        return {e, e};
    }
    const double e = std::exp(greatestExponent);
    return {e * (1.0 + (x - greatestExponent)), e};
}

/// sinh (odd) or cosh (even) of x, by their tangents beyond the greatest exponent.
Local continuedHyperbolic(double x, bool odd) {
    const double inside = std::clamp(x, -greatestExponent, greatestExponent);
    const double sine = std::sinh(inside);
    const double cosine = std::cosh(inside);
    const double value = odd ? sine : cosine;
    const double slope = odd ? cosine : sine;
    return {value + slope * (x - inside), slope};
}

Local continuedLogarithm(double x, double scale) {
    if (x >= leastLogarithm) {
        return {scale == 1.0 ? std::log(x) : std::log10(x), scale / x};
    }
    const double slope = scale / leastLogarithm;
    return {scale * std::log(leastLogarithm) + slope * (x - leastLogarithm), slope};
}

Local continuedRoot(double x) {
    if (x >= leastRoot) {
        const double root = std::sqrt(x);
        return {root, 0.5 / root};
    }
    static const double chord = 1.0 / std::sqrt(leastRoot);
    return x >= 0.0 ? Local{chord * x, chord} : Local{};
}

Local continuedQuotient(double x, double y) {
    if (std::abs(y) >= leastDenominator) {
        const double quotient = x / y;
        return {quotient, 1.0 / y, -quotient / y};
    }
    const double inverse = std::copysign(1.0 / leastDenominator, y);
    return {x * inverse, inverse, 0.0};
}

Local continuedWholePower(double base, double exponent) {
    if (exponent >= 0.0) {
        return {wholePower(base, exponent), exponent == 0.0 ? 0.0 : exponent * wholePower(base, exponent - 1.0)};
    }
    if (std::abs(base) >= leastDenominator) {
        const double value = wholePower(base, exponent);
        return {value, exponent * value / base};
    }
    const double edge = std::pow(std::copysign(leastDenominator, base), exponent);
    return {std::clamp(edge, -greatestPower, greatestPower), 0.0};
}

/// magnitude^exponent for magnitude >= 0, and its slope by the magnitude.
Local continuedMagnitudePower(double magnitude, double exponent) {
    if (exponent < 0.0 && magnitude < leastDenominator) {
        return {std::min(std::pow(leastDenominator, exponent), greatestPower), 0.0};
    }
    if (exponent > 0.0 && exponent < 1.0 && magnitude < leastRoot) {
        const double chord = std::pow(leastRoot, exponent - 1.0);
        return {chord * magnitude, chord};
    }
    if (magnitude == 0.0) {
        return {exponent == 0.0 ? 1.0 : 0.0, exponent == 1.0 ? 1.0 : 0.0};
    }
    const double value = std::min(std::pow(magnitude, exponent), greatestPower);
    return {value, exponent * value / magnitude};
}

/// The logarithm in d(m^p)/dp = m^p ln(m), of the magnitude that continuedMagnitudePower has used.
double logarithmOfBase(double magnitude, double exponent) {
    if (exponent < 0.0 && magnitude < leastDenominator) {
        return std::log(leastDenominator);
    }
    if (exponent > 0.0 && exponent < 1.0 && magnitude < leastRoot) {
        return std::log(leastRoot);
    }
    return magnitude == 0.0 ? 0.0 : std::log(magnitude);
}

Local continuedFixedPower(double base, double exponent) {
    const Local local = continuedMagnitudePower(std::abs(base), exponent);
    return {local.value, base < 0.0 ? -local.byFirst : local.byFirst};
}

Local continuedPower(double base, double exponent) {
    const Local local = continuedFixedPower(base, exponent);
    return {local.value, local.byFirst, local.value * logarithmOfBase(std::abs(base), exponent)};
}

Local continuedSignedPower(double base, double exponent) {
    const Local local = continuedPower(std::abs(base), exponent);
    return {signOf(base) * local.value, local.byFirst, signOf(base) * local.bySecond};
}

Local continuedSoftplus(double x) {
    const double small = std::exp(-std::abs(x));
    return {std::max(x, 0.0) + std::log1p(small), (x > 0.0 ? 1.0 : small) / (1.0 + small)};
}

/// min and max; of equals, the mean of both sides.
Local lesser(double x, double y) {
    return x == y ? Local{x, 0.5, 0.5} : x < y ? Local{x, 1.0, 0.0} : Local{y, 0.0, 1.0};
}

Local greater(double x, double y) {
    return x == y ? Local{x, 0.5, 0.5} : x > y ? Local{x, 1.0, 0.0} : Local{y, 0.0, 1.0};
}

/// Whether the function rises without bound there, although it has a value.
bool isSteep(const FormulaStep& step, double x, double y) {
    const auto rootLike = [x](double exponent) { return x == 0.0 && exponent > 0.0 && exponent < 1.0; };
    switch (step.operation) {
        case Operation::sqrt:
        case Operation::sign:
        case Operation::step:
            return x == 0.0;
        case Operation::fixedPower:
            return rootLike(step.number);
        case Operation::power:
        case Operation::signedPower:
            return rootLike(y);
        default:
            return false;
    }
}

Local localOf(const FormulaStep& step, double x, double y) {
    switch (step.operation) {
        case Operation::number:
        case Operation::variable:
            break;
        case Operation::negate:
            return {-x, -1.0};
        case Operation::add:
            return {x + y, 1.0, 1.0};
        case Operation::subtract:
            return {x - y, 1.0, -1.0};
        case Operation::multiply:
            return {x * y, y, x};
        case Operation::divide:
            return continuedQuotient(x, y);
        case Operation::wholePower:
            return continuedWholePower(x, step.number);
        case Operation::power:
            return continuedPower(x, y);
        case Operation::fixedPower:
            return continuedFixedPower(x, step.number);
        case Operation::signedPower:
            return continuedSignedPower(x, y);
        case Operation::exp:
            return continuedExp(x);
        case Operation::softplus:
            return continuedSoftplus(x);
        case Operation::ln:
            return continuedLogarithm(x, 1.0);
        case Operation::log10:
            return continuedLogarithm(x, std::numbers::log10e);
        case Operation::sqrt:
            return continuedRoot(x);
        case Operation::abs:
            return {std::abs(x), signOf(x)};
        case Operation::tanh: {
            const double bend = std::tanh(x);
            return {bend, 1.0 - bend * bend};
        }
        case Operation::sin:
            return {std::sin(x), std::cos(x)};
        case Operation::cos:
            return {std::cos(x), -std::sin(x)};
        case Operation::tan: {
            const double tangent = std::tan(x);
            return {tangent, 1.0 + tangent * tangent};
        }
        case Operation::atan:
            return {std::atan(x), 1.0 / (1.0 + x * x)};
        case Operation::sinh:
            return continuedHyperbolic(x, true);
        case Operation::cosh:
            return continuedHyperbolic(x, false);
        case Operation::sign:
        case Operation::step:
            return {resultOf(step, x, y)};
        case Operation::min:
            return lesser(x, y);
        case Operation::max:
            return greater(x, y);
    }
    return {};
}

/// Room for the numbers of an evaluation: on the stack for formulas of ordinary length, else kept by the thread.
constexpr std::size_t ordinaryNumbers = 512;

double* keptByThread(std::size_t numbers) {
    thread_local std::vector<double> kept;
    if (kept.size() < numbers) {
        kept.resize(numbers);
    }
    return kept.data();
}

double at(const double* values, int step) {
    return step < 0 ? 0.0 : values[step];
}

/// The numbers of one evaluation, one a step.
struct Evaluated {
    double* values;
    double* weights;  ///< d(formula)/d(step)
};

/// @param room  4 numbers a step.
Evaluated evaluated(std::span<const FormulaStep> steps, std::span<const double> variables, std::span<double> slopes,
                    double* room) {
    const std::size_t count = steps.size();
    double* values = room;
    double* byFirst = values + count;
    double* bySecond = byFirst + count;
    double* weights = bySecond + count;
    for (std::size_t k = 0; k < count; ++k) {
        const FormulaStep& step = steps[k];
        weights[k] = 0.0;
        if (step.operation == Operation::number) {
            values[k] = step.number;
        } else if (step.operation == Operation::variable) {
            values[k] = variables[std::size_t(step.first)];
        } else {
            const Local local = localOf(step, at(values, step.first), at(values, step.second));
            values[k] = local.value;
            byFirst[k] = local.byFirst;
            bySecond[k] = local.bySecond;
        }
    }
    std::fill(slopes.begin(), slopes.end(), 0.0);
    weights[count - 1] = 1.0;
    for (std::size_t k = count; k-- > 0;) {
        const FormulaStep& step = steps[k];
        if (weights[k] == 0.0 || step.operation == Operation::number) {
            continue;
        }
        if (step.operation == Operation::variable) {
            slopes[std::size_t(step.first)] += weights[k];
            continue;
        }
        weights[step.first] += weights[k] * byFirst[k];
        if (step.second >= 0) {
            weights[step.second] += weights[k] * bySecond[k];
        }
    }
    return {values, weights};
}

// How tightly a piece of text holds together; an operand that holds less than it must stands in brackets.
enum Binding { sum = 1, product, sign, primary };

struct Piece {
    std::string text;
    Binding binding = primary;
};

std::string numberText(double number) {
    std::array<char, 40> digits{};
    const auto written = std::to_chars(digits.data(), digits.data() + digits.size(), number);
    return {digits.data(), written.ptr};
}

std::string inBrackets(Piece piece, Binding needed) {
    return piece.binding >= needed ? std::move(piece.text) : "(" + piece.text + ")";
}

Piece infix(Piece left, std::string_view sign, Piece right, Binding own) {
    std::string text = inBrackets(std::move(left), own);
    text += sign;
    // The right operand must hold tighter: a - (b - c) is not a - b - c, nor is a + (b + c) the same to the last bit.
    text += inBrackets(std::move(right), Binding(own + 1));
    return {std::move(text), own};
}

std::string_view nameOf(Operation operation) {
    for (const FormulaFunction& function : functionTable) {
        if (function.operation == operation) {
            return function.name;
        }
    }
    return {};
}

Piece call(std::string_view name, const std::string& first, const std::string& second = {}) {
    std::string text(name);
    text += '(';
    text += first;
    if (!second.empty()) {
        text += ',';
        text += second;
    }
    text += ')';
    return {std::move(text), primary};
}

/// The text of a step; takes the pieces of its operands, which no other step uses.
Piece pieceOf(const FormulaStep& step, std::vector<Piece>& pieces,
              const std::function<std::string(int)>& variableText) {
    const auto take = [&pieces](int index) { return std::move(pieces[std::size_t(index)]); };
    switch (step.operation) {
        case Operation::number:
            return {numberText(step.number), std::signbit(step.number) ? sign : primary};
        case Operation::variable:
            return {variableText(step.first), primary};
        case Operation::negate:
            // sum < product < sign: "-a*b" would be (-a)*b.
            return {"-" + inBrackets(take(step.first), primary), sign};
        case Operation::add:
            return infix(take(step.first), "+", take(step.second), sum);
        case Operation::subtract:
            return infix(take(step.first), "-", take(step.second), sum);
        case Operation::multiply:
            return infix(take(step.first), "*", take(step.second), product);
        case Operation::divide:
            return infix(take(step.first), "/", take(step.second), product);
        case Operation::wholePower:
        case Operation::fixedPower:
            return call("pow", take(step.first).text, numberText(step.number));
        case Operation::softplus:
            return call("ln", "1+exp(" + take(step.first).text + ")");
        default:
            return step.second < 0 ? call(nameOf(step.operation), take(step.first).text)
                                   : call(nameOf(step.operation), take(step.first).text, take(step.second).text);
    }
}

}  // namespace

std::span<const FormulaFunction> formulaFunctions() {
    return functionTable;
}

double resultOf(const FormulaStep& step, double x, double y) {
    switch (step.operation) {
        case Operation::divide:
            return y == 0.0 ? noNumber : x / y;
        case Operation::wholePower:
            return x == 0.0 && step.number < 0.0 ? noNumber : wholePower(x, step.number);
        case Operation::fixedPower:
            return magnitudePower(x, step.number);
        case Operation::power:
            return magnitudePower(x, y);
        case Operation::signedPower:
            return x == 0.0 && y < 0.0 ? noNumber : signOf(x) * magnitudePower(x, y);
        case Operation::exp:
            return std::exp(x);
        case Operation::ln:
            return x > 0.0 ? std::log(x) : noNumber;
        case Operation::log10:
            return x > 0.0 ? std::log10(x) : noNumber;
        case Operation::sqrt:
            return std::sqrt(x);
        case Operation::sinh:
            return std::sinh(x);
        case Operation::cosh:
            return std::cosh(x);
        case Operation::sign:
            return signOf(x);
        case Operation::step:
            return 0.5 * (1.0 + signOf(x));
        default:
            return localOf(step, x, y).value;
    }
}

double tapeValue(std::span<const FormulaStep> steps, std::span<const double> variables) {
    std::array<double, ordinaryNumbers> ordinary;
    double* values = steps.size() <= ordinary.size() ? ordinary.data() : keptByThread(steps.size());
    for (std::size_t k = 0; k < steps.size(); ++k) {
        const FormulaStep& step = steps[k];
        if (step.operation == Operation::number) {
            values[k] = step.number;
        } else if (step.operation == Operation::variable) {
            values[k] = variables[std::size_t(step.first)];
        } else {
            values[k] = resultOf(step, at(values, step.first), at(values, step.second));
        }
    }
    return values[steps.size() - 1];
}

double tapeValueAndSlopes(std::span<const FormulaStep> steps, std::span<const double> variables,
                          std::span<double> slopes) {
    std::array<double, ordinaryNumbers> ordinary;
    const std::size_t count = steps.size();
    return evaluated(steps, variables, slopes, 4 * count <= ordinary.size() ? ordinary.data() : keptByThread(4 * count))
        .values[count - 1];
}

std::string_view steepFunctionOf(std::span<const FormulaStep> steps, std::span<const double> variables) {
    std::vector<double> numbers(4 * steps.size());
    std::vector<double> slopes(variables.size());
    const Evaluated all = evaluated(steps, variables, slopes, numbers.data());
    for (std::size_t k = 0; k < steps.size(); ++k) {
        const FormulaStep& step = steps[k];
        if (all.weights[k] == 0.0 || !isSteep(step, at(all.values, step.first), at(all.values, step.second))) {
            continue;
        }
        // The root of what does not move moves nothing.
        std::vector<double> room(4 * steps.size());
        evaluated(steps.first(std::size_t(step.first) + 1), variables, slopes, room.data());
        if (std::any_of(slopes.begin(), slopes.end(), [](double slope) { return slope != 0.0; })) {
            return step.operation == Operation::fixedPower ? "pow" : nameOf(step.operation);
        }
    }
    return {};
}

std::string tapeText(std::span<const FormulaStep> steps, const std::function<std::string(int)>& variableText) {
    std::vector<Piece> pieces;
    pieces.reserve(steps.size());
    for (const FormulaStep& step : steps) {
        pieces.push_back(pieceOf(step, pieces, variableText));
    }
    return std::move(pieces.back().text);
}

}  // namespace ohmwright
