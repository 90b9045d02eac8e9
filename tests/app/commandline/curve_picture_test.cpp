/// What is on the picture is told by its words; its figures are those of the verb's values, which plan_verbs_test.cpp
/// holds against core.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include "core/files/job_file.h"
#include "core/plan/pinned.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <string>

namespace ohmwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const std::string job = test::harbourLampPath();

/// The SVG of a kind of curve of a job.
std::string drawn(const std::string& file, const char* kind) {
    const test::ScratchFolder folder;
    const std::string svg = folder.path("curve.SVG");
    EXPECT_EQ(test::answered({"curve", file, "--variant", "A", "--kind", kind, "--out", svg}), "");
    return test::bytesOf(svg);
}

TEST(CurvePicture, EveryKindIsDrawnWithItsAxesAndWhatItHoldsFor) {
    for (const auto& [kind, title, axis] :
         {std::array{"response", "Response", "frequency, Hz"}, std::array{"clip", "Clip", "pick level, mVpk, 220 Hz"},
          std::array{"level", "Level", "pick level, mVpk, 220 Hz"},
          std::array{"harmonics", "Harmonics", "harmonic of 220 Hz"},
          std::array{"time", "Time", "ms, one period of 220 Hz"},
          std::array{"noise", "Noise", "Hz, noise density at the output"}}) {
        EXPECT_THAT(drawn(job, kind), AllOf(StartsWith("<?xml"), HasSubstr(std::string("HL-0231: ") + title),
                                            HasSubstr(axis), HasSubstr(">stock<"), HasSubstr(">now<")))
            << kind;
    }
}

TEST(CurvePicture, WhatTheModelsLeaveOutStandsOnIt) {
    constexpr const char* leftOut = "knows no crossover";
    EXPECT_THAT(drawn(job, "clip"), HasSubstr(leftOut));
    EXPECT_THAT(drawn(job, "response"), Not(HasSubstr(leftOut)));
    EXPECT_THAT(drawn(job, "noise"), HasSubstr("no flicker noise"));
}

TEST(CurvePicture, APinnedStateIsDrawnUnderItsLetter) {
    const test::ScratchFolder folder;
    const std::string path = folder.path("pinned.ohmjob");
    const Result<Job> pinned = pinState(test::harbourLamp());
    ASSERT_TRUE(pinned);
    ASSERT_TRUE(saveJob(*renamePinned(*pinned, "W", "as it came"), path));
    EXPECT_THAT(drawn(path, "level"), HasSubstr("W as it came"));
}

TEST(CurvePicture, APngIsAPictureAndAnotherEndingGetsTheValues) {
    const test::ScratchFolder folder;
    const std::string png = folder.path("lamp.png");
    EXPECT_EQ(test::answered({"curve", job, "--kind", "response", "--out", png}), "");
    EXPECT_THAT(test::bytesOf(png), StartsWith("\x89PNG"));
    const std::string csv = folder.path("lamp.csv");
    EXPECT_EQ(test::answered({"curve", job, "--kind", "response", "--out", csv}), "");
    EXPECT_THAT(test::bytesOf(csv), StartsWith("frequency_hz,stock_gain_db"));
}

TEST(CurvePicture, WhatCannotBeDrawnIsRefusedAndNothingIsWritten) {
    const test::ScratchFolder folder;
    const std::string path = folder.path("lamp.pdf");
    EXPECT_THAT(test::refused({"curve", job, "--kind", "clip", "--out", path}, ExitStatus::callWrong),
                HasSubstr(".svg or .png"));
    EXPECT_FALSE(std::filesystem::exists(path));
    EXPECT_THAT(
        test::refused({"curve", job, "--kind", "bias", "--out", folder.path("bias.svg")}, ExitStatus::callWrong),
        HasSubstr("bias is a table"));
    EXPECT_THAT(
        test::refused({"curve", job, "--kind", "loud", "--out", folder.path("loud.svg")}, ExitStatus::callWrong),
        HasSubstr("not \"loud\""));
}

}  // namespace
}  // namespace ohmwright
