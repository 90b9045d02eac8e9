/// Values with their units, for sentences about values; everybody else writes them by value_text.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"

#include <string>

namespace ohmwright {

/// Two decimal numbers nearer than this, relative to either, are one: rounding of a double is 1e-16, a sixth digit
/// 1e-6.
constexpr double sameNumber = 1e-9;

/// "4.7 kΩ": at least `fewestDigits` digits, more up to five where they tell the value exactly, else three.
std::string withUnit(Quantity value, int fewestDigits);

}  // namespace ohmwright
