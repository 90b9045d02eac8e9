/// Misses of wanted figures on a grid of part values, and between its knots.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace ohmwright {

/// Equal steps in log value.
struct Axis {
    double from = 0.0;
    double step = 0.0;
    std::size_t knots = 1;

    static Axis over(double from, double to, std::size_t knots) {
        const bool isPoint = to - from < 1e-12;
        return isPoint ? Axis{from, 1.0, 1} : Axis{from, (to - from) / double(knots - 1), knots};
    }
    [[nodiscard]] double at(std::size_t knot) const { return from + step * double(knot); }
    [[nodiscard]] double to() const { return at(knots - 1); }
};

/// Weights of the four knots about a place (of all there are when fewer), by Lagrange's formula.
struct Weights {
    std::size_t first = 0;
    std::size_t count = 0;
    std::array<double, 4> weight{};

    Weights(const Axis& axis, double place) {
        count = std::min<std::size_t>(axis.knots, 4);
        const double inSteps = (place - axis.from) / axis.step;
        const auto cell = std::ptrdiff_t(std::floor(inSteps)) - std::ptrdiff_t(count) / 2 + 1;
        first = std::size_t(std::clamp<std::ptrdiff_t>(cell, 0, std::ptrdiff_t(axis.knots - count)));
        const double x = inSteps - double(first);
        for (std::size_t k = 0; k < count; ++k) {
            weight[k] = 1.0;
            for (std::size_t other = 0; other < count; ++other) {
                weight[k] *= other == k ? 1.0 : (x - double(other)) / (double(k) - double(other));
            }
        }
    }
};

/// Misses of every want on a grid of the values of two parts (one when the second axis is a point).
struct Grid {
    Axis first, second;
    std::size_t wants = 0;
    std::vector<double> misses;  ///< [first][second][want]

    [[nodiscard]] const double* at(std::size_t a, std::size_t b) const {
        return &misses[(a * second.knots + b) * wants];
    }
    /// The misses along the second axis at a place of the first: [second][want].
    void sliceAt(double place, std::vector<double>& slice) const {
        const Weights weights(first, place);
        slice.assign(second.knots * wants, 0.0);
        for (std::size_t k = 0; k < weights.count; ++k) {
            const double* row = at(weights.first + k, 0);
            for (std::size_t n = 0; n < slice.size(); ++n) {
                slice[n] += weights.weight[k] * row[n];
            }
        }
    }
};

/// Score at a place of the second axis on a slice, the root of the sum of squares; NaN where a figure is missing
/// nearby.
double scoreOn(const std::vector<double>& slice, const Axis& axis, std::size_t wants, double place);

}  // namespace ohmwright
