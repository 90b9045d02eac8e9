/// A number at the head of a text, with the netlist's suffixes; what readNetlistNumber and the formulas share.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/expression/expression.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace ohmwright {

struct ScannedNumber {
    NetlistNumber number;
    std::size_t length = 0;  ///< Characters used, suffix and unit among them.
};

/// @param text  starts with a digit or a point.
/// @param commaSeparates  true between the brackets of a function, where a comma ends the number.
/// Errors: as readNetlistNumber.
Result<ScannedNumber> scanNumber(std::string_view text, bool commaSeparates);

/// Whether a number starts here: a digit, or a point before a digit.
bool startsNumber(std::string_view text);

}  // namespace ohmwright
