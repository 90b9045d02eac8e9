// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/plot_range.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// How far now and ghost may stretch the axis below stock [dB]: a muted stage is seen, a lifted leg is not.
constexpr double reachBelowStockDb = 48.0;
/// Beyond this a gain is a broken connection, and its figure says so better than a curve [dB].
constexpr double furthestDb = 240.0;
constexpr double furthestDifferenceDb = 96.0;

}  // namespace

std::optional<PlotRange> extentBetween(std::span<const double> x, std::span<const double> values, double from,
                                       double to) {
    std::optional<PlotRange> extent;
    for (std::size_t i = 0; i < std::min(x.size(), values.size()); ++i) {
        if (x[i] < from || x[i] > to || !std::isfinite(values[i])) {
            continue;
        }
        extent = extent ? PlotRange{std::min(extent->low, values[i]), std::max(extent->high, values[i])}
                        : PlotRange{values[i], values[i]};
    }
    return extent;
}

PlotRange grownToHold(const PlotRange& shown, const PlotRange& values, double step) {
    const double spare = step / 12.0;
    const double below = std::max(0.0, std::ceil((shown.low - values.low + spare) / step));
    const double above = std::max(0.0, std::ceil((values.high - shown.high + spare) / step));
    return {shown.low - below * step, shown.high + above * step};
}

PlotRange gainRange(const PlotRange& shown, const PlotRange& stock, std::span<const PlotRange> others) {
    PlotRange wanted{std::max(stock.low, -furthestDb), std::min(stock.high, furthestDb)};
    const PlotRange furthest{wanted.low - reachBelowStockDb, furthestDb};
    for (const PlotRange& other : others) {
        wanted.low = std::min(wanted.low, std::max(other.low, furthest.low));
        wanted.high = std::max(wanted.high, std::min(other.high, furthest.high));
    }
    return grownToHold(shown, wanted, gainStepDb);
}

PlotRange differenceRange(const PlotRange& shown, const PlotRange& differences) {
    return grownToHold(
        shown, {std::max(differences.low, -furthestDifferenceDb), std::min(differences.high, furthestDifferenceDb)},
        differenceStepDb);
}

PlotRange clipRange(const PlotRange& shown, const PlotRange& peaks) {
    const double reach = std::max(std::abs(peaks.low), std::abs(peaks.high));
    return grownToHold(shown, {-reach, reach}, clipStepVolts);
}

double labelStep(const PlotRange& range, double pixels, double lineHeight, std::span<const double> steps) {
    for (const double step : steps) {
        if (step / (range.high - range.low) * pixels >= lineHeight) {
            return step;
        }
    }
    return steps.back();
}

std::vector<double> multiplesIn(const PlotRange& range, double step) {
    // A millionth of a step, so that 0.6 counts as three times 0.2.
    constexpr double slack = 1.0e-6;
    std::vector<double> multiples;
    const auto last = static_cast<long>(std::floor(range.high / step + slack));
    for (auto n = static_cast<long>(std::ceil(range.low / step - slack)); n <= last; ++n) {
        multiples.push_back(static_cast<double>(n) * step);
    }
    return multiples;
}

}  // namespace ohmwright
