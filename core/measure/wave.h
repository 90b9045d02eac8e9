/// What a period of a settled wave tells: mean, RMS, peaks, harmonics.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <span>
#include <vector>

namespace ohmwright {

/// Samples are equally spaced over exactly one period.
double meanOf(std::span<const double> period);

/// RMS of the alternating part (mean removed).
double alternatingRms(std::span<const double> period);

/// A wave under this is what the solver leaves of nothing (some 10 pV on the demo with its input open) [V RMS].
inline constexpr double silentVoltsRms = 1e-9;

/// Highest and lowest value, between samples by a parabola through the three around it.
struct Peaks {
    double highest = 0.0;
    double lowest = 0.0;
};
Peaks peaksOf(std::span<const double> period);

/// Harmonic n as a complex peak amplitude against sin(2 pi n t/T): |c| is its peak, arg c its phase. Entry 0 is the
/// mean.
/// @param firstSampleShare  place of the first sample in the period, 0..1 (settled states begin one step in).
/// @return count + 1 entries; all samples are used, none decimated.
std::vector<std::complex<double>> harmonicsOf(std::span<const double> period, int count, double firstSampleShare);

/// Root of the sum of squares of harmonics 2..count over the fundamental, a ratio. (Over the fundamental, not over the
/// total RMS.)
double totalHarmonicDistortion(const std::vector<std::complex<double>>& harmonics);

}  // namespace ohmwright
