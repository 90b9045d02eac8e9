// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::answered;
using test::call;
using test::numberIn;
using test::rowsOf;
using test::rowWith;
using testing::HasSubstr;

const std::string job = test::harbourLampPath();

// Mod A of the demo (56n to 120n at the gain leg) is the one that is on in its file. Figures: tests/reference.
TEST(FiguresVerb, PutsStockBesideNow) {
    const auto rows = rowsOf(answered({"figures", job}));
    const test::CsvRow corner = rowWith(rows, "figure", "gain_leg_corner");
    EXPECT_EQ(corner.at("unit"), "Hz");
    EXPECT_NEAR(numberIn(corner, "stock"), 728.7, 0.05);  // 1/(2 pi 3k9 56n)
    EXPECT_NEAR(numberIn(corner, "now"), 340.1, 0.05);    // 1/(2 pi 3k9 120n)
    EXPECT_NEAR(numberIn(corner, "change"), 340.0747 - 728.7314, 0.01);
    const test::CsvRow level = rowWith(rows, "figure", "level");
    EXPECT_NEAR(numberIn(level, "stock"), test::expectedFigure("stock", "level", "out", "hz=220;mvpk=100"), 0.05);
    EXPECT_NEAR(numberIn(level, "now"), test::expectedFigure("A", "level", "out", "hz=220;mvpk=100"), 0.05);
    EXPECT_NEAR(numberIn(level, "change"), 2.08, 0.05);
}

TEST(FiguresVerb, ChangeIsNowLessStockAndEmptyWhereEitherIsMissing) {
    const auto rows = rowsOf(answered({"figures", job, "--variant", "A+B"}));
    for (const test::CsvRow& row : rows) {
        const bool bothThere = !row.at("stock").empty() && !row.at("now").empty();
        EXPECT_EQ(bothThere, !row.at("change").empty()) << row.at("figure");
        if (!bothThere) continue;
        EXPECT_NEAR(numberIn(row, "change"), numberIn(row, "now") - numberIn(row, "stock"), 1e-6) << row.at("figure");
    }
}

TEST(FiguresVerb, TheVariantIsWhatStockIsComparedWith) {
    const auto rows = rowsOf(answered({"figures", job, "--variant", "stock"}));
    EXPECT_DOUBLE_EQ(numberIn(rowWith(rows, "figure", "level"), "change"), 0.0);
    const auto onlyC = rowsOf(answered({"figures", job, "--variant", "C"}));
    EXPECT_NEAR(numberIn(rowWith(onlyC, "figure", "gain_leg_corner"), "now"), 1052.6, 0.05);  // 1/(2 pi 2k7 56n)
}

TEST(CheckVerb, TheDemoIsSound) {
    EXPECT_EQ(rowsOf(answered({"check", job})).size(), 0U);
}

TEST(CheckVerb, AMarkingThatSaysAnotherValueIsDoubtful) {
    const test::ScratchFolder folder;
    const std::string changed = test::changedDemo(folder, "\"printed\": \"563\"", "\"printed\": \"564\"");
    const auto rows = rowsOf(answered({"check", changed}));
    ASSERT_EQ(rows.size(), 1U) << "doubtful alone leaves the status at 0";
    EXPECT_EQ(rows[0].at("severity"), "doubtful");
    EXPECT_EQ(rows[0].at("place"), "C4 Cg");
    EXPECT_THAT(rows[0].at("message"), HasSubstr("560 nF"));

    const std::string banded = test::changedDemo(folder, "\"printed\": \"orange-white-red-gold\"",
                                                 "\"printed\": \"orange-white-orange-gold\"");
    EXPECT_THAT(rowsOf(answered({"check", banded})).at(0).at("message"), HasSubstr("39.0 kΩ"));
}

TEST(CheckVerb, WhatIsWrongIsListedAndTheStatusSaysSo) {
    const test::ScratchFolder folder;
    Job broken = test::harbourLamp();
    findPart(broken.stock, "c4")->nets[1] = "adrift";
    findPart(broken.stock, "r5")->nets[0] = "adrift";
    findPart(broken.stock, "r5")->nets[1] = "nowhere";
    const test::Called called = call({"check", folder.write("broken.ohmjob", writeJob(broken))});
    EXPECT_EQ(called.status, ExitStatus::fileWrong);
    const auto rows = rowsOf(called.out);
    EXPECT_TRUE(std::any_of(rows.begin(), rows.end(), [](const test::CsvRow& row) {
        return row.at("severity") == "wrong";
    })) << called.out;
    EXPECT_THAT(called.out, HasSubstr("adrift"));
}

TEST(CheckVerb, TwoModsWithOneLetterAreWrong) {
    const test::ScratchFolder folder;
    Job twice = test::harbourLamp();
    twice.plan[1].letter = "A";
    const test::Called called = call({"check", folder.write("twice.ohmjob", writeJob(twice))});
    EXPECT_NE(called.status, ExitStatus::answered);
    EXPECT_THAT(called.out + called.err, HasSubstr("letter"));
}

TEST(CheckVerb, AnUnknownKeyIsDoubtfulNotLost) {
    const test::ScratchFolder folder;
    const std::string changed =
        test::changedDemo(folder, "\"serial\": \"HL-0231\",", "\"serial\": \"HL-0231\", \"colour\": \"teal\",");
    const auto rows = rowsOf(answered({"check", changed}));
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0].at("severity"), "doubtful");
    EXPECT_THAT(rows[0].at("place"), HasSubstr("colour"));
}

}  // namespace
}  // namespace ohmwright
