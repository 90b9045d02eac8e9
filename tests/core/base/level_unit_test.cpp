// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/level_unit.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

// By hand: 0.1 / 1.41421 = 0.0707107 V; 20 log10 of it -23.0103; over 0.774597 V -20.7918.
TEST(LevelUnit, AHundredMillivoltsPeakInEveryUnit) {
    EXPECT_DOUBLE_EQ(levelOfPeak(0.1, LevelUnit::millivoltsPeak), 100.0);
    EXPECT_NEAR(levelOfPeak(0.1, LevelUnit::millivoltsRms), 70.7107, 1e-4);
    EXPECT_NEAR(levelOfPeak(0.1, LevelUnit::dbv), -23.0103, 1e-4);
    EXPECT_NEAR(levelOfPeak(0.1, LevelUnit::dbu), -20.7918, 1e-4);
    EXPECT_EQ(formatLevel(levelOfPeak(0.1, LevelUnit::millivoltsPeak), LevelUnit::millivoltsPeak), "100");
    EXPECT_EQ(formatLevel(levelOfPeak(0.1, LevelUnit::millivoltsRms), LevelUnit::millivoltsRms), "71");
    EXPECT_EQ(formatLevel(levelOfPeak(0.1, LevelUnit::dbv), LevelUnit::dbv), "\u221223.0");
    EXPECT_EQ(formatLevel(levelOfPeak(0.1, LevelUnit::dbu), LevelUnit::dbu), "\u221220.8");
}

TEST(LevelUnit, EveryUnitLeadsBack) {
    for (const LevelUnitName& each : levelUnitNames) {
        for (const double volts : {0.002, 0.0508, 1.0, 3.0}) {
            EXPECT_NEAR(peakOfLevel(levelOfPeak(volts, each.unit), each.unit), volts, 1e-12) << each.name;
        }
    }
}

TEST(LevelUnit, ZeroDbuIsAMilliwattInSixHundredOhms) {
    EXPECT_NEAR(levelOfRms(0.7746, LevelUnit::dbu), 0.0, 1e-4);
    EXPECT_NEAR(levelOfRms(0.7746, LevelUnit::dbv), -2.2184, 1e-4);
}

TEST(LevelUnit, NoVoltsHaveNoLevelInDecibels) {
    EXPECT_EQ(formatLevel(levelOfPeak(0.0, LevelUnit::dbv), LevelUnit::dbv), "none");
    EXPECT_EQ(formatLevel(levelOfPeak(0.0, LevelUnit::millivoltsPeak), LevelUnit::millivoltsPeak), "0.00");
    EXPECT_EQ(formatLevel(2.5, LevelUnit::millivoltsPeak), "2.50");
}

// A clipped wave's RMS says nothing of its peak.
TEST(LevelUnit, AnRmsFigureIsNeverSaidAsAPeak) {
    EXPECT_EQ(rmsUnitBeside(LevelUnit::millivoltsPeak), LevelUnit::dbv);
    EXPECT_EQ(rmsUnitBeside(LevelUnit::millivoltsRms), LevelUnit::millivoltsRms);
    EXPECT_EQ(rmsUnitBeside(LevelUnit::dbu), LevelUnit::dbu);
}

}  // namespace
}  // namespace ohmwright
