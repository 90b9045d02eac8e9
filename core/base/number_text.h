/// Figures as the house writes them: one place for every number a person reads.
///
/// True minus sign (U+2212), space before the unit, three significant digits; a value that does not
/// exist is a word. Machine-readable output (CSV, JSON) does not pass through here.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace ohmwright {

/// Between the whole and the broken part of a number. ISO 80000-1:2009, 7.3.2: a comma or a point on the line.
enum class DecimalMark : char { point = '.', comma = ',' };

/// Of this process: set once at start with the language; point until then. Any thread.
DecimalMark decimalMark();
void setDecimalMark(DecimalMark mark);

enum class Sign { minusOnly, always };

/// "5.77", "13.3", "−0.09", "729", "1.05k" is never used: thousands keep their digits. Values under
/// 10 have two decimals, under 100 one, else none. NaN and infinity are "none", here and below: a dead circuit has no
/// level.
std::string formatFigure(double value, Sign sign = Sign::minusOnly);

/// With exactly `decimals` places and a true minus; "−0.00" becomes "0.00" ("+0.00" stays unsigned too).
std::string formatFixed(double value, int decimals, Sign sign = Sign::minusOnly);

/// "82.4 Hz", "1.05 kHz", "18.5 kHz": three significant digits.
std::string formatFrequency(double hertz);

/// Peak pair of a clipping curve: "±0.24" when both round alike, else "+0.53 / −0.23". Volts, two decimals.
std::string formatVoltPair(double positive, double negative);

}  // namespace ohmwright
