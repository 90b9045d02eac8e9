/// Units in which a technician reads a level, and the conversion between them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace ohmwright {

enum class LevelUnit {
    millivoltsPeak,  ///< Peak of a sine.
    millivoltsRms,
    dbv,  ///< dB re 1 V RMS.
    dbu,  ///< dB re 0.7746 V RMS, which is 1 mW in 600 ohms.
};

struct LevelUnitName {
    LevelUnit unit;
    std::string_view id;    ///< "mvpk", in settings and on the command line.
    std::string_view name;  ///< "mVpk", as it is shown.
};
inline constexpr std::array<LevelUnitName, 4> levelUnitNames{{{LevelUnit::millivoltsPeak, "mvpk", "mVpk"},
                                                              {LevelUnit::millivoltsRms, "mvrms", "mVrms"},
                                                              {LevelUnit::dbv, "dbv", "dBV"},
                                                              {LevelUnit::dbu, "dbu", "dBu"}}};

constexpr std::string_view nameOf(LevelUnit unit) {
    return levelUnitNames[static_cast<std::size_t>(unit)].name;
}

constexpr bool isDecibels(LevelUnit unit) {
    return unit == LevelUnit::dbv || unit == LevelUnit::dbu;
}

/// A sine of so many volts peak. 0 V is minus infinity in decibels.
double levelOfPeak(double voltsPeak, LevelUnit unit);
/// The sine's volts peak of a level; inverse of levelOfPeak.
double peakOfLevel(double level, LevelUnit unit);
/// So many volts RMS of any wave. As millivolts peak it is what a sine of that RMS would have, not the wave's own peak.
double levelOfRms(double voltsRms, LevelUnit unit);

/// What an RMS figure of a wave that is no sine is said in where levels are read in `unit`: it has no peak by its RMS,
/// and is in dBV then.
LevelUnit rmsUnitBeside(LevelUnit unit);

/// The figure alone: "100", "−23.0". Millivolts from 10 on are whole, nobody sets a generator finer; decibels have one
/// decimal; NaN and infinity are "none".
std::string formatLevel(double level, LevelUnit unit);

}  // namespace ohmwright
