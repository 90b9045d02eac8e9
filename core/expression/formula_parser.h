/// Reads a formula into steps, by precedence: sum, product, sign, power, and what stands in brackets.
///
/// Constants are put together while reading, by the same arithmetic that an evaluation would use. What has no number
/// (1/0) is left as it stands.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/expression/expression.h"
#include "core/expression/formula_tape.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

struct ParsedFormula {
    std::vector<FormulaStep> steps;
    std::vector<LawVariable> variables;
    std::vector<std::string> doubts;
};

inline constexpr std::size_t greatestFormulaLength = 65536;
inline constexpr int greatestFormulaDepth = 200;
inline constexpr std::size_t greatestVariableCount = 200;

/// Errors: as Expression::parse.
Result<ParsedFormula> parseFormula(std::string_view text, const std::map<std::string, double>& parameters);

}  // namespace ohmwright
