// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "core/plan/edits.h"
#include "tests/app/commandline/called.h"
#include "tests/support/demo_job.h"
#include "tests/support/temporary_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::harbourLamp;
using test::rowsOf;
using testing::HasSubstr;
using testing::SizeIs;

class EarlierVerbs : public testing::Test {
protected:
    EarlierVerbs() { save(harbourLamp()); }
    void save(const Job& job) const { ASSERT_TRUE(saveJob(job, file)); }

    TemporaryFolder folder;
    std::string file = (folder / "lamp.ohmjob").string();
};

TEST_F(EarlierVerbs, AFileThatWasSavedOnceHasNone) {
    const test::Called called = test::call({"earlier", file});
    EXPECT_EQ(called.status, ExitStatus::answered);
    EXPECT_THAT(called.err, HasSubstr("saved once only"));
    EXPECT_THAT(test::refused({"earlier-version", file, "--out", file + ".2"}, ExitStatus::callWrong),
                HasSubstr("saved once only"));
}

TEST_F(EarlierVerbs, EachIsListedWithWhatDiffersAndWrittenOutAgain) {
    Job second = harbourLamp();
    second.visit.agreed = "A alone";
    save(second);
    Job third = second;
    third.unit.serial = "HL-0900";
    save(third);
    const auto rows = rowsOf(test::call({"earlier", file}).out);
    ASSERT_THAT(rows, SizeIs(2));
    EXPECT_EQ(rows[0].at("until_now"), "the unit's card");
    EXPECT_EQ(rows[1].at("until_now"), "the unit's card; the visit's words");
    EXPECT_THAT(rows[0].at("written"), testing::MatchesRegex("20..-..-..T..:..:.."));
    const std::string out = (folder / "back.ohmjob").string();
    EXPECT_EQ(test::call({"earlier-version", file, "--number", "2", "--out", out}).status, ExitStatus::answered);
    EXPECT_EQ(test::jobIn(out), harbourLamp());
    test::refused({"earlier-version", file, "--number", "3", "--out", out}, ExitStatus::callWrong);
}

}  // namespace
}  // namespace ohmwright
