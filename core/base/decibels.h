/// Ratios and levels in decibels; a ratio of 0 is minus infinity, never a made-up floor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

namespace ohmwright {

/// 20 log10 of a ratio of amplitudes.
inline double amplitudeDb(double ratio) {
    return 20.0 * std::log10(ratio);
}

inline double amplitudeRatio(double decibels) {
    return std::pow(10.0, decibels / 20.0);
}

/// dBV: 20 log10 of volts RMS against 1 V RMS.
inline double dbv(double voltsRms) {
    return amplitudeDb(voltsRms);
}

}  // namespace ohmwright
