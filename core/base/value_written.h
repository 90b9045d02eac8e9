/// A value as it was written, taken apart letter by letter, before anything is said about what it means.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"

#include <optional>
#include <string>
#include <string_view>

namespace ohmwright {

/// "4k7J" is whole 4, scale k, fraction 7, tolerance J.
struct Written {
    std::string whole;
    std::string fraction;
    bool hasPoint = false;
    bool hasComma = false;
    std::string scale;  ///< As in the unit's scale table; empty when none.
    bool scaleIsPoint = false;
    bool hasUnit = false;
    char tolerance = '\0';
};

bool isDigit(char c);

/// The text in plain letters without outer and separating spaces; a space between digits stays and is refused later.
std::string plain(std::string_view text);

/// Number, scale letter (which may stand for the point), unit word and tolerance letter of a text that is plain();
/// nothing where something is left over.
std::optional<Written> takeApart(std::string_view text, Unit unit);

/// Of a scale in the unit's table: 3 for the k of "4k7"; 0 for an unknown one.
int scaleExponent(const std::string& scale, Unit unit);

/// The decimal number as the nearest double, so that "4k7" is exactly 4.7e3.
double decimalNumber(const std::string& whole, const std::string& fraction, int exponent);

}  // namespace ohmwright
