// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/level_unit.h"

#include "core/base/decibels.h"
#include "core/base/number_text.h"

#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

constexpr double millivoltsPerVolt = 1000.0;
/// The root of 1 mW times 600 ohms [V RMS]. Common practice of audio; source: Recommendation ITU-R BS.645-2, 0.775 V.
constexpr double dbuVoltsRms = 0.7745966692414834;
constexpr double peakOverRms = std::numbers::sqrt2;

}  // namespace

double levelOfRms(double voltsRms, LevelUnit unit) {
    switch (unit) {
        case LevelUnit::millivoltsPeak:
            return voltsRms * peakOverRms * millivoltsPerVolt;
        case LevelUnit::millivoltsRms:
            return voltsRms * millivoltsPerVolt;
        case LevelUnit::dbv:
            return dbv(voltsRms);
        case LevelUnit::dbu:
            return amplitudeDb(voltsRms / dbuVoltsRms);
    }
    return voltsRms;
}

double levelOfPeak(double voltsPeak, LevelUnit unit) {
    // Without the way over RMS, so that 100 mV peak are 100 and not 99.99999999999999.
    return unit == LevelUnit::millivoltsPeak ? voltsPeak * millivoltsPerVolt
                                             : levelOfRms(voltsPeak / peakOverRms, unit);
}

double peakOfLevel(double level, LevelUnit unit) {
    switch (unit) {
        case LevelUnit::millivoltsPeak:
            return level / millivoltsPerVolt;
        case LevelUnit::millivoltsRms:
            return level * peakOverRms / millivoltsPerVolt;
        case LevelUnit::dbv:
            return amplitudeRatio(level) * peakOverRms;
        case LevelUnit::dbu:
            return amplitudeRatio(level) * dbuVoltsRms * peakOverRms;
    }
    return level;
}

LevelUnit rmsUnitBeside(LevelUnit unit) {
    return unit == LevelUnit::millivoltsPeak ? LevelUnit::dbv : unit;
}

std::string formatLevel(double level, LevelUnit unit) {
    constexpr double wholeFrom = 10.0;
    if (isDecibels(unit)) {
        return formatFixed(level, 1);
    }
    return std::abs(level) >= wholeFrom ? formatFixed(level, 0) : formatFigure(level);
}

}  // namespace ohmwright
