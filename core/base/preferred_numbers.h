/// Preferred numbers of parts: the E series of IEC 60063.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace ohmwright {

enum class Series { e3 = 3, e6 = 6, e12 = 12, e24 = 24, e48 = 48, e96 = 96, e192 = 192 };

/// The values of one decade, 1.0 <= v < 10, ascending.
/// Source: IEC 60063; E48..E192 by its rule round(10^(n/N), 3 digits) with the one exception 9.20 of E192.
std::span<const double> decadeOf(Series series);

/// Nearest value of the series by ratio (log distance), looking across the decade edge.
/// REQUIRES: value > 0 and finite. (Same for the two below.)
double nearestPreferred(double value, Series series);

/// The next value strictly above (a value within 1e-9 relative of a member counts as that member).
double nextPreferred(double value, Series series);

/// The next value strictly below.
double previousPreferred(double value, Series series);

bool isPreferred(double value, Series series);

}  // namespace ohmwright
