/// A bound on Newton's steps at the gate of a field-effect transistor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>

namespace ohmwright {

/// The gate voltage that Newton may go to, coming from `previous` and asking for `proposed` [V]: the overdrive grows or
/// falls to no more than three times itself and 2 V, and a step across the threshold stops half a volt behind it.
/// Source: the aim is that of Nagel, UCB/ERL M520 (1975), appendix; the rule is our own and simpler.
inline double limitedGateVolts(double proposed, double previous, double threshold) {
    constexpr double pastThreshold = 0.5;
    const double largest = 2.0 * std::abs(previous - threshold) + 2.0;
    const double held = std::clamp(proposed, previous - largest, previous + largest);
    return previous < threshold ? std::min(held, threshold + pastThreshold) : std::max(held, threshold - pastThreshold);
}

}  // namespace ohmwright
