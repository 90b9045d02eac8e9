/// Which points of a curve have to be drawn: long straight stretches need only their ends.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace ohmwright {

/// Indices of the points to keep, ascending, first and last included: straight lines between them pass every point
/// left out within `tolerance`, in the unit of `y`. Points without a finite value are kept, so that a gap stays one.
/// A wide pen over 300 points costs milliseconds; a response is mostly straight over log frequency.
/// REQUIRES: x ascending, as long as y; tolerance > 0.
std::vector<std::size_t> pointsToDraw(std::span<const double> x, std::span<const double> y, double tolerance);

}  // namespace ohmwright
