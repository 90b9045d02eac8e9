// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::answered;
using test::call;
using test::rowsOf;
using testing::HasSubstr;

const std::string job = test::harbourLampPath();

TEST(CheckVerb, TheDemosAreSound) {
    for (const std::filesystem::path& demo : test::demoJobPaths()) {
        EXPECT_EQ(rowsOf(answered({"check", demo.string()})).size(), 0U) << demo;
    }
}

// The booster's R6 goes in series with C4, which another mod fits: by itself it cannot be, and it was called wrong.
TEST(CheckVerb, AModOnAFittedPartIsTriedWithTheModThatFitsIt) {
    const test::ScratchFolder folder;
    Job booster = test::jobIn(test::demoJobPath("small-rooster"));
    const std::vector<Mod> branch = asSingleMods(booster.plan.at(1));  // C4 across R4, R6 in series with C4
    booster.plan = {branch.at(0), branch.at(1)};
    booster.plan[1].id = "mod-c";
    booster.plan[1].letter = "C";
    std::get<AddInSeries>(booster.plan[1].change).pin = 2;
    const test::Called called = call({"check", folder.write("legs.ohmjob", writeJob(booster))});
    EXPECT_EQ(called.status, ExitStatus::fileWrong);
    EXPECT_THAT(called.out, HasSubstr("C4 has no leg 3"));
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

TEST(CheckVerb, ASoundNetlistHasNothingToSay) {
    const test::ScratchFolder folder;
    EXPECT_EQ(rowsOf(answered({"check", folder.write("low.cir", test::netlists::lowPass)})).size(), 0U);
}

TEST(CheckVerb, WhatANetlistLeavesInDoubtIsListedWithItsLine) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("milli.cir", "milli\nVIN in 0 AC 1\nR1 in out 1M\nR2 out 0 1k\n.end\n");
    const auto rows = rowsOf(answered({"check", file}));
    ASSERT_GE(rows.size(), 1U);
    EXPECT_EQ(rows[0].at("severity"), "doubtful");
    EXPECT_EQ(rows[0].at("place"), "line 3");
    EXPECT_THAT(rows[0].at("message"), HasSubstr("milli"));
    // Beside an answer it stands on standard error.
    const test::Called beside = call({"response", file, "--at", "1k"});
    EXPECT_EQ(beside.status, ExitStatus::answered);
    EXPECT_THAT(beside.err, HasSubstr(file + ":3: note: "));
}

TEST(CheckVerb, ANetlistThatCannotBeSolvedIsWrong) {
    const test::ScratchFolder folder;
    const test::Called called = call(
        {"check", folder.write("adrift.cir", "adrift\nVIN in 0 AC 1\nR1 in 0 1k\nC1 in out 1n\nC2 out 0 1n\n.end\n")});
    EXPECT_EQ(called.status, ExitStatus::fileWrong);
    EXPECT_THAT(called.out, HasSubstr("wrong"));
    EXPECT_THAT(called.out, HasSubstr("out"));
    EXPECT_THAT(called.err, HasSubstr("adrift.cir"));
}

TEST(CheckVerb, ANetlistThatCannotBeReadNamesItsLine) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("bad.cir", "bad\nVIN in 0 AC 1\nR1 in out\n.end\n");
    const test::Called called = call({"check", file});
    EXPECT_EQ(called.status, ExitStatus::fileWrong);
    EXPECT_THAT(called.err, testing::StartsWith(file + ":3: "));
    EXPECT_EQ(rowsOf(called.out).at(0).at("place"), "line 3");
}

TEST(CheckVerb, EveryFaultOfANetlistIsListed) {
    const test::ScratchFolder folder;
    std::string text = "six slips\nVIN in 0 AC 1\nR9 in out 1M\n";
    for (int k = 1; k <= 6; ++k) text += "R" + std::to_string(k) + " in out 4k7\n";
    const std::string file = folder.write("six.cir", text);
    const test::Called called = call({"check", file});
    EXPECT_EQ(called.status, ExitStatus::fileWrong);
    const auto rows = rowsOf(called.out);
    ASSERT_EQ(rows.size(), 7U);
    EXPECT_EQ(rows[5].at("place"), "line 9");
    EXPECT_EQ(rows[6].at("severity"), "doubtful");
    EXPECT_EQ(std::count(called.err.begin(), called.err.end(), '\n'), 5);
    EXPECT_THAT(called.err, HasSubstr(file + ":4: "));
    EXPECT_THAT(called.err, HasSubstr("2 more wrong"));
    // Other verbs say the first.
    EXPECT_THAT(test::refused({"bias", file}, ExitStatus::fileWrong), testing::StartsWith(file + ":4: "));
}

// The source was lost as the title, and all that was said was that there is no source.
TEST(CheckVerb, ATitleThatLooksLikeACardIsSaidWithTheError) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("headless.cir", "VIN in 0 AC 1\nR1 in out 1k\nC1 out 0 1n\nR2 in 0 1k\n.end\n");
    EXPECT_THAT(test::refused({"response", file}, ExitStatus::callWrong), HasSubstr(file + ":1: note: "));
}

TEST(CheckVerb, EndsThatAreNotKnownAreDoubtful) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("two.cir", "two inputs\nV1 a 0 AC 1\nV2 b 0 AC 1\nR1 a out 1k\nR2 b out 1k\n.end\n");
    EXPECT_THAT(answered({"check", file}), HasSubstr("--input"));
}

}  // namespace
}  // namespace ohmwright
