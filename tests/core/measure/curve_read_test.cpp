/// Expected values by hand.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/curve_read.h"

#include <gtest/gtest.h>

#include <limits>

namespace ohmwright {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

CurveTable tableOf(CurveKind kind, std::vector<double> axis, std::vector<double> values) {
    CurveTable table;
    table.kind = kind;
    table.columns = {{"x", "x", "", std::move(axis)}, {"y", "y", "", std::move(values)}};
    return table;
}

TEST(CurveRead, FrequenciesAreReadOverTheirLogarithmAndTimeIsNot) {
    // Halfway between 100 Hz and 400 Hz on the axis is 200 Hz.
    EXPECT_NEAR(*curveValueAt(tableOf(CurveKind::response, {100, 400}, {-6, 6}), 1, 200.0), 0.0, 1e-12);
    EXPECT_NEAR(*curveValueAt(tableOf(CurveKind::wave, {1, 4}, {-6, 6}), 1, 2.5), 0.0, 1e-12);
}

TEST(CurveRead, NothingIsReadWhereNothingWasSolved) {
    const CurveTable table = tableOf(CurveKind::noise, {20, 200, 2000}, {30, none, 50});
    EXPECT_FALSE(curveValueAt(table, 1, 10.0));
    EXPECT_FALSE(curveValueAt(table, 1, 100.0)) << "beside a missing value";
    EXPECT_DOUBLE_EQ(*curveValueAt(table, 1, 20.0), 30.0);
    EXPECT_DOUBLE_EQ(*curveValueAt(table, 1, 2000.0), 50.0);
    EXPECT_FALSE(curveValueAt(CurveTable(), 1, 1.0));
    EXPECT_FALSE(curveValueAt(table, 2, 20.0));
}

TEST(CurveRead, BetweenTwoHarmonicsThereIsNone) {
    const CurveTable table = tableOf(CurveKind::harmonics, {1, 2, 3}, {0, -70, -20});
    EXPECT_DOUBLE_EQ(*curveValueAt(table, 1, 3.0), -20.0);
    EXPECT_FALSE(curveValueAt(table, 1, 2.5));
}

TEST(CurveRead, TheNearestRungIsFoundByRatio) {
    const CurveTable table = tableOf(CurveKind::ladder, {0.01, 0.1, 1.0}, {0, 0, 0});
    EXPECT_EQ(nearestRow(table, 0.05), 1U) << "five times 10 mV, but half of 100 mV";
    EXPECT_EQ(nearestRow(table, 0.02), 0U);
    CurveTable named;
    named.rows = {"vb"};
    named.columns = {{"bias_v", "no signal", "V", {4.5}}};
    EXPECT_FALSE(nearestRow(named, 1.0));
}

TEST(CurveRead, LevelsChangeTheirUnitAndNothingElseDoes) {
    CurveTable ladder;
    ladder.kind = CurveKind::ladder;
    ladder.columns = {{"pick_v_peak", "pick level", "Vpk", {0.1}},
                      {"output_dbv", "output", "dBV", {-20.0}},
                      {"slope_db_per_db", "slope", "dB per dB", {0.5}}};
    const CurveTable inRms = inLevelUnit(ladder, LevelUnit::millivoltsRms);
    EXPECT_EQ(inRms.columns[0].id, "pick_mv_rms");
    EXPECT_EQ(inRms.columns[0].unit, "mVrms");
    EXPECT_NEAR(inRms.columns[0].values[0], 70.71, 0.01);
    EXPECT_EQ(inRms.columns[1].id, "output_mv_rms");
    EXPECT_NEAR(inRms.columns[1].values[0], 100.0, 1e-9) << "-20 dBV are 0.1 V RMS";
    EXPECT_EQ(inRms.columns[2].values[0], 0.5);
    // An RMS figure has no peak: it stays in dBV beside picks in mVpk.
    const CurveTable inPeak = inLevelUnit(ladder, LevelUnit::millivoltsPeak);
    EXPECT_DOUBLE_EQ(inPeak.columns[0].values[0], 100.0);
    EXPECT_EQ(inPeak.columns[1].unit, "dBV");
    EXPECT_EQ(inPeak.columns[1].values[0], -20.0);
    const CurveTable inDbu = inLevelUnit(ladder, LevelUnit::dbu);
    EXPECT_NEAR(inDbu.columns[1].values[0], -17.7815, 1e-3) << "0 dBV is +2.2185 dBu";
}

TEST(CurveRead, VoltsBecomeMillivolts) {
    CurveTable wave;
    wave.kind = CurveKind::wave;
    wave.columns = {{"time_ms", "time", "ms", {1.0}}, {"output_v", "output", "V", {0.0331}}};
    const CurveTable small = inMillivolts(wave);
    EXPECT_EQ(small.columns[1].id, "output_mv");
    EXPECT_EQ(small.columns[1].unit, "mV");
    EXPECT_NEAR(small.columns[1].values[0], 33.1, 1e-12);
    EXPECT_EQ(small.columns[0].values[0], 1.0);
}

}  // namespace
}  // namespace ohmwright
