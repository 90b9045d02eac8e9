// Old knob positions as new ones on the demos; expected: the knob_* rows of reference/harbour-lamp-figures.csv and
// reference/demos/figures.csv, 0.02 of a position.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/knob_translation.h"

#include "tests/support/csv_rows.h"
#include "tests/support/demo_job.h"
#include "tests/support/demo_netlists.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

namespace ohmwright {
namespace {

constexpr double positionTolerance = 0.02;

Job with(Job job, const std::string& letters) {
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

Job lampWith(const std::string& letters) {
    return with(test::harbourLamp(), letters);
}

TEST(KnobTranslation, PositionsAreThoseOfTheReference) {
    int rows = 0;
    for (const test::CsvRow& row : test::referenceTable("harbour-lamp-figures.csv")) {
        const std::string& figure = row.at("figure");
        if (figure.rfind("knob_", 0) != 0) {
            continue;
        }
        Job job = lampWith(row.at("state"));
        const bool isDrive = figure.rfind("knob_drive", 0) == 0;
        const auto conditions = test::conditionsOf(row.at("condition"));
        const std::string knob = isDrive ? "drive" : "level";
        job.setting.knobs[knob] = std::stod(conditions.at("old"));
        const std::string kept = figure == "knob_drive_equal_gain_1k"        ? "stage_gain_1k"
                                 : figure == "knob_drive_equal_highest_gain" ? "highest_gain"
                                                                             : "level";
        const auto answer = translateKnob(job, {knob, kept});
        const std::string title = row.at("state") + " " + figure + " " + row.at("condition");
        ASSERT_TRUE(answer) << title << ": " << answer.error().message;
        ASSERT_TRUE(answer->newPosition) << title;
        EXPECT_NEAR(*answer->newPosition, std::stod(row.at("value")), positionTolerance) << title;
        EXPECT_DOUBLE_EQ(answer->oldPosition, std::stod(conditions.at("old")));
        EXPECT_NEAR(answer->reached, answer->goal, 0.02) << title;
        ++rows;
    }
    EXPECT_EQ(rows, 14);
}

/// LEDs in place of both clipping diodes: old level 10 is 7.705 at 329.6 Hz.
TEST(KnobTranslation, ALouderPairOfDiodesTurnsTheLevelDown) {
    const auto loaded = loadJob(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/quarry-bell/quarry-bell.ohmjob");
    ASSERT_TRUE(loaded) << loaded.error().message;
    Job job = loaded->job;
    int pairs = 0;
    for (Mod& mod : job.plan) {
        const auto* swap = std::get_if<SwapType>(&mod.change);
        const auto* combined = std::get_if<Combined>(&mod.change);
        mod.on = (swap != nullptr && swap->model.name == "LEDRED") || combined != nullptr;
        pairs += mod.on ? 1 : 0;
    }
    ASSERT_GE(pairs, 1);
    job.setting.toneHz = 329.6;
    const auto answer = translateKnob(job, {"level", "level"});
    ASSERT_TRUE(answer) << answer.error().message;
    EXPECT_DOUBLE_EQ(answer->oldPosition, 10.0);
    EXPECT_NEAR(answer->newPosition.value(), 7.70494, positionTolerance);
}

/// Old drive 5 is 2.4 for equal gain at 1 kHz, then +2.1 dB remain at 82 Hz; 3.1 for equal plateau gain by formula;
/// 3.0 for equal highest gain, then +2.8 dB remain.
TEST(KnobTranslation, WhatWasKeptEqualAndWhatRemainsIsSaid) {
    const Job job = lampWith("ABC");
    const auto gain = translateKnob(job, {"drive", "stage_gain_1k"});
    ASSERT_TRUE(gain) << gain.error().message;
    EXPECT_NEAR(gain->remainingLowDb.value(), 2.1, 0.06);
    EXPECT_EQ(gain->sentence.rfind("old Drive 5.0 is now 2.4: stage gain at 1 kHz equal, +2.", 0), 0U)
        << gain->sentence;
    const auto plateau = translateKnob(job, {"drive", "plateau_gain"});
    ASSERT_TRUE(plateau) << plateau.error().message;
    EXPECT_NEAR(*plateau->newPosition, 3.1, 0.05);
    const auto highest = translateKnob(job, {"drive", "highest_gain"});
    ASSERT_TRUE(highest);
    EXPECT_NEAR(*highest->newPosition, 3.0, 0.05);
    EXPECT_NEAR(highest->remainingLowDb.value(), 2.8, 0.06);
}

/// With less feedback resistance than the fixed part alone leaves, no drive gives stock's gain: Rg at a tenth.
TEST(KnobTranslation, OutOfTravelSaysWhichEndAndByHowMuch) {
    Job job = lampWith("");
    job.plan = {Mod{"mod-x", "X", "Rg", SwapValue{"r5", 390.0}, true}};
    const auto answer = translateKnob(job, {"drive", "plateau_gain"});
    ASSERT_TRUE(answer) << answer.error().message;
    EXPECT_FALSE(answer->newPosition);
    EXPECT_EQ(answer->outAt, TravelEnd::belowZero);
    // 1 + 33k/390 against 1 + 70k5/3k9
    const double off = 20.0 * std::log10((1.0 + 33e3 / 390.0) / (1.0 + 70.5e3 / 3.9e3));
    EXPECT_NEAR(answer->reached - answer->goal, off, 0.02);
    EXPECT_NE(answer->sentence.find("out of travel: at 0"), std::string::npos) << answer->sentence;
}

TEST(KnobTranslation, TheListHoldsEachKnobWithWhatItGoverns) {
    const auto list = translateKnobs(lampWith("ABC"));
    ASSERT_TRUE(list) << list.error().message;
    const auto holds = [&](const std::string& knob, const std::string& figure) {
        return std::any_of(list->begin(), list->end(),
                           [&](const KnobTranslation& one) { return one.knob == knob && one.keptEqual == figure; });
    };
    EXPECT_TRUE(holds("drive", "stage_gain_1k"));
    EXPECT_TRUE(holds("drive", "plateau_gain"));
    EXPECT_TRUE(holds("drive", "highest_gain"));
    EXPECT_TRUE(holds("level", "level"));
    EXPECT_FALSE(holds("level", "stage_gain_1k"));
    EXPECT_TRUE(
        std::none_of(list->begin(), list->end(), [](const KnobTranslation& one) { return one.knob == "guitar"; }));
}

TEST(KnobTranslation, NothingChangedNeedsNoTurning) {
    const auto none = translateKnobs(lampWith(""));
    ASSERT_TRUE(none);
    EXPECT_TRUE(none->empty());
    const auto same = translateKnob(lampWith("D"), {"drive", "plateau_gain"});
    ASSERT_TRUE(same);
    EXPECT_DOUBLE_EQ(*same->newPosition, 5.0);
}

TEST(KnobTranslation, WhatCannotBeTranslatedSaysWhy) {
    const Job job = lampWith("A");
    const auto knob = translateKnob(job, {"tone", "level"});
    ASSERT_FALSE(knob);
    EXPECT_NE(knob.error().message.find("drive"), std::string::npos) << knob.error().message;
    const auto figure = translateKnob(job, {"level", "stage_gain_1k"});
    ASSERT_FALSE(figure);
    EXPECT_NE(figure.error().message.find("does not move"), std::string::npos) << figure.error().message;
    EXPECT_FALSE(translateKnob(job, {"level", "sweetness"}));
}

}  // namespace
}  // namespace ohmwright
