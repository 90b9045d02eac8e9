// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

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

}  // namespace
}  // namespace ohmwright
