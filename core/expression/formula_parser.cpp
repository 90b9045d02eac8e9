// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/formula_parser.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/expression/number_scan.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

namespace ohmwright {

namespace {

bool isBlank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' || c == '\v';
}

bool startsName(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

bool continuesName(char c) {
    return startsName(c) || (c >= '0' && c <= '9') || c == '$';
}

/// A net or source in v(...), i(...): anything that is no bracket, comma or blank.
bool continuesNet(char c) {
    constexpr std::string_view ends = "(){}[],='\"";
    return !isBlank(c) && ends.find(c) == std::string_view::npos;
}

char closingOf(char opening) {
    return opening == '(' ? ')' : '}';
}

/// Puts steps together; every operand is used once and stands before its step.
class StepList {
public:
    int number(double value) { return push({Operation::number, -1, -1, value}); }
    int variable(int index) { return push({Operation::variable, index, -1, 0.0}); }

    int negate(int operand) {
        FormulaStep& step = at(operand);
        if (step.operation == Operation::number) {
            step.number = -step.number;
            return operand;
        }
        if (step.operation == Operation::negate) {
            m_steps.pop_back();
            return last();
        }
        return push({Operation::negate, operand, -1, 0.0});
    }

    int unary(Operation operation, int operand) {
        if (operation == Operation::ln && isOnePlusExp(operand)) {
            return softplusFromSum(operand);
        }
        return folded({operation, operand, -1, 0.0});
    }

    int binary(Operation operation, int first, int second) {
        if (operation != Operation::power) {
            return folded({operation, first, second, 0.0});
        }
        const FormulaStep& exponent = at(second);
        if (exponent.operation == Operation::number) {
            constexpr double greatestWhole = 9007199254740992.0;  // 2^53: above it every double is whole.
            const double fixed = exponent.number;
            const bool whole = std::trunc(fixed) == fixed && std::abs(fixed) <= greatestWhole;
            m_steps.pop_back();
            return folded({whole ? Operation::wholePower : Operation::fixedPower, first, -1, fixed});
        } else if (at(first).operation == Operation::number) {
            at(first).number = std::abs(at(first).number);
        }
        return push({operation, first, second, 0.0});
    }

    /// A negative number to a power that is not whole, which has no value among real numbers.
    bool isRootOfNegative(int base, int exponent) {
        return isNumber(base) && isNumber(exponent) && at(base).number < 0.0 &&
               std::trunc(at(exponent).number) != at(exponent).number;
    }

    [[nodiscard]] std::size_t size() const { return m_steps.size(); }
    std::vector<FormulaStep> take() { return std::move(m_steps); }

private:
    FormulaStep& at(int index) { return m_steps[std::size_t(index)]; }
    [[nodiscard]] int last() const { return int(m_steps.size()) - 1; }
    bool isNumber(int index) { return index >= 0 && at(index).operation == Operation::number; }

    int push(const FormulaStep& step) {
        m_steps.push_back(step);
        return last();
    }

    /// The step, or its number where all it uses are numbers and it has one.
    int folded(const FormulaStep& step) {
        if (!isNumber(step.first) || (step.second >= 0 && !isNumber(step.second))) {
            return push(step);
        }
        const double result = resultOf(step, at(step.first).number, step.second < 0 ? 0.0 : at(step.second).number);
        if (!std::isfinite(result)) {
            return push(step);
        }
        // Operands that are numbers are the last steps: whatever they were made from is gone.
        m_steps.resize(std::size_t(step.first));
        return number(result);
    }

    bool isOnePlusExp(int index) {
        if (at(index).operation != Operation::add) {
            return false;
        }
        const FormulaStep& left = at(at(index).first);
        const FormulaStep& right = at(at(index).second);
        const auto isOne = [](const FormulaStep& step) {
            return step.operation == Operation::number && step.number == 1.0;
        };
        return (isOne(left) && right.operation == Operation::exp) || (isOne(right) && left.operation == Operation::exp);
    }

    /// ln(1 + exp(x)) as one step that no x overflows. A 1 in front stays as a step that nothing uses.
    int softplusFromSum(int index) {
        const FormulaStep& add = at(index);
        const int exp = at(add.first).operation == Operation::exp ? add.first : add.second;
        at(exp).operation = Operation::softplus;
        m_steps.resize(std::size_t(exp) + 1);
        return exp;
    }

    std::vector<FormulaStep> m_steps;
};

class FormulaParser {
public:
    FormulaParser(std::string_view text, const std::map<std::string, double>& parameters)
        : m_text(text), m_parameters(parameters) {}

    Result<ParsedFormula> parse() {
        skipBlanks();
        if (atEnd()) {
            return Error{ErrorCode::invalidInput, said("The formula is empty: write a number or an expression."), ""};
        }
        sum();
        if (!m_error && !atEnd()) {
            complainOfRest();
        }
        if (m_error) {
            return *m_error;
        }
        return ParsedFormula{m_steps.take(), std::move(m_variables), std::move(m_doubts)};
    }

private:
    // Every rule returns the step of its result, or -1 once an error is known; then all above it return at once.

    int sum() {
        int left = product();
        while (!m_error && (sees('+') || sees('-'))) {
            const Operation operation = sees('+') ? Operation::add : Operation::subtract;
            advance(1);
            left = joined(operation, left, product());
        }
        return m_error ? -1 : left;
    }

    int product() {
        int left = signedOperand();
        while (!m_error && ((sees('*') && !seesPower()) || sees('/'))) {
            const Operation operation = sees('*') ? Operation::multiply : Operation::divide;
            advance(1);
            left = joined(operation, left, signedOperand());
        }
        return m_error ? -1 : left;
    }

    int joined(Operation operation, int left, int right) {
        return m_error ? -1 : m_steps.binary(operation, left, right);
    }

    /// A sign holds looser than a power: -2**2 is -4.
    int signedOperand() {
        bool negative = false;
        while (sees('+') || sees('-')) {
            negative = negative != sees('-');
            advance(1);
        }
        const int operand = power();
        if (m_error) {
            return -1;
        }
        return negative ? m_steps.negate(operand) : operand;
    }

    int power() {
        const int base = primary();
        if (m_error || !seesPower()) {
            return base;
        }
        const std::size_t place = m_at;
        advance(sees('^') ? 1 : 2);
        if (!enter(place)) {
            return -1;
        }
        const int exponent = signedOperand();
        --m_depth;
        return m_error ? -1 : raised(place, base, exponent);
    }

    int raised(std::size_t place, int base, int exponent) {
        if (m_steps.isRootOfNegative(base, exponent)) {
            return complain("**",
                            said("A negative number is raised to a power that is not whole at character %1, which "
                                 "has no value: make the number positive or the power whole.",
                                 place + 1));
        }
        return m_steps.binary(Operation::power, base, exponent);
    }

    int primary() {
        if (atEnd()) {
            return complain("",
                            said("The formula ends where a value is missing: complete it or take the last sign away."));
        }
        const char c = m_text[m_at];
        if (c == '(' || c == '{') {
            return bracket();
        }
        if (startsNumber(m_text.substr(m_at))) {
            return number();
        }
        if (startsName(c)) {
            return name();
        }
        const std::string found = wordAt(m_at);
        if (c == ')' || c == '}') {
            return complain(found,
                            said("A value is missing before the '%1' at character %2: write one.", found, m_at + 1));
        }
        return complain(found, said("A value is missing at character %1, where '%2' stands: write a number, a name or "
                                    "v(net).",
                                    m_at + 1, found));
    }

    int bracket() {
        const std::size_t place = m_at;
        const char closing = closingOf(m_text[place]);
        if (!enter(place)) {
            return -1;
        }
        advance(1);
        // Between brackets of its own, "4,7" is a slip again.
        const bool outer = std::exchange(m_commaSeparates, false);
        const int inside = sum();
        m_commaSeparates = outer;
        --m_depth;
        return close(place, closing) ? inside : -1;
    }

    bool close(std::size_t opened, char closing) {
        if (m_error) {
            return false;
        }
        if (!sees(closing)) {
            if (atEnd()) {
                complain(std::string(1, m_text[opened]),
                         said("The bracket at character %1 is never closed: add '%2'.", opened + 1, closing));
            } else {
                const std::string found = wordAt(m_at);
                complain(found, said("'%1' at character %2 stands where an operator or '%3' was expected: write one of "
                                     "them.",
                                     found, m_at + 1, closing));
            }
            return false;
        }
        advance(1);
        return true;
    }

    int number() {
        const Result<ScannedNumber> scanned = scanNumber(m_text.substr(m_at), m_commaSeparates);
        if (!scanned) {
            return complain(scanned.error().where, scanned.error().message);
        }
        if (!scanned->number.doubt.empty()) {
            m_doubts.push_back(scanned->number.doubt);
        }
        advance(scanned->length);
        return m_steps.number(scanned->number.value);
    }

    int name() {
        const std::size_t place = m_at;
        const std::size_t end = std::size_t(
            std::find_if_not(m_text.begin() + std::ptrdiff_t(m_at), m_text.end(), continuesName) - m_text.begin());
        const std::string written(m_text.substr(place, end - place));
        const std::string lower = inLowerCase(written);
        advance(end - place);
        if (sees('(')) {
            if (lower == "v" || lower == "i") {
                return circuitVariable(place, lower == "v");
            }
            return call(place, written, lower);
        }
        if (const auto found = m_parameters.find(lower); found != m_parameters.end()) {
            if (!std::isfinite(found->second)) {
                return complain(written, said("The parameter %1 is no finite number: correct its value.", written));
            }
            return m_steps.number(found->second);
        }
        if (lower == "pi") {
            return m_steps.number(std::numbers::pi);
        }
        return complain(
            written, isFunction(lower)
                         ? said("The function %1 at character %2 has no brackets: write %1(...).", written, place + 1)
                         : said("The name '%1' at character %2 is no parameter here: define it by .param, or "
                                "write v(%1) for the voltage of a net.",
                                written, place + 1));
    }

    static bool isFunction(const std::string& lower) {
        const auto functions = formulaFunctions();
        return std::any_of(functions.begin(), functions.end(),
                           [&](const FormulaFunction& function) { return function.name == lower; });
    }

    int call(std::size_t place, const std::string& written, const std::string& lower) {
        const auto functions = formulaFunctions();
        const auto function = std::find_if(functions.begin(), functions.end(),
                                           [&](const FormulaFunction& known) { return known.name == lower; });
        if (function == functions.end()) {
            return complain(written, said("There is no function '%1' at character %2: write one of exp, ln, sqrt, abs, "
                                          "tanh, min, max, sin, cos, v(net) or i(source).",
                                          written, place + 1));
        }
        const std::size_t opened = m_at;
        if (!enter(opened)) {
            return -1;
        }
        advance(1);
        const bool outer = std::exchange(m_commaSeparates, function->arguments > 1);
        int operands[2] = {-1, -1};
        int count = 0;
        if (!sees(')')) {
            count = arguments(operands);
        }
        m_commaSeparates = outer;
        --m_depth;
        if (m_error) {
            return -1;
        }
        if (count != function->arguments && !atEnd()) {
            return complain(written, said("%1 at character %2 needs %3 between its brackets and has %4: correct their "
                                          "number.",
                                          written, place + 1, valuesText(function->arguments), valuesText(count)));
        }
        if (!close(opened, ')')) {
            return -1;
        }
        if (count == 1) {
            return m_steps.unary(function->operation, operands[0]);
        }
        return function->operation == Operation::power ? raised(place, operands[0], operands[1])
                                                       : m_steps.binary(function->operation, operands[0], operands[1]);
    }

    /// Reads values separated by commas; keeps the first two and counts all.
    int arguments(int (&operands)[2]) {
        int count = 0;
        while (!m_error) {
            const int operand = sum();
            if (count < 2) {
                operands[count] = operand;
            }
            ++count;
            if (m_error || !sees(',')) {
                break;
            }
            advance(1);
        }
        return count;
    }

    int circuitVariable(std::size_t place, bool isVoltage) {
        const std::size_t opened = m_at;
        advance(1);
        LawVariable variable{isVoltage ? LawVariable::What::voltage : LawVariable::What::current, netName(),
                             isVoltage ? "0" : ""};
        bool complete = !variable.first.empty();
        if (complete && isVoltage && sees(',')) {
            advance(1);
            variable.second = netName();
            complete = !variable.second.empty();
        }
        if (!complete || (!atEnd() && !sees(')'))) {
            const std::string word = wordAt(place);
            return complain(
                word, isVoltage
                          ? said("The voltage at character %1 is not complete: write v(net) or v(net,net).", place + 1)
                          : said("The current at character %1 is not complete: write i(source).", place + 1));
        }
        return close(opened, ')') ? indexed(variable) : -1;
    }

    std::string netName() {
        const std::size_t start = m_at;
        const std::size_t end = std::size_t(
            std::find_if_not(m_text.begin() + std::ptrdiff_t(m_at), m_text.end(), continuesNet) - m_text.begin());
        advance(end - start);
        return std::string(m_text.substr(start, end - start));
    }

    int indexed(const LawVariable& variable) {
        const auto found = std::find(m_variables.begin(), m_variables.end(), variable);
        const std::ptrdiff_t index = found - m_variables.begin();
        if (found == m_variables.end()) {
            if (m_variables.size() == greatestVariableCount) {
                return complain(variable.first, said("The formula reads more than %1 voltages and currents: split it "
                                                     "over several sources.",
                                                     greatestVariableCount));
            }
            m_variables.push_back(variable);
        }
        return m_steps.variable(int(index));
    }

    void complainOfRest() {
        const std::string found = wordAt(m_at);
        const char c = m_text[m_at];
        if (c == ')' || c == '}') {
            complain(found, said("The '%1' at character %2 closes no bracket: take it away.", found, m_at + 1));
        } else if (c == ',') {
            complain(found,
                     said("The comma at character %1 stands outside the brackets of a function: write a point in "
                          "a number.",
                          m_at + 1));
        } else if (startsName(c) || startsNumber(m_text.substr(m_at)) || c == '(' || c == '{') {
            complain(found,
                     said("An operator is missing before '%1' at character %2: write + - * / or **.", found, m_at + 1));
        } else {
            complain(found,
                     said("The formula has '%1' at character %2, which has no meaning here: it knows + - * / ** ^ "
                          "( ) and functions.",
                          found, m_at + 1));
        }
    }

    // --- text ---

    [[nodiscard]] bool atEnd() const { return m_at >= m_text.size(); }
    [[nodiscard]] bool sees(char c) const { return !atEnd() && m_text[m_at] == c; }
    [[nodiscard]] bool seesPower() const { return sees('^') || (sees('*') && m_text.substr(m_at, 2) == "**"); }

    void skipBlanks() {
        while (!atEnd() && isBlank(m_text[m_at])) {
            ++m_at;
        }
    }

    void advance(std::size_t count) {
        m_at += count;
        skipBlanks();
    }

    bool enter(std::size_t place) {
        if (++m_depth > greatestFormulaDepth) {
            complain(std::string(1, m_text[place]),
                     said("The formula is nested more than %1 deep at character %2: break "
                          "it into parameters or several sources.",
                          greatestFormulaDepth, place + 1));
            return false;
        }
        return true;
    }

    /// The word at a place, or the single sign.
    [[nodiscard]] std::string wordAt(std::size_t place) const {
        constexpr std::size_t longestShown = 40;
        const std::string_view rest = m_text.substr(place, longestShown);
        const auto belongs = [](char c) {
            return continuesName(c) || c == '.' || static_cast<unsigned char>(c) >= 0x80;
        };
        const std::size_t length = std::size_t(std::find_if_not(rest.begin(), rest.end(), belongs) - rest.begin());
        return std::string(rest.substr(0, std::max<std::size_t>(length, 1)));
    }

    static std::string valuesText(int count) {
        return count == 0   ? said("none")
               : count == 1 ? said("one value")
               : count == 2 ? said("two values")
                            : said("more");
    }

    int complain(const std::string& word, const std::string& sentence) {
        if (!m_error) {
            m_error = Error{ErrorCode::invalidInput, sentence, word};
        }
        return -1;
    }

    std::string_view m_text;
    const std::map<std::string, double>& m_parameters;
    std::size_t m_at = 0;
    int m_depth = 0;
    bool m_commaSeparates = false;
    StepList m_steps;
    std::vector<LawVariable> m_variables;
    std::vector<std::string> m_doubts;
    std::optional<Error> m_error;
};

}  // namespace

Result<ParsedFormula> parseFormula(std::string_view text, const std::map<std::string, double>& parameters) {
    if (text.size() > greatestFormulaLength) {
        return Error{ErrorCode::invalidInput,
                     said("The formula has %1 characters and may have %2: split it over several sources.", text.size(),
                          greatestFormulaLength),
                     ""};
    }
    return FormulaParser(text, parameters).parse();
}

}  // namespace ohmwright
