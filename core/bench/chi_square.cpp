// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/chi_square.h"

#include <array>
#include <cassert>
#include <cmath>

namespace ohmwright {

double chiSquare95(int count) {
    assert(count >= 1);
    constexpr std::array table{3.841,  5.991,  7.815,  9.488,  11.070, 12.592, 14.067, 15.507, 16.919, 18.307,
                               19.675, 21.026, 22.362, 23.685, 24.996, 26.296, 27.587, 28.869, 30.144, 31.410};
    if (count <= static_cast<int>(table.size())) {
        return table[static_cast<std::size_t>(count) - 1];
    }
    constexpr double z95 = 1.6449;  // One-sided 95 % point of the standard normal distribution.
    const double share = 2.0 / (9.0 * count);
    return count * std::pow(1.0 - share + z95 * std::sqrt(share), 3);
}

}  // namespace ohmwright
