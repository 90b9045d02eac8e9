// Chosen figures are those that measureFigures gives for the same circuit.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/circuit_meter.h"

#include "tests/support/demo_job.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

TEST(CircuitMeter, EveryFigureIsThatOfTheWholeMeasurement) {
    const Job job = test::harbourLamp();
    const auto all = measureFigures(job.stock, job.setting);
    ASSERT_TRUE(all);
    auto meter = CircuitMeter::make(job.stock, job.setting);
    ASSERT_TRUE(meter);
    for (const Figure& expected : *all) {
        const auto figure = meter->figure(expected.id);
        ASSERT_TRUE(figure) << expected.id << ": " << figure.error().message;
        EXPECT_EQ(figure->id, expected.id);
        EXPECT_EQ(figure->value.has_value(), expected.value.has_value()) << expected.id;
        if (expected.value && figure->value) {
            EXPECT_NEAR(*figure->value, *expected.value, std::max(0.005, 1e-3 * std::abs(*expected.value)))
                << expected.id;
        } else {
            EXPECT_EQ(figure->absence, expected.absence) << expected.id;
        }
    }
}

TEST(CircuitMeter, TheResponseAtAnyFrequency) {
    const Job job = test::harbourLamp();
    auto meter = CircuitMeter::make(job.stock, job.setting);
    ASSERT_TRUE(meter);
    EXPECT_DOUBLE_EQ(*meter->figure("response@82.41")->value, *meter->figure("response_82")->value);
    EXPECT_NEAR(*meter->figure("response@82.41")->value, -10.4727, 0.05);
    for (const char* wrong : {"response@", "response@zero", "response@-5", "response_83", "loudness", ""}) {
        const auto figure = meter->figure(wrong);
        ASSERT_FALSE(figure) << wrong;
        EXPECT_EQ(figure.error().code, ErrorCode::invalidInput);
    }
    EXPECT_NEAR(*meter->figure("stage_gain@1000")->value, *meter->figure("stage_gain_1k")->value, 1e-9);
}

/// 100 mV peak through a divider by two: 50 mV peak, 20 log10(0.05/sqrt 2).
TEST(CircuitMeter, LevelTakesNoMoreStepsThanItNeeds) {
    test::SmallCircuit divider;
    divider.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    auto meter = CircuitMeter::make(divider, {});
    ASSERT_TRUE(meter);
    EXPECT_EQ(meter->levelSteps(), 0U);
    EXPECT_NEAR(*meter->figure("level")->value, 20.0 * std::log10(0.05 / std::sqrt(2.0)), 1e-6);
    EXPECT_EQ(meter->levelSteps(), 65U);
    EXPECT_NEAR(*meter->figure("level_slope")->value, 1.0, 1e-6);
    EXPECT_EQ(meter->figure("stage_gain_1k")->absence, "no clip stage");
    EXPECT_EQ(meter->figure("supply_current")->absence, "no battery");
}

/// What one meter found serves the next of the same topology: the same answer, wherever it started.
TEST(CircuitMeter, StartingFromAnotherGivesTheSameFigures) {
    Job job = test::harbourLamp();
    auto stock = CircuitMeter::make(job.stock, job.setting);
    ASSERT_TRUE(stock);
    findPart(job.stock, "r5")->value = 2.7e3;
    auto fresh = CircuitMeter::make(job.stock, job.setting, 129);
    auto like = CircuitMeter::make(job.stock, job.setting, 129, &*stock);
    ASSERT_TRUE(fresh && like);
    for (const char* id : {"response_1k", "level", "highest_gain", "supply_current"}) {
        EXPECT_NEAR(*fresh->figure(id)->value, *like->figure(id)->value, 1e-6) << id;
    }
}

TEST(CircuitMeter, SilenceHasNoLevel) {
    test::SmallCircuit dead;
    dead.r("R1", "in", "0", 1e3).r("R2", "out", "0", 1e3);
    auto meter = CircuitMeter::make(dead, {});
    ASSERT_TRUE(meter);
    EXPECT_EQ(meter->figure("level")->absence, "no signal");
    EXPECT_EQ(meter->figure("response_1k")->absence, "no signal");
}

}  // namespace
}  // namespace ohmwright
