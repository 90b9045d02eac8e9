// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/wave.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace ohmwright {

namespace {

/// Height of a parabola's vertex through three equally spaced samples around the middle one.
double vertexHeight(double before, double middle, double after) {
    const double bend = before - 2.0 * middle + after;
    if (bend == 0.0) {
        return middle;
    }
    const double slope = (after - before) / 2.0;
    return middle - slope * slope / (2.0 * bend);
}

}  // namespace

double meanOf(std::span<const double> period) {
    return std::accumulate(period.begin(), period.end(), 0.0) / double(period.size());
}

double alternatingRms(std::span<const double> period) {
    const double mean = meanOf(period);
    double sum = 0.0;
    for (const double value : period) {
        sum += (value - mean) * (value - mean);
    }
    return std::sqrt(sum / double(period.size()));
}

Peaks peaksOf(std::span<const double> period) {
    const auto [low, high] = std::minmax_element(period.begin(), period.end());
    const std::size_t count = period.size();
    const auto vertexAt = [&](std::size_t k) {
        return vertexHeight(period[(k + count - 1) % count], period[k], period[(k + 1) % count]);
    };
    return {vertexAt(std::size_t(high - period.begin())), vertexAt(std::size_t(low - period.begin()))};
}

std::vector<std::complex<double>> harmonicsOf(std::span<const double> period, int count, double firstSampleShare) {
    std::vector<std::complex<double>> harmonics{meanOf(period)};
    const auto samples = double(period.size());
    for (int n = 1; n <= count; ++n) {
        std::complex<double> sum = 0.0;
        for (std::size_t k = 0; k < period.size(); ++k) {
            const double angle = 2.0 * std::numbers::pi * n * (double(k) / samples + firstSampleShare);
            sum += period[k] * std::polar(1.0, -angle);
        }
        // a sin + b cos has the coefficient (b - j a)/2; turned so that a pure sine has phase 0.
        harmonics.push_back(2.0 / samples * sum * std::complex<double>(0.0, 1.0));
    }
    return harmonics;
}

double totalHarmonicDistortion(const std::vector<std::complex<double>>& harmonics) {
    double sum = 0.0;
    for (std::size_t n = 2; n < harmonics.size(); ++n) {
        sum += std::norm(harmonics[n]);
    }
    return std::sqrt(sum) / std::abs(harmonics[1]);
}

}  // namespace ohmwright
