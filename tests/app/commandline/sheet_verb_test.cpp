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

}  // namespace
}  // namespace ohmwright
