/// What triode and pentode laws share: soft cutoff, power law and grid current.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/devices/junction.h"

#include <cmath>

namespace ohmwright {

/// ln(1 + exp(x)) and its slope, for any x.
inline ValueAndSlope softplus(double x) {
    // One exponential of a negative number, which cannot overflow: ln(1 + e^x) = max(x, 0) + ln(1 + e^-|x|).
    const double small = std::exp(-std::abs(x));
    const double share = 1.0 / (1.0 + small);
    return {std::log1p(small) + (x > 0.0 ? x : 0.0), x > 0.0 ? share : small * share};
}

/// x^exponent for x > 0, else 0, and its slope. REQUIRES: exponent >= 1, so that it is smooth at 0.
inline ValueAndSlope positivePower(double x, double exponent) {
    if (x <= 0.0) {
        return {};
    }
    const double power = exponent == 1.5 ? x * std::sqrt(x) : std::exp(exponent * std::log(x));
    return {power, exponent * power / x};
}

}  // namespace ohmwright
