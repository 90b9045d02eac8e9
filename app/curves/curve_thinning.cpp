// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_thinning.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

/// Slopes from the last kept point that still pass all points since then.
struct Cone {
    double lowest = -std::numeric_limits<double>::infinity();
    double highest = std::numeric_limits<double>::infinity();

    void narrowTo(double dx, double dy, double tolerance) {
        lowest = std::max(lowest, (dy - tolerance) / dx);
        highest = std::min(highest, (dy + tolerance) / dx);
    }
    [[nodiscard]] bool holds(double slope) const { return slope >= lowest && slope <= highest; }
};

}  // namespace

std::vector<std::size_t> pointsToDraw(std::span<const double> x, std::span<const double> y, double tolerance) {
    std::vector<std::size_t> kept;
    Cone cone;
    const auto keep = [&](std::size_t i) {
        if (kept.empty() || kept.back() != i) {
            kept.push_back(i);
        }
        cone = Cone();
    };
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (i == 0 || !std::isfinite(y[i]) || !std::isfinite(y[i - 1])) {
            // The end of a stretch is kept before the gap opens.
            if (i > 0) {
                keep(i - 1);
            }
            keep(i);
            continue;
        }
        const std::size_t from = kept.back();
        if (from != i - 1 && !cone.holds((y[i] - y[from]) / (x[i] - x[from]))) {
            keep(i - 1);
        }
        const std::size_t anchor = kept.back();
        cone.narrowTo(x[i] - x[anchor], y[i] - y[anchor], tolerance);
    }
    if (!x.empty()) {
        keep(x.size() - 1);
    }
    return kept;
}

}  // namespace ohmwright
