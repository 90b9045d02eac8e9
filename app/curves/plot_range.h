/// Ranges of the plots' vertical axes: they grow in whole steps and never shrink by themselves.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace ohmwright {

struct PlotRange {
    double low = 0.0;
    double high = 0.0;

    friend bool operator==(const PlotRange&, const PlotRange&) = default;
};

/// The whole axis of frequencies [Hz].
inline constexpr PlotRange wholeHz{20.0, 20000.0};

inline constexpr double gainStepDb = 6.0;
inline constexpr double differenceStepDb = 3.0;
inline constexpr double clipStepVolts = 0.2;

/// What an axis shows before a curve asks for more.
inline constexpr PlotRange restingGainRange{-30.0, 12.0};
inline constexpr PlotRange restingDifferenceRange{-3.0, 3.0};
inline constexpr PlotRange restingClipRange{-0.2, 0.2};

/// Lowest and highest finite value at `x` from `from` to `to`; absent when there is none.
std::optional<PlotRange> extentBetween(std::span<const double> x, std::span<const double> values, double from,
                                       double to);

/// `shown`, grown in whole multiples of `step` until it holds `values` with a twelfth of a step to spare.
/// REQUIRES: step > 0; `values` finite.
PlotRange grownToHold(const PlotRange& shown, const PlotRange& values, double step);

/// Range of the gain axis [dB]: holds stock wherever it goes, and the other curves upwards; these may ask for 48 dB
/// below stock, so that a lifted leg at −120 dB does not squeeze stock flat.
PlotRange gainRange(const PlotRange& shown, const PlotRange& stock, std::span<const PlotRange> others);

/// Range of the difference axis [dB]; a broken connection does not stretch it beyond 96 dB either way.
PlotRange differenceRange(const PlotRange& shown, const PlotRange& differences);

/// Range of the clip axis [V], the same above and below 0.
PlotRange clipRange(const PlotRange& shown, const PlotRange& peaks);

/// The smallest of `steps` whose labels, `lineHeight` high, keep clear of each other over `pixels`; the last
/// one when none does.
/// REQUIRES: `steps` ascending, not empty.
double labelStep(const PlotRange& range, double pixels, double lineHeight, std::span<const double> steps);

/// Multiples of `step` inside the range, ascending.
std::vector<double> multiplesIn(const PlotRange& range, double step);

}  // namespace ohmwright
