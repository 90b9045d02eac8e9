// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "core/plan/correct.h"
#include "tests/app/commandline/called.h"
#include "tests/support/temporary_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::rowsOf;
using test::rowWith;
using testing::HasSubstr;
using testing::SizeIs;

const std::string rooster = std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/small-rooster/small-rooster.ohmjob";

/// `args` with a file of its own to write to.
std::string written(const TemporaryFolder& folder, std::vector<std::string> args, const std::string& name) {
    const std::string path = (folder.path() / name).string();
    args.insert(args.end(), {"--out", path});
    const test::Called called = test::call(args);
    EXPECT_EQ(called.status, ExitStatus::answered) << called.err;
    return path;
}

TEST(FoundVerb, PutsTheBoardsValueIntoStockAndListsBoth) {
    const TemporaryFolder folder;
    const std::string found = written(
        folder, {"found", rooster, "--part", "R2", "--value", "47k", "--printed", "473", "--reason", "board differs"},
        "found.ohmjob");
    EXPECT_EQ(findPart(test::jobIn(found).stock, "r2")->value, 47e3);
    const auto rows = rowsOf(test::call({"corrections", found}).out);
    ASSERT_THAT(rows, SizeIs(1));
    EXPECT_EQ(rows[0].at("part"), "R2");
    EXPECT_EQ(rows[0].at("found"), "47k (printed 473)");
    EXPECT_THAT(rows[0].at("drawn"), HasSubstr("56k"));
    EXPECT_EQ(rows[0].at("reason"), "board differs");
    const std::string back = written(folder, {"take-back", found}, "back.ohmjob");
    EXPECT_EQ(test::jobIn(back).stock, test::jobIn(rooster).stock);
}

TEST(FoundVerb, APartMoreAndAPartThatIsNotThere) {
    const TemporaryFolder folder;
    const std::string more = written(folder,
                                     {"found", rooster, "--part", "C40", "--more", "capacitor", "--value", "100p",
                                      "--net", "c,b", "--beside", "Q1", "--reason", "earlier mod"},
                                     "more.ohmjob");
    const std::string both =
        written(folder, {"found", more, "--part", "R5", "--missing", "--reason", "earlier mod"}, "both.ohmjob");
    const Circuit stock = test::jobIn(both).stock;
    EXPECT_NE(findPartByReference(stock, "C40"), nullptr);
    EXPECT_EQ(findPartByReference(stock, "R5"), nullptr);
    EXPECT_THAT(test::jobIn(both).corrections, SizeIs(2));
}

// The first of them was taken and the others were lost unsaid.
TEST(FoundVerb, TakesOneFindingACall) {
    EXPECT_THAT(test::refused({"found", rooster, "--part", "R2", "--value", "47k", "--tolerance", "1", "--reason",
                               "board differs"},
                              ExitStatus::callWrong),
                HasSubstr("one call says one thing, and --value says another"));
    EXPECT_THAT(test::refused({"found", rooster, "--part", "R2", "--leg", "1", "--net", "b,", "--reason", "misread"},
                              ExitStatus::callWrong),
                HasSubstr("A net's name is one word"));
}

TEST(FoundVerb, WhatItMeansForAModIsANote) {
    const TemporaryFolder folder;
    Job job = test::jobIn(rooster);
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    const std::string all = (folder.path() / "all.ohmjob").string();
    ASSERT_TRUE(saveJob(job, all));
    const test::Called called =
        test::call({"found", all, "--part", "C1", "--value", "47n", "--reason", "board differs"});
    EXPECT_THAT(called.err, HasSubstr("makes C1 Cin what the board has already and changes nothing now"));
    const std::string found =
        written(folder, {"found", all, "--part", "C1", "--value", "47n", "--reason", "board differs"}, "found.ohmjob");
    EXPECT_THAT(test::call({"check", found}).out, HasSubstr("changes nothing now"));
}

