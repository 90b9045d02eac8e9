// Figures of the demo Quarry Bell, 329.6 Hz, 100 mVpk: silicon -6.03 dBV, LED pair +1.44 dBV, none +2.45 dBV; 125,064
// ohm before the level pot makes the LEDs as loud (tests/reference/demos/figures.csv, level_trim_resistor), 120k leaves
// +0.2 dB.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/throws.h"

#include "core/plan/apply.h"
#include "tests/support/demo_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

Setting settingOf(const Job& job) {
    Setting setting = job.setting;
    setting.toneHz = 329.6;
    return setting;
}

std::vector<ThrowCircuit> quarryThrows() {
    const Job stock = test::demoJob("quarry-bell");
    // A is the LEDs in place of the two diodes.
    const Job led = test::demoJob("quarry-bell", "A");
    Circuit none = stock.stock;
    std::erase_if(none.parts, [](const Part& part) { return part.id == "d1" || part.id == "d2"; });
    for (Stage& stage : none.stages)
        std::erase_if(stage.parts, [](const PartId& id) { return id == "d1" || id == "d2"; });
    const auto leds = applyPlan(led.stock, led.plan);
    EXPECT_TRUE(leds);
    return {{"silicon", stock.stock}, {"LED", *leds}, {"centre off", none}};
}

TEST(Throws, EachThrowHasItsLevelAndTheJumpIsTold) {
    const auto table = readThrows(quarryThrows(), settingOf(test::demoJob("quarry-bell")));
    ASSERT_TRUE(table) << table.error().message;
    ASSERT_EQ(table->throws.size(), 3U);
    EXPECT_NEAR(*findFigure(table->throws[0].figures, "level")->value, -6.03, 0.05);
    EXPECT_NEAR(*findFigure(table->throws[1].figures, "level")->value, 1.44, 0.05);
    EXPECT_NEAR(*findFigure(table->throws[2].figures, "level")->value, 2.45, 0.05);
    EXPECT_NEAR(table->throws[1].jumpDb, 7.47, 0.05);
    EXPECT_NEAR(table->largestJumpDb, 7.47, 0.05);
    EXPECT_TRUE(table->steps.empty()) << "both ends of the diodes rest at ground";
}

TEST(Throws, AResistorBeforeTheLevelPotMakesThemEqual) {
    const auto throws = quarryThrows();
    const Setting setting = settingOf(test::demoJob("quarry-bell"));
    const auto trim = trimLevel(throws[1], throws[0], setting);
    ASSERT_TRUE(trim) << trim.error().message;
    EXPECT_EQ(trim->pot, "vr2");
    EXPECT_NEAR(trim->ohms, 125064, 0.005 * 125064);
    EXPECT_NEAR(trim->preferredOhms, 120e3, 1);
    EXPECT_NEAR(trim->remainingDb, 0.2, 0.05);
    EXPECT_THAT(trim->sentence, testing::HasSubstr("125k before VR2"));
    EXPECT_FALSE(trimLevel(throws[0], throws[1], setting)) << "the silicon is the quieter one";
}

// A capacitor between two DC voltages that a throw joins: it must be charged to the difference, and the contact pops.
TEST(Throws, ACapacitorThatLostItsChargePops) {
    const Job job = test::demoJob("small-rooster");
    Circuit joined = job.stock;
    Part capacitor;
    capacitor.id = capacitor.reference = "C9";
    capacitor.kind = PartKind::capacitor;
    capacitor.value = 1e-8;
    capacitor.nets = {"c", "0"};
    joined.parts.push_back(capacitor);
    const auto table = readThrows({{"bright", job.stock}, {"dark", joined}}, job.setting);
    ASSERT_TRUE(table) << table.error().message;
    ASSERT_EQ(table->steps.size(), 1U);
    EXPECT_NEAR(table->steps[0].volts, 4.43, 0.01);  // the collector
    EXPECT_TRUE(table->steps[0].isCharge);
    EXPECT_THAT(table->steps[0].sentence, testing::HasSubstr("1M to 2M2"));
}

/// The stock unit with a switch of three throws: as it is, LEDs, both diodes out.
Job withSwitch() {
    Job job = test::demoJob("quarry-bell");
    const Model led = *findModel(*applyPlan(job.stock, test::demoJob("quarry-bell", "A").plan), "LEDRED");
    const FitSwitch fit{"d1",
                        {{"silicon", {}},
                         {"LED", {SwapType{"d1", led}, SwapType{"d2", led}}},
                         {"centre off", {RemovePart{"d1"}, RemovePart{"d2"}}}}};
    job.plan = {Mod{"mod-s", "S", "Clip switch", fit, true}};
    return job;
}

TEST(Throws, ASwitchOfThePlanGivesItsCircuits) {
    const Job job = withSwitch();
    const auto throws = throwCircuits(job);
    ASSERT_TRUE(throws) << throws.error().message;
    ASSERT_EQ(throws->size(), 3U);
    EXPECT_EQ((*throws)[2].name, "centre off");
    const auto table = readThrows(*throws, settingOf(job));
    ASSERT_TRUE(table) << table.error().message;
    EXPECT_NEAR(table->throws[1].jumpDb, 7.47, 0.05);
    EXPECT_NEAR(*findFigure(table->throws[2].figures, "level")->value, 2.45, 0.05);
    EXPECT_FALSE(throwCircuits(test::demoJob("harbour-lamp")));
}

TEST(Throws, OneThrowIsNoSwitch) {
    EXPECT_FALSE(readThrows({{"only", test::demoJob("quarry-bell").stock}}, {}));
}

}  // namespace
}  // namespace ohmwright
