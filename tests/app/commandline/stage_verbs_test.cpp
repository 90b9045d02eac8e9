// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "core/files/stage_shelf.h"
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(StageVerbs, StagesAreListedWithWhatTheyDoAndTheirKnobs) {
    const auto rows = test::rowsOf(test::answered({"stages"}));
    ASSERT_EQ(rows.size(), stagesToChoose({}).size());
    const auto clip = test::rowWith(rows, "stage", "soft-clip");
    EXPECT_EQ(clip.at("from"), "house");
    EXPECT_EQ(clip.at("name"), "Soft clip");
    EXPECT_EQ(clip.at("knobs"), "Drive");
    EXPECT_NE(clip.at("does").find("diodes"), std::string::npos);
}

TEST(StageVerbs, JoinedStagesAreAJobThatTheOtherVerbsAnswer) {
    const test::ScratchFolder folder;
    const std::string file = folder.path("new.ohmjob");
    test::answered({"join", "one-transistor", "tone-roll", "level", "--name", "Quay Bell", "--out", file});
    const auto job = loadJob(file);
    ASSERT_TRUE(job) << job.error().message;
    EXPECT_EQ(job->job.unit.name, "Quay Bell");
    ASSERT_EQ(job->job.stock.stages.size(), 5U);
    EXPECT_EQ(job->job.stock.stages[2].name, "Tone");
    test::answered({"check", file});
    EXPECT_EQ(test::rowsOf(test::answered({"response", file, "--at", "110,1k"})).size(), 2U);
    // Standard output without --out.
    EXPECT_TRUE(readJob(test::answered({"join", "jfet"})));
}

TEST(StageVerbs, TheShopsOwnAreTaken) {
    const test::ScratchFolder folder;
    StagePiece own = houseStage("level");
    own.name = "Own level";
    own.circuit.stages[0].name = "Own level";
    ASSERT_TRUE(saveStagePiece(own, folder.path("")));
    const auto rows = test::rowsOf(test::answered({"stages", "--shop", folder.path("")}));
    EXPECT_EQ(test::rowWith(rows, "stage", "own-level").at("from"), "shop");
    const auto job = readJob(test::answered({"join", "jfet", "own-level", "--shop", folder.path("")}));
    ASSERT_TRUE(job);
    EXPECT_EQ(job->stock.stages[2].name, "Own level");
    const auto byFile = readJob(test::answered({"join", folder.path("stages/own-level.json")}));
    ASSERT_TRUE(byFile);
    EXPECT_EQ(byFile->stock.stages[1].name, "Own level");
}

TEST(StageVerbs, AStageOfAJobIsKeptAndJoinedAgain) {
    const test::ScratchFolder folder;
    const std::string lamp = test::harbourLampPath();
    const test::Called kept = test::call({"stage-keep", lamp, "--stage", "Output buffer", "--name", "Lamp buffer",
                                          "--does", "follower at the end", "--shop", folder.path("")});
    EXPECT_EQ(kept.status, ExitStatus::answered);
    EXPECT_NE(kept.err.find("lamp-buffer.json"), std::string::npos) << kept.err;
    const auto piece = readStagePiece(kept.out);
    ASSERT_TRUE(piece) << piece.error().message;
    EXPECT_EQ(piece->does, "follower at the end");
    const auto unit = readJob(test::answered({"join", "jfet", "lamp-buffer", "--shop", folder.path("")}));
    ASSERT_TRUE(unit);
    EXPECT_EQ(unit->stock.stages[2].name, "Lamp buffer");
    // Parts by their references, ends by their nets.
    const auto parts = readStagePiece(test::answered(
        {"stage-keep", lamp, "--parts", "R7,C7", "--name", "Low-pass", "--input", "o1", "--output", "lp"}));
    ASSERT_TRUE(parts);
    EXPECT_EQ(parts->circuit.parts.size(), 2U);
    EXPECT_NE(test::refused({"stage-keep", lamp, "--stage", "Choir"}, ExitStatus::callWrong).find("Clip stage"),
              std::string::npos);
    test::refused({"stage-keep", lamp}, ExitStatus::callWrong);
    test::refused({"stage-keep", lamp, "--parts", "R99", "--name", "x"}, ExitStatus::callWrong);
    test::refused({"stage-keep", lamp, "--parts", "C4,R5", "--name", "x"}, ExitStatus::callWrong);
}

TEST(StageVerbs, WhatCannotBeJoinedIsRefusedInWords) {
    const test::ScratchFolder folder;
    EXPECT_NE(test::refused({"join", "choir"}, ExitStatus::callWrong).find("there is no stage “choir”"),
              std::string::npos);
    EXPECT_NE(test::refused({"join", "valve", "soft-clip"}, ExitStatus::callWrong).find("250 V"), std::string::npos);
    test::refused({"join"}, ExitStatus::callWrong);
    test::refused({"stages", "--shop", folder.path("none")}, ExitStatus::callWrong);
    test::refused({"join", folder.path("none.json")}, ExitStatus::fileWrong);
    (void)folder.write("broken.json", "{");
    EXPECT_NE(test::refused({"join", folder.path("broken.json")}, ExitStatus::fileWrong).find("broken.json"),
              std::string::npos);
}

}  // namespace
}  // namespace ohmwright
