// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/sound_parts.h"

#include "core/circuit/circuit.h"
#include "core/files/job_file.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace ohmwright {
namespace {

using test::harbourLamp;
using testing::AllOf;
using testing::Each;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// With one piece of the text replaced. REQUIRES: it is there.
std::string with(std::string text, const std::string& old, const std::string& put) {
    const std::size_t at = text.find(old);
    EXPECT_NE(at, std::string::npos) << old;
    return text.replace(at, old.size(), put);
}

int lineOf(const std::string& text, const std::string& piece) {
    const auto at = static_cast<std::ptrdiff_t>(text.find(piece));
    return 1 + static_cast<int>(std::count(text.begin(), text.begin() + at, '\n'));
}

SoundParts soundParts(const std::string& text) {
    Result<SoundParts> sound = readSoundParts(text);
    EXPECT_TRUE(sound) << (sound ? "" : sound.error().message);
    return sound ? *std::move(sound) : SoundParts();
}

// A technician edits the file by hand and writes a word where a figure belongs.
TEST(SoundPartsTest, APartWithAWrongValueIsLeftOutWholeAndNamedWithItsLine) {
    const std::string text = with(writeJob(harbourLamp()), "5.6e-08", "\"a lot\"");
    const SoundParts sound = soundParts(text);
    Job expected = harbourLamp();
    std::erase_if(expected.stock.parts, [](const Part& part) { return part.id == "c4"; });
    EXPECT_EQ(sound.job, expected);
    EXPECT_FALSE(sound.isNewer);
    ASSERT_EQ(sound.faults.size(), 1U);
    EXPECT_THAT(sound.faults[0], AllOf(HasSubstr("line " + std::to_string(lineOf(text, "a lot"))),
                                       HasSubstr("circuit/parts/c4/value"), HasSubstr("It is left out.")));
}

TEST(SoundPartsTest, AWrongWordOfTheCustomerStandsEmptyAndTheRestAsItWas) {
    const Job job = harbourLamp();
    const std::string text = with(writeJob(job), "\"name\": \"" + job.customer.name + "\"", "\"name\": 12");
    const SoundParts sound = soundParts(text);
    Job expected = job;
    expected.customer.name.clear();
    EXPECT_EQ(sound.job, expected);
    EXPECT_THAT(sound.faults, ElementsAre(AllOf(HasSubstr("customer/name"), HasSubstr("as in a new job"))));
}

TEST(SoundPartsTest, TheFileOfANewerProgramSaysWhatIsNotKnown) {
    std::string text = with(writeJob(harbourLamp()), "\"version\": 1", "\"version\": 3");
    text = with(text, "\"customer\": {", "\"loudness\": -12, \"customer\": {");
    const SoundParts sound = soundParts(text);
    EXPECT_TRUE(sound.isNewer);
    EXPECT_EQ(sound.job.stock, harbourLamp().stock);
    EXPECT_THAT(sound.faults, ElementsAre(HasSubstr("format version 3"), HasSubstr("loudness")));
}

TEST(SoundPartsTest, AKindOfChangeThatIsNotKnownTakesItsModAlong) {
    const SoundParts sound = soundParts(
        with(with(writeJob(harbourLamp()), "\"version\": 1", "\"version\": 2"), "\"swap value\"", "\"wind\""));
    EXPECT_EQ(sound.job.plan.size() + 1, harbourLamp().plan.size());
    EXPECT_THAT(sound.faults, ElementsAre(HasSubstr("version 2"), AllOf(HasSubstr("wind"), HasSubstr("left out"))));
}

// Cut off while it was copied from a full stick: at every length it is either refused or told, never taken for whole.
TEST(SoundPartsTest, CutOffAnywhereItHoldsOnlyWhatTheWholeFileHolds) {
    const Job job = harbourLamp();
    const std::string text = writeJob(job);
    constexpr std::size_t step = 97;  // A prime, so that the cuts fall everywhere in a line.
    int opened = 0;
    for (std::size_t length = 0; length + 2 < text.size(); length += step) {
        const Result<SoundParts> sound = readSoundParts(text.substr(0, length));
        if (!sound) {
            continue;
        }
        ++opened;
        EXPECT_THAT(sound->faults[0], HasSubstr("breaks off"));
        EXPECT_THAT(sound->faults, Each(testing::Not(IsEmpty())));
        for (std::size_t i = 0; i < sound->job.stock.parts.size(); ++i) {
            ASSERT_EQ(sound->job.stock.parts[i], job.stock.parts[i]) << length;
        }
        for (std::size_t i = 0; i < sound->job.plan.size(); ++i) {
            ASSERT_EQ(sound->job.plan[i], job.plan[i]) << length;
        }
    }
    EXPECT_GT(opened, 100);
}

TEST(SoundPartsTest, WhatHoldsNoPartOrIsNoJobIsRefusedAsBefore) {
    for (const std::string text :
         {"", "{", "{\"format\": \"ohmwright-drawer\", \"version\": 1}",
          "{\"format\": \"ohmwright-job\", \"version\": 1}", "[1, 2]", "netlist\nR1 a b 1k\n"}) {
        const Result<SoundParts> sound = readSoundParts(text);
        ASSERT_FALSE(sound) << text;
        EXPECT_EQ(sound.error(), readJob(text).error());
    }
    EXPECT_FALSE(readSoundParts(writeJob(harbourLamp()))) << "a sound file is opened as it is";
}

}  // namespace
}  // namespace ohmwright
