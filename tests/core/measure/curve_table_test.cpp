/// Reference: tests/reference/harbour-lamp-figures.csv (stock at 220 Hz, 100 mVpk; its source stands in its head),
/// looked up by the demo netlist that those figures are of.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/curve_table.h"

#include "core/measure/wave.h"
#include "tests/support/demo_job.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

CurveTable measured(CurveKind kind, const Circuit& circuit, const Setting& setting) {
    const Result<CurveTable> table = measureCurve(kind, circuit, setting);
    EXPECT_TRUE(table) << table.error().message;
    return table ? *table : CurveTable();
}

class HarbourLampCurves : public testing::Test {
protected:
    const Job job = test::harbourLamp();

    [[nodiscard]] CurveTable of(CurveKind kind) const { return measured(kind, job.stock, job.setting); }
};

TEST_F(HarbourLampCurves, HarmonicsAreThoseOfTheReference) {
    const CurveTable table = of(CurveKind::harmonics);
    ASSERT_EQ(table.rowCount(), 10U);
    const std::vector<double>& level = table.columns[1].values;
    EXPECT_DOUBLE_EQ(level[0], 0.0);
    EXPECT_NEAR(level[1], -73.884, 0.1);
    EXPECT_NEAR(level[2], -19.6186, 0.1);
    EXPECT_NEAR(level[4], -38.2239, 0.1);
    EXPECT_NEAR(level[6], -54.7996, 0.1);
    EXPECT_TRUE(std::isnan(level[5])) << "the reference has it under -90 dB: rounding is no figure";
}

TEST_F(HarbourLampCurves, TheLadderRunsThroughThePlayersLevel) {
    const CurveTable table = of(CurveKind::ladder);
    const std::vector<double>& pick = table.columns[0].values;
    const std::vector<double>& output = table.columns[1].values;
    const std::vector<double>& slope = table.columns[2].values;
    ASSERT_EQ(pick.size(), 13U) << "twelve rungs and the player's own level";
    EXPECT_DOUBLE_EQ(pick.front(), 2e-3);
    EXPECT_DOUBLE_EQ(pick.back(), 1.0);
    EXPECT_TRUE(std::is_sorted(pick.begin(), pick.end()));
    const auto player = std::find(pick.begin(), pick.end(), 0.1);
    ASSERT_NE(player, pick.end());
    const auto at = static_cast<std::size_t>(player - pick.begin());
    EXPECT_NEAR(output[at], -28.315, 0.01);
    EXPECT_NEAR(slope[at], 0.5213, 0.005);
    EXPECT_NEAR(slope.front(), 1.0, 0.01) << "a few millivolts are not squashed";
    EXPECT_TRUE(table.trouble.empty());
}

TEST_F(HarbourLampCurves, TheWaveHasThePeaksOfTheReference) {
    const CurveTable table = of(CurveKind::wave);
    const std::vector<double>& volts = table.columns[1].values;
    EXPECT_NEAR(peaksOf(volts).highest, 0.0506761, 1e-4);
    EXPECT_NEAR(peaksOf(volts).lowest, -0.0506641, 1e-4);
    EXPECT_NEAR(table.columns[0].values.back(), 1000.0 / 220.0, 1e-9) << "a period ends it";
    EXPECT_NEAR(peaksOf(table.columns[2].values).highest, 0.1, 1e-6);
}

TEST_F(HarbourLampCurves, NoiseAtOneKilohertz) {
    const CurveTable table = of(CurveKind::noise);
    const std::vector<double>& hertz = table.columns[0].values;
    const auto near = std::min_element(hertz.begin(), hertz.end(), [](double a, double b) {
        return std::abs(std::log(a / 1000.0)) < std::abs(std::log(b / 1000.0));
    });
    // The point nearest to 1 kHz is within 4 %, and the curve is flat there.
    EXPECT_NEAR(table.columns[2].values[std::size_t(near - hertz.begin())], 28.1479, 1.0);
    EXPECT_DOUBLE_EQ(hertz.back(), 20000.0);
}

TEST_F(HarbourLampCurves, BiasNamesEveryNet) {
    const CurveTable table = of(CurveKind::bias);
    ASSERT_EQ(table.rows.size(), table.columns.front().values.size());
    const auto half = std::find(table.rows.begin(), table.rows.end(), "vb");
    ASSERT_NE(half, table.rows.end());
    // Two 12k from 9 V, less what the filter resistor drops: the demo's own figure of 4.46 V.
    EXPECT_NEAR(table.columns.front().values[std::size_t(half - table.rows.begin())], 4.46, 0.05);
}

TEST_F(HarbourLampCurves, EveryKindHasColumnsOfOneLengthAndAnIdOfItsOwn) {
    for (const CurveKindName& each : curveKindNames) {
        const CurveTable table = of(each.kind);
        EXPECT_EQ(table.kind, each.kind);
        ASSERT_FALSE(table.columns.empty()) << each.id;
        for (const CurveColumn& column : table.columns) {
            EXPECT_EQ(column.values.size(), table.rowCount()) << each.id << " " << column.id;
        }
        EXPECT_GT(table.rowCount(), 1U) << each.id;
    }
}

TEST(CurveTable, WhatIsSilentHasNoHarmonicsAndSaysSo) {
    test::SmallCircuit dead;
    dead.r("R1", "in", "0", 1e3).r("R2", "out", "0", 1e3);
    const CurveTable table = measured(CurveKind::harmonics, dead, {});
    ASSERT_EQ(table.columns.size(), 2U);
    for (const double level : table.columns[1].values) {
        EXPECT_TRUE(std::isnan(level));
    }
    EXPECT_EQ(table.trouble, "No signal arrives at the output.");
}

TEST(CurveTable, ACircuitThatCannotBeSolvedIsAnError) {
    for (const CurveKindName& each : curveKindNames) {
        EXPECT_FALSE(measureCurve(each.kind, Circuit(), Setting())) << each.id;
    }
}

}  // namespace
}  // namespace ohmwright
