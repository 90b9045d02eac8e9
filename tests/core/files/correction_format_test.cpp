// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/correction_format.h"

#include "core/files/job_file.h"
#include "core/plan/correct.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::Not;

Job corrected() {
    Correction correction;
    correction.part = "r2";
    correction.found = ValueFound{47e3, "473"};
    correction.when = "2026-11-29T14:00:00";
    return *correct(test::jobIn(test::demoJobPath("small-rooster")), correction);
}

/// The file's text with one piece of it in another's place.
std::string withText(std::string text, const std::string& piece, const std::string& other) {
    const std::size_t at = text.find(piece);
    EXPECT_NE(at, std::string::npos) << piece;
    return text.replace(at, piece.size(), other);
}

TEST(CorrectionFormat, AJobWithoutCorrectionsSaysNothingOfThem) {
    EXPECT_THAT(writeJob(test::jobIn(test::demoJobPath("small-rooster"))), Not(HasSubstr("corrections")));
}

TEST(CorrectionFormat, BothReadingsStandInTheFileAndComeBack) {
    const Job job = corrected();
    const std::string text = writeJob(job);
    EXPECT_THAT(text, HasSubstr("\"found\": {\"value\": 47000, \"printed\": \"473\"}"));
    EXPECT_THAT(text, HasSubstr("\"reason\": \"board differs\""));
    EXPECT_EQ(*readJob(text), job);
}

TEST(CorrectionFormat, AWordThatIsNoneIsRefusedAtItsPlace) {
    const std::string text = writeJob(corrected());
    const Result<Job> what = readJob(withText(text, "\"what\": \"value\"", "\"what\": \"whim\""));
    ASSERT_FALSE(what);
    EXPECT_THAT(what.error().message, HasSubstr("corrections/0/what"));
    const Result<Job> read = readJob(withText(text, "\"reason\": \"board differs\"", "\"reason\": \"whim\""));
    ASSERT_FALSE(read);
    EXPECT_THAT(read.error().message, HasSubstr("corrections/0/reason"));
    EXPECT_THAT(read.error().message, HasSubstr("earlier mod"));
}

// What a later version adds to a correction is kept at its place.
TEST(CorrectionFormat, UnknownKeysOfACorrectionAreKept) {
    const std::string text = writeJob(corrected());
    const std::string later =
        withText(text, "\"reason\": \"board differs\"", "\"photo\": 3,\n      \"reason\": \"board differs\"");
    const Result<Job> read = readJob(later);
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_THAT(writeJob(*read), HasSubstr("\"photo\": 3"));
}

}  // namespace
}  // namespace ohmwright
