// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/expression.h"

#include "core/base/said.h"
#include "core/expression/formula_parser.h"
#include "core/expression/formula_tape.h"
#include "core/expression/number_scan.h"

#include <cassert>
#include <cmath>
#include <utility>

namespace ohmwright {

struct Expression::Formula {
    ParsedFormula parsed;
};

Expression::Expression(std::shared_ptr<const Formula> formula) : m_formula(std::move(formula)) {}

Result<Expression> Expression::parse(std::string_view text, const std::map<std::string, double>& parameters) {
    Result<ParsedFormula> parsed = parseFormula(text, parameters);
    if (!parsed) {
        return parsed.error();
    }
    Expression expression(std::make_shared<const Formula>(Formula{std::move(*parsed)}));
    // Parameters written out may make it longer than what can be read back; a short formula cannot grow so far.
    constexpr std::size_t longestGrowth = 24;
    if (text.size() > greatestFormulaLength / longestGrowth && expression.text().size() > greatestFormulaLength) {
        return Error{ErrorCode::invalidInput,
                     said("With its parameters put in, the formula has more than %1 characters: split it over several "
                          "sources.",
                          greatestFormulaLength),
                     ""};
    }
    return expression;
}

const std::vector<std::string>& Expression::doubts() const {
    return m_formula->parsed.doubts;
}

const std::vector<LawVariable>& Expression::variables() const {
    return m_formula->parsed.variables;
}

double Expression::value(std::span<const double> variables) const {
    assert(variables.size() == m_formula->parsed.variables.size());
    return tapeValue(m_formula->parsed.steps, variables);
}

double Expression::valueAndSlopes(std::span<const double> variables, std::span<double> slopes) const {
    assert(variables.size() == m_formula->parsed.variables.size() && slopes.size() == variables.size());
    return tapeValueAndSlopes(m_formula->parsed.steps, variables, slopes);
}

std::string_view Expression::steepFunctionAt(std::span<const double> variables) const {
    assert(variables.size() == m_formula->parsed.variables.size());
    return steepFunctionOf(m_formula->parsed.steps, variables);
}

std::string Expression::text(const std::function<LawVariable(const LawVariable&)>& rename) const {
    return tapeText(m_formula->parsed.steps, [&](int index) {
        const LawVariable& own = m_formula->parsed.variables[std::size_t(index)];
        const LawVariable named = rename ? rename(own) : own;
        if (named.what == LawVariable::What::current) {
            return "i(" + named.first + ")";
        }
        return named.second == "0" ? "v(" + named.first + ")" : "v(" + named.first + "," + named.second + ")";
    });
}

Result<NetlistNumber> evaluateDoubtfulConstant(std::string_view text, const std::map<std::string, double>& parameters) {
    const Result<ParsedFormula> parsed = parseFormula(text, parameters);
    if (!parsed) {
        return parsed.error();
    }
    if (!parsed->variables.empty()) {
        const std::string& read = parsed->variables.front().first;
        return Error{
            ErrorCode::invalidInput,
            said("A value cannot depend on the circuit, and this one reads %1: use a B source, or a number.", read),
            read};
    }
    NetlistNumber number{tapeValue(parsed->steps, {}), {}};
    if (!std::isfinite(number.value)) {
        const std::string shown(text.substr(0, 60));
        return Error{
            ErrorCode::invalidInput,
            said("%1 has no finite value: look for a division by 0, a root or a logarithm of a negative, or far "
                 "too large a number.",
                 shown),
            shown};
    }
    for (const std::string& doubt : parsed->doubts) {
        number.doubt += number.doubt.empty() ? doubt : " " + doubt;
    }
    return number;
}

Result<double> evaluateConstant(std::string_view text, const std::map<std::string, double>& parameters) {
    const Result<NetlistNumber> number = evaluateDoubtfulConstant(text, parameters);
    if (!number) {
        return number.error();
    }
    return number->value;
}

Result<NetlistNumber> readDoubtfulNumber(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(blanks);
    std::string_view word = first == std::string_view::npos ? std::string_view() : text.substr(first);
    word = word.substr(0, word.find_last_not_of(blanks) + 1);
    const std::string shown(word.substr(0, 60));
    const bool negative = word.starts_with('-');
    const std::string_view digits = negative || word.starts_with('+') ? word.substr(1) : word;
    if (!startsNumber(digits)) {
        return Error{ErrorCode::invalidInput,
                     shown.empty() ? said("A number is missing: write one such as 4.7k or 100n.")
                                   : said("'%1' is no number: write one such as 4.7k or 100n.", shown),
                     shown};
    }
    Result<ScannedNumber> scanned = scanNumber(digits, false);
    if (!scanned) {
        return scanned.error();
    }
    if (scanned->length != digits.size()) {
        return Error{ErrorCode::invalidInput, said("'%1' is no number: write one such as 4.7k or 100n.", shown), shown};
    }
    scanned->number.value = negative ? -scanned->number.value : scanned->number.value;
    return scanned->number;
}

Result<double> readNetlistNumber(std::string_view text) {
    const Result<NetlistNumber> number = readDoubtfulNumber(text);
    if (!number) {
        return number.error();
    }
    return number->value;
}

}  // namespace ohmwright
