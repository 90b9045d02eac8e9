// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

const std::string job = test::harbourLampPath();

// With the demo drawer beside it: 3k9 with 9k1 across is 2730, with 10k 2806.
TEST(TryOnVerb, GivesWhatToClipAcross) {
    const test::Called called = test::call({"try-on", job, "--part", "R5", "--value", "2k7"});
    ASSERT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_THAT(called.out, StartsWith("clip_across,gives\n"));
    EXPECT_NEAR(test::numberIn(test::rowWith(test::rowsOf(called.out), "clip_across", "9100"), "gives"), 2730, 0.1);
    EXPECT_NEAR(test::numberIn(test::rowWith(test::rowsOf(called.out), "clip_across", "10000"), "gives"), 2805.8, 0.1);
    EXPECT_THAT(called.err, HasSubstr("clip 9k1 across R5 (2k73)"));
    EXPECT_THAT(called.err, HasSubstr("Switch off"));
}

TEST(TryOnVerb, SaysWhenALegMustBeLifted) {
    const test::Called called = test::call({"try-on", job, "--part", "R5", "--value", "4k7"});
    ASSERT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_THAT(called.out, StartsWith("in_series,gives\n820,4720\n"));
    EXPECT_THAT(called.err, HasSubstr("cannot be tried across: lift one leg and add 820R in series (4k72)"));
}

TEST(TryOnVerb, ATableCanBeTheDrawer) {
    const test::ScratchFolder folder;
    const std::string drawer = folder.write("drawer.csv", "kind;value;quantity\nresistor;9,1k;3\n");
    const test::Called called = test::call({"try-on", job, "--part", "R5", "--value", "2k7", "--drawer", drawer});
    ASSERT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_THAT(called.out, StartsWith("clip_across,gives\n9100,2730"));
    const std::string bad = folder.write("bad.csv", "kind;value;quantity\nresistor;9,1k;many\n");
    EXPECT_THAT(
        test::refused({"try-on", job, "--part", "R5", "--value", "2k7", "--drawer", bad}, ExitStatus::fileWrong),
        HasSubstr("line 2: quantity"));
}

TEST(TryOnVerb, WrongCallsAreRefused) {
    test::refused({"try-on", job, "--part", "R99", "--value", "2k7"}, ExitStatus::callWrong);
    test::refused({"try-on", job, "--part", "R5", "--value", "blue"}, ExitStatus::callWrong);
    test::refused({"try-on", job, "--part", "R5"}, ExitStatus::callWrong);
    test::refused({"try-on", job, "--part", "VR1", "--value", "100k"}, ExitStatus::callWrong);
}

TEST(TargetsVerb, RanksRealAnswers) {
    const std::string csv = test::answered(
        {"targets", job, "--variant", "stock", "--want", "gain_leg_corner=590,plateau_gain=29", "--parts", "R5,C4"});
    EXPECT_THAT(csv, StartsWith("rank,parts,gain_leg_corner,plateau_gain,swaps,in_stock\n"));
    const auto rows = test::rowsOf(csv);
    ASSERT_GE(rows.size(), 3U);
    EXPECT_EQ(rows.front().at("rank"), "1");
    EXPECT_NEAR(test::numberIn(rows.front(), "gain_leg_corner"), 590, 5.9);
    EXPECT_NEAR(test::numberIn(rows.front(), "plateau_gain"), 29, 0.1);
    for (const test::CsvRow& row : rows) EXPECT_EQ(row.at("in_stock"), "yes");
}

TEST(TargetsVerb, WrongCallsAreRefused) {
    EXPECT_THAT(test::refused({"targets", job, "--want", "bass=3", "--parts", "R5"}, ExitStatus::callWrong),
                HasSubstr("--want"));
    EXPECT_THAT(test::refused({"targets", job, "--want", "level=-20", "--parts", "R5,Z9"}, ExitStatus::callWrong),
                HasSubstr("Z9"));
    test::refused({"targets", job, "--want", "level=-20", "--parts", "D1"}, ExitStatus::callWrong);
}

}  // namespace
}  // namespace ohmwright
