// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/board_format.h"

#include "core/files/job_file.h"
#include "core/files/sound_parts.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Job photographed() {
    Job job;
    job.board.partSide.photo = BoardPhoto{"lamp-part-side.jpg", "0123456789abcdef", 4000, 3000};
    job.board.partSide.marks = {{{"c4", 0}, {1220.5, 640.25}}, {{"c4", 1}, {1300, 640}}};
    job.board.solderSide.photo = BoardPhoto{"lamp-solder-side.png", "fedcba9876543210", 800, 600};
    return job;
}

/// The error of the photographed job's file with one text in it changed.
std::string errorWith(const std::string& from, const std::string& to) {
    std::string text = writeJob(photographed());
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    text.replace(at, from.size(), to);
    const auto job = readJob(text);
    return job ? std::string("read") : job.error().message;
}

TEST(BoardFormat, SurvivesTheFile) {
    const auto back = readJob(writeJob(photographed()));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, photographed());
}

// A file of an earlier version has no such key, and one without photos gets none.
TEST(BoardFormat, WhatAnOlderFileLacksStaysEmpty) {
    const std::string text = writeJob(Job());
    EXPECT_EQ(text.find("\"board\":"), std::string::npos);
    EXPECT_EQ(readJob(text)->board, Board());
}

TEST(BoardFormat, UnknownKeysAreKept) {
    std::string text = writeJob(photographed());
    const std::string key = "\"hash\": \"0123456789abcdef\",";
    text.replace(text.find(key), key.size(), key + " \"lens\": \"35 mm\",");
    const auto job = readJob(text);
    ASSERT_TRUE(job) << job.error().message;
    EXPECT_NE(writeJob(*job).find("\"lens\": \"35 mm\""), std::string::npos);
}

TEST(BoardFormat, AWrongEntryIsNamed) {
    EXPECT_NE(errorWith("lamp-part-side.jpg", "../lamp.jpg").find("without folders"), std::string::npos);
    EXPECT_NE(errorWith("lamp-part-side.jpg", "C:lamp.jpg").find("without folders"), std::string::npos);
    EXPECT_NE(errorWith("0123456789abcdef", "0123").find("16 digits"), std::string::npos);
    EXPECT_NE(errorWith("1220.5", "4000.5").find("beside the photo"), std::string::npos);
    EXPECT_NE(errorWith("\"pin\": 1", "\"pin\": 0").find("marked twice"), std::string::npos);
    EXPECT_NE(errorWith("\"width\": 4000", "\"width\": 0").find("board/partSide/width"), std::string::npos);
}

// What is sound of such a file is shown: the board is left out whole, as any key that a new job has not.
TEST(BoardFormat, AWrongMarkLeavesTheBoardOutAndIsSaid) {
    Job job = photographed();
    Part part;
    part.id = "c4";
    part.reference = "C4";
    part.kind = PartKind::capacitor;
    part.value = 56e-9;
    part.nets = {"a", "0"};
    job.stock.parts = {part};
    std::string text = writeJob(job);
    text.replace(text.find("1220.5"), 6, "9220.5");
    const auto sound = readSoundParts(text);
    ASSERT_TRUE(sound) << sound.error().message;
    EXPECT_EQ(sound->job.board, Board());
    EXPECT_EQ(sound->job.stock, job.stock);
    EXPECT_NE(sound->faults.front().find("board/partSide/marks"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright
