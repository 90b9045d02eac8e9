/// What a value taken apart may mean: every way to read it, the likeliest first.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/value_text.h"
#include "core/base/value_written.h"

#include <vector>

namespace ohmwright {

/// @param si         [unit], as the number reads.
/// @param tolerance  letter of IEC 60062, '\0' for none.
ValueReading reading(double si, Unit unit, char tolerance, std::string because);

/// By scale letter and unit.
std::vector<ValueReading> readScaled(const Written& written, Unit unit);

/// [F] By code, by what is printed, and by custom.
std::vector<ValueReading> readCapacitor(const Written& written);

}  // namespace ohmwright
