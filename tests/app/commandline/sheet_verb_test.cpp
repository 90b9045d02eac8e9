// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

const std::string job = test::harbourLampPath();

TEST(SheetVerb, WritesAPdfAndSaysNothing) {
    const test::ScratchFolder folder;
    for (const char* paper : {"a4", "letter"}) {
        const std::string pdf = folder.path(std::string(paper) + ".pdf");
        EXPECT_EQ(test::answered({"sheet", job, "--kind", "bench", "--paper", paper, "--out", pdf}), "");
        EXPECT_THAT(test::bytesOf(pdf), StartsWith("%PDF-"));
        EXPECT_GT(test::bytesOf(pdf).size(), 10000U);
    }
}

TEST(SheetVerb, TheWayBackIsASheetOfItsOwn) {
    const test::ScratchFolder folder;
    const std::string pdf = folder.path("back.pdf");
    EXPECT_EQ(test::answered({"sheet", job, "--kind", "way-back", "--out", pdf}), "");
    EXPECT_THAT(test::bytesOf(pdf), StartsWith("%PDF-"));
}

TEST(SheetVerb, TheCustomersPapersAreSheetsOfTheirOwn) {
    const test::ScratchFolder folder;
    for (const std::string kind : {"customer", "label", "quote"}) {
        const std::string pdf = folder.path(kind + ".pdf");
        EXPECT_EQ(test::answered({"sheet", job, "--kind", kind, "--out", pdf}), "");
        EXPECT_THAT(test::bytesOf(pdf), StartsWith("%PDF-")) << kind;
    }
}

TEST(SheetVerb, AnotherKindOrPaperIsRefusedAndNothingIsWritten) {
    const test::ScratchFolder folder;
    const std::string pdf = folder.path("sheet.pdf");
    test::refused({"sheet", job, "--kind", "receipt", "--out", pdf}, ExitStatus::callWrong);
    test::refused({"sheet", job, "--kind", "bench", "--paper", "a0", "--out", pdf}, ExitStatus::callWrong);
    test::refused({"sheet", job, "--kind", "bench"}, ExitStatus::callWrong);
    EXPECT_FALSE(std::filesystem::exists(pdf));
}

TEST(SheetVerb, APlaceThatCannotBeWrittenIsNamed) {
    EXPECT_THAT(
        test::refused({"sheet", job, "--kind", "bench", "--out", "/no/such/folder/sheet.pdf"}, ExitStatus::fileWrong),
        HasSubstr("/no/such/folder"));
}

TEST(SheetVerb, AJobThatCannotBeSolvedHasNoSheet) {
    const test::ScratchFolder folder;
    Job broken = test::harbourLamp();
    findPart(broken.stock, "r5")->nets = {"adrift", "nowhere"};
    const std::string pdf = folder.path("sheet.pdf");
    test::refused({"sheet", folder.write("broken.ohmjob", writeJob(broken)), "--kind", "bench", "--out", pdf},
                  ExitStatus::unsolvable);
    EXPECT_FALSE(std::filesystem::exists(pdf));
}

// A part that nobody saw is refused by name, and the verb seen is the way on.
TEST(SheetVerb, APlanOnAPartThatNobodySawHasNoSheetUntilItIsSeen) {
    const test::ScratchFolder folder;
    Job drawn = test::harbourLamp();
    findPart(drawn.stock, "c4")->knowledge = Knowledge::drawn;
    const std::string file = folder.write("drawn.ohmjob", writeJob(drawn));
    const std::string pdf = folder.path("sheet.pdf");
    for (const char* kind : {"bench", "way-back", "customer", "label", "quote"}) {
        EXPECT_THAT(test::refused({"sheet", file, "--kind", kind, "--out", pdf}, ExitStatus::fileWrong),
                    HasSubstr("C4 Cg, which is known from the drawing alone"));
    }
    EXPECT_FALSE(std::filesystem::exists(pdf));
    const std::string seen = folder.path("seen.ohmjob");
    EXPECT_EQ(test::answered({"seen", file, "--out", seen}), "");
    EXPECT_EQ(test::answered({"sheet", seen, "--kind", "label", "--out", pdf}), "");
    EXPECT_THAT(test::bytesOf(pdf), StartsWith("%PDF-"));
}

TEST(SeenVerb, MarksThePartsThatAreNamed) {
    const test::ScratchFolder folder;
    Job drawn = test::harbourLamp();
    for (const char* id : {"c4", "r5", "c7"}) {
        findPart(drawn.stock, id)->knowledge = Knowledge::drawn;
    }
    const std::string file = folder.write("drawn.ohmjob", writeJob(drawn));
    const auto marked = readJob(test::answered({"seen", file, "--parts", "C4,R5"}));
    ASSERT_TRUE(marked) << marked.error().message;
    EXPECT_EQ(findPart(marked->stock, "c4")->knowledge, Knowledge::seen);
    EXPECT_EQ(findPart(marked->stock, "r5")->knowledge, Knowledge::seen);
    EXPECT_EQ(findPart(marked->stock, "c7")->knowledge, Knowledge::drawn);
    EXPECT_THAT(test::refused({"seen", file, "--parts", "C99"}, ExitStatus::callWrong), HasSubstr("C99"));
}

// The list of a visit's papers is kept by the command line as by the window; what an earlier plan printed is void.
TEST(PrintedVerb, ListsThePaperAndSaysWhichOnesAreVoid) {
    const test::ScratchFolder folder;
    const std::string text = test::answered({"printed", job, "--kind", "bench", "--when", "2026-11-29T10:00:00"});
    auto printed = readJob(text);
    ASSERT_TRUE(printed) << printed.error().message;
    ASSERT_EQ(printed->visit.papers.size(), 1u);
    EXPECT_EQ(printed->visit.papers.front().when, "2026-11-29T10:00:00");
    EXPECT_EQ(printed->visit.papers.front().hash, stateHash(*printed));
    printed->plan.front().on = false;
    const std::string changed = folder.write("changed.ohmjob", writeJob(*printed));
    const test::Called called = test::call({"printed", changed, "--kind", "label"});
    EXPECT_EQ(called.status, ExitStatus::answered);
    EXPECT_THAT(called.err, HasSubstr("void: printed from an earlier plan"));
    EXPECT_THAT(test::refused({"printed", job, "--kind", "receipt"}, ExitStatus::callWrong), HasSubstr("--kind"));
}

}  // namespace
}  // namespace ohmwright
