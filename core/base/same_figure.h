/// Figures that are the same but for the last digits.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>

namespace ohmwright {

/// Within 1e-9 of the larger: "56n" typed and 56e-9 computed differ in the last digits only.
inline bool isSameFigure(double a, double b) {
    constexpr double lastDigits = 1e-9;
    return std::abs(a - b) <= lastDigits * std::max(std::abs(a), std::abs(b));
}

}  // namespace ohmwright