TEST(FoundVerb, ACallThatSaysNothingSoundIsRefused) {
    const auto refused = [](std::vector<std::string> more) {
        more.insert(more.begin(), {"found", rooster, "--part"});
        return test::refused(more, ExitStatus::callWrong);
    };
    EXPECT_THAT(refused({"R2", "--value", "47k", "--reason", "whim"}), HasSubstr("--reason: choose board differs"));
    EXPECT_THAT(refused({"R2", "--reason", "misread"}), HasSubstr("say what the board has"));
    EXPECT_THAT(refused({"R2", "--value", "56k", "--reason", "misread"}), HasSubstr("as the drawing says"));
    EXPECT_THAT(refused({"Q1", "--value", "56k", "--reason", "misread"}), HasSubstr("use --type"));
    EXPECT_THAT(refused({"R2", "--leg", "3", "--net", "x", "--reason", "misread"}), HasSubstr("--leg"));
    EXPECT_THAT(refused({"R2", "--law", "log", "--reason", "misread"}), HasSubstr("--law"));
    EXPECT_THAT(refused({"R77", "--value", "1k", "--reason", "misread"}), HasSubstr("R77"));
}

TEST(MeasuredVerb, KeepsWhatTheMeterReadAndForgetsIt) {
    const TemporaryFolder folder;
    const std::string read = written(folder, {"measured", rooster, "--part", "R2", "--value", "55k1"}, "read.ohmjob");
    EXPECT_EQ(findPart(test::jobIn(read).stock, "r2")->measured, 55.1e3);
    const std::string none = written(folder, {"measured", read, "--part", "R2"}, "none.ohmjob");
    EXPECT_EQ(findPart(test::jobIn(none).stock, "r2")->knowledge, Knowledge::seen);
}

TEST(WalkVerb, GoesOverTheBoardInSignalOrder) {
    const test::Called called = test::call({"walk", rooster});
    const auto rows = rowsOf(called.out);
    ASSERT_THAT(rows, SizeIs(10));
    EXPECT_EQ(rows.front().at("part"), "R5");
    EXPECT_EQ(rows[1].at("part"), "C1 Cin");
    EXPECT_EQ(rows[1].at("known"), "measured");
    EXPECT_EQ(rows.back().at("part"), "C3");
    EXPECT_THAT(called.err, HasSubstr("1 of 10 parts are known from the drawing alone."));
}

// The unit's volts are the demo's own figures (base 1.12, emitter 0.46, collector 4.43 V).
TEST(WhichRevisionVerb, RanksTheStoredDrawingsOfTheShop) {
    const TemporaryFolder shop;
    const std::string known = (shop / "known.ohmjob").string();
    Job job = test::jobIn(rooster);
    ASSERT_TRUE(saveJob(job, known));
    job.unit.boardRevision = "PB-03 rev 5";
    findPart(job.stock, "r2")->value = 33e3;
    const std::string open = (shop / "open.ohmjob").string();
    ASSERT_TRUE(saveJob(job, open));
    const std::vector<std::string> read{"--read", "Q1 base=1.12",         "--read", "Q1 collector=4.43",
                                        "--read", "R2 leg 1,ground=55.9k"};
    std::vector<std::string> args{"which-revision", open, "--shop", shop.path().string()};
    args.insert(args.end(), read.begin(), read.end());
    const test::Called called = test::call(args);
    EXPECT_THAT(called.err, HasSubstr("Small Rooster, PB-03 rev 4 fits best"));
    // One table, a row a drawing and reading, and each says of which file it is.
    const auto rows = rowsOf(called.out);
    ASSERT_THAT(rows, SizeIs(6));
    EXPECT_EQ(rows[0].at("rank"), "1");
    EXPECT_EQ(rows[0].at("drawing"), "Small Rooster, PB-03 rev 4");
    EXPECT_EQ(rows[0].at("file"), known);
    EXPECT_EQ(rows[0].at("reading"), "Q1 base");
    EXPECT_EQ(rows[3].at("rank"), "2");
    EXPECT_EQ(rows[3].at("file"), open);
    // One that is named takes the place of the shop's.
    args[2] = "--against";
    args[3] = known;
    EXPECT_EQ(test::call(args).out, called.out);
}

TEST(WhichRevisionVerb, AReadingThatIsNoneIsRefused) {
    const auto refused = [](const std::string& reading) {
        return test::refused({"which-revision", rooster, "--read", reading}, ExitStatus::callWrong);
    };
    EXPECT_THAT(refused("Q1 base"), HasSubstr("write PLACE=VOLTS"));
    EXPECT_THAT(refused("Q7 base=1"), HasSubstr("is no place of this drawing"));
    EXPECT_THAT(refused("Q1 base=much"), HasSubstr("--read"));
    EXPECT_THAT(refused("vt=1"), HasSubstr("is no pin of a transistor, valve or chip"));
}

}  // namespace
}  // namespace ohmwright
