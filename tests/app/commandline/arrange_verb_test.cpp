// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/legibility.h"
#include "core/files/job_file.h"
#include "tests/app/commandline/called.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

const std::string mossEngine = OHMWRIGHT_SOURCE_DIR "/tests/reference/netlists/demos/moss-engine-stock.cir";

/// What is written, with how it reads said beside it.
std::string arranged(const std::vector<std::string>& args) {
    const test::Called called = test::call(args);
    EXPECT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_NE(called.err.find("crossing"), std::string::npos) << called.err;
    EXPECT_NE(called.err.find("; stages "), std::string::npos) << called.err;
    return called.out;
}

TEST(ArrangeVerb, ANetlistIsWrittenAsAJobWithADrawing) {
    const test::ScratchFolder folder;
    const std::string file = folder.path("moss.ohmjob");
    arranged({"arrange", mossEngine, "--out", file});
    const auto loaded = loadJob(file);
    ASSERT_TRUE(loaded) << loaded.error().message;
    const Circuit& stock = loaded->job.stock;
    for (const Part& part : stock.parts) {
        EXPECT_TRUE(part.placement) << part.reference;
    }
    EXPECT_TRUE(legibilityOf(stock).isSound()) << legibilityOf(stock).worst;
    EXPECT_GE(stock.stages.size(), 2U);
    EXPECT_EQ(test::call({"check", file}).status, ExitStatus::answered);
}

TEST(ArrangeVerb, OfAJobOnlyTheNamedPartsAreLaidOutAnew) {
    const Circuit before = test::harbourLamp().stock;
    const auto after = readJob(arranged({"arrange", test::harbourLampPath(), "--parts", "C7,R7"}));
    ASSERT_TRUE(after) << after.error().message;
    EXPECT_TRUE(legibilityOf(after->stock).isSound()) << legibilityOf(after->stock).worst;
    EXPECT_EQ(findPart(after->stock, "u1a")->placement, findPart(before, "u1a")->placement);
    EXPECT_EQ(after->stock.stages[2].name, before.stages[2].name);
    EXPECT_NE(test::refused({"arrange", test::harbourLampPath(), "--parts", "R77"}, ExitStatus::callWrong).find("R77"),
              std::string::npos);
}

TEST(ArrangeVerb, AJobDrawnAnewKeepsItsPlanAndTheNamesOfItsStages) {
    const Job before = test::harbourLamp();
    const auto after = readJob(arranged({"arrange", test::harbourLampPath()}));
    ASSERT_TRUE(after) << after.error().message;
    EXPECT_EQ(after->plan, before.plan);
    const Stage* clip = stageWithOutput(after->stock, "in");
    ASSERT_NE(clip, nullptr);
    EXPECT_EQ(clip->name, "Source");
}

TEST(ArrangeVerb, WhatNoMapCanShowIsRefused) {
    // Both were written although their own note said "opened as a list"; neither file could be read again.
    for (const char* name : {"rc_line_2000_nodes", "transistor_chain_120"}) {
        const std::string file = std::string(OHMWRIGHT_SOURCE_DIR "/tests/reference/suite/ladders/") + name + ".cir";
        const std::string refused = test::refused({"arrange", file}, ExitStatus::callWrong);
        EXPECT_NE(refused.find("more than a map of one screen can show (120)"), std::string::npos) << refused;
    }
}

TEST(ArrangeVerb, TidyPartsAreSaidToBe) {
    const test::Called called = test::call({"arrange", test::harbourLampPath(), "--parts", "R9"});
    ASSERT_EQ(called.status, ExitStatus::answered) << called.err;
    const auto after = readJob(called.out);
    ASSERT_TRUE(after);
    if (after->stock == test::harbourLamp().stock) {
        EXPECT_NE(called.err.find("tidy already"), std::string::npos) << called.err;
    } else {
        EXPECT_LE(legibilityOf(after->stock).bends, legibilityOf(test::harbourLamp().stock).bends);
    }
}

}  // namespace
}  // namespace ohmwright
