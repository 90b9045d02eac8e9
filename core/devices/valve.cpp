// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/valve.h"

#include <cmath>

namespace ohmwright {

ValueAndSlope softplus(double x) {
    // One exponential of a negative number, which cannot overflow: ln(1 + e^x) = max(x, 0) + ln(1 + e^-|x|).
    const double small = std::exp(-std::abs(x));
    const double share = 1.0 / (1.0 + small);
    return {std::log1p(small) + (x > 0.0 ? x : 0.0), x > 0.0 ? share : small * share};
}

ValueAndSlope positivePower(double x, double exponent) {
    if (x <= 0.0) {
        return {};
    }
    const double power = exponent == 1.5 ? x * std::sqrt(x) : std::pow(x, exponent);
    return {power, exponent * power / x};
}

}  // namespace ohmwright
