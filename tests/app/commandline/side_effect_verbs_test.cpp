// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include "core/plan/apply.h"
#include "tests/support/demo_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

const std::string job = test::harbourLampPath();

// Reference: supply current 3.91363 mA, noise out 7.7666 uV in stock (tests/reference/harbour-lamp-figures.csv).
TEST(SideEffectsVerb, ListsEveryEffectWithItsLimit) {
    const std::string csv = test::answered({"side-effects", job, "--variant", "A+C", "--set", "level=10"});
    EXPECT_THAT(csv, testing::StartsWith("effect,stock,now,limit,margin,unit,state,sentence\n"));
    const auto rows = test::rowsOf(csv);
    EXPECT_NEAR(test::numberIn(test::rowWith(rows, "effect", "supply_current"), "now"), 3.91363, 0.02);
    const test::CsvRow bandwidth = test::rowWith(rows, "effect", "bandwidth");
    EXPECT_NEAR(test::numberIn(bandwidth, "now"), 28350, 100);  // 3 MHz/105.8
    EXPECT_EQ(bandwidth.at("state"), "fine");
    EXPECT_DOUBLE_EQ(test::numberIn(bandwidth, "limit"), 20000);
    for (const char* id : {"rail_room", "pot_dc", "next_stage_peak", "clip_onset_82", "noise_out", "output_impedance"})
        EXPECT_FALSE(test::rowWith(rows, "effect", id).at("sentence").empty()) << id;
}

TEST(SideEffectsVerb, ANetlistHasNoPlan) {
    const test::ScratchFolder folder;
    test::refused({"side-effects", folder.write("divider.cir", test::netlists::divider)}, ExitStatus::callWrong);
}

// Quarry Bell at 329.6 Hz: silicon -6.03 dBV, LEDs +1.44 dBV; 125k before the level pot makes them equal.
TEST(ThrowsVerb, SolvesEachThrowAndTellsTheJump) {
    Job quarry = test::demoJob("quarry-bell", "A");
    const Model led = *findModel(*applyPlan(quarry.stock, quarry.plan), "LEDRED");
    quarry.plan = {Mod{"mod-s", "S", "Clip switch",
                       FitSwitch{"d1", {{"silicon", {}}, {"LED", {SwapType{"d1", led}, SwapType{"d2", led}}}}}, true}};
    const test::ScratchFolder folder;
    const test::Called called =
        test::call({"throws", folder.write("switch.ohmjob", writeJob(quarry)), "--set", "tone=329.6"});
    ASSERT_EQ(called.status, ExitStatus::answered) << called.err;
    const auto tables = test::tablesOf(called.out);
    EXPECT_NEAR(test::numberIn(test::rowWith(tables[0], "throw", "silicon"), "level_dbv"), -6.03, 0.05);
    EXPECT_NEAR(test::numberIn(test::rowWith(tables[0], "throw", "LED"), "jump_db"), 7.47, 0.05);
    EXPECT_THAT(called.err, testing::HasSubstr("125k before VR2"));
    EXPECT_THAT(test::refused({"throws", job}, ExitStatus::callWrong), testing::HasSubstr("fits no switch"));
}

}  // namespace
}  // namespace ohmwright
