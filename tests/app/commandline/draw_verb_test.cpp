// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

#include <fstream>

namespace ohmwright {
namespace {

std::string written(const std::string& path, const std::string& text) {
    std::ofstream(path) << text;
    return path;
}

TEST(DrawVerb, AUnitIsDrawnFromLinesAndAnswers) {
    const test::ScratchFolder folder;
    const std::string lines = written(folder.path("lines.txt"),
                                      "put S at 4,4\nput E at 4,7\nput R 10k at 4,4\nput C 10n at 7,4 turned 1\n"
                                      "put E at 7,7\nput O at 7,4\nname 7,4 out\n");
    const std::string file = folder.path("unit.ohmjob");
    test::answered({"draw", lines, "--name", "Tide Pole", "--out", file});
    const auto job = loadJob(file);
    ASSERT_TRUE(job) << job.error().message;
    EXPECT_EQ(job->job.unit.name, "Tide Pole");
    EXPECT_EQ(job->job.stock.parts.size(), 3U);
    // A corner at 1/(2 pi R C) = 1591.55 Hz: 3.01 dB down there.
    const auto rows = test::rowsOf(test::answered({"response", file, "--at", "1591.549"}));
    ASSERT_EQ(rows.size(), 1U);
    bool isThreeDown = false;
    for (const auto& [column, text] : rows.front()) {
        isThreeDown = isThreeDown || text.starts_with("-3.01");
    }
    EXPECT_TRUE(isThreeDown);
}

// It was figured with 9 V, whatever battery was drawn.
TEST(DrawVerb, TheBatteryThatIsDrawnFeedsTheUnit) {
    const test::ScratchFolder folder;
    const std::string lines = written(folder.path("lines.txt"),
                                      "put B 18V at 4,4\nput E at 4,7\nput R 10k at 10,4 turned 1\nwire 4,4 10,4\n"
                                      "put E at 10,7\nname 10,4 rail\n");
    const std::string file = folder.path("unit.ohmjob");
    test::answered({"draw", lines, "--out", file});
    const auto rows = test::rowsOf(test::answered({"bias", file}));
    ASSERT_FALSE(rows.empty());
    EXPECT_EQ(rows.front().at("node"), "rail");
    EXPECT_EQ(rows.front().at("voltage_v"), "18");
}

TEST(DrawVerb, AUnitThatHasLeftIsNotDrawnOn) {
    const test::ScratchFolder folder;
    Job job = loadJob(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/small-rooster/small-rooster.ohmjob")->job;
    job.visit.state = VisitState::gone;
    const std::string file = folder.path("gone.ohmjob");
    ASSERT_TRUE(saveJob(job, file));
    const std::string lines = written(folder.path("lines.txt"), "move VR1 by 1,0\n");
    const std::string drawn = test::refused({"draw", lines, "--onto", file}, ExitStatus::callWrong);
    EXPECT_NE(drawn.find("is gone and its record closed"), std::string::npos) << drawn;
    const std::string arranged = test::refused({"arrange", file}, ExitStatus::callWrong);
    EXPECT_NE(arranged.find("is gone and its record closed"), std::string::npos) << arranged;
}

TEST(DrawVerb, TypesOfTheHouseAreKnown) {
    // "put J" said: No JFET is called "": type a name such as .
    const test::ScratchFolder folder;
    const std::string lines = written(folder.path("lines.txt"), "put J at 4,4\nput Q 2N3904 at 12,4\n");
    const auto job = readJob(test::answered({"draw", lines}));
    ASSERT_TRUE(job) << job.error().message;
    EXPECT_EQ(job->stock.parts.at(0).kind, PartKind::jfet);
    EXPECT_EQ(job->stock.parts.at(1).model, "2N3904");
}

TEST(DrawVerb, HelpShowsTheGrammarAndHelpIsAVerb) {
    const std::string help = test::answered({"draw", "--help"});
    EXPECT_NE(help.find("put R 33k at 13,3 turned 1"), std::string::npos) << help;
    EXPECT_EQ(test::answered({"help", "draw"}), help);
    EXPECT_EQ(test::answered({"help"}), test::answered({"--help"}));
}

TEST(DrawVerb, AJobIsDrawnOnAndAFaultNamesItsLine) {
    const test::ScratchFolder folder;
    const std::string demo = std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/small-rooster/small-rooster.ohmjob";
    const auto before = loadJob(demo);
    ASSERT_TRUE(before);
    const std::string lines = written(folder.path("lines.txt"), "# one more part\nput R 1M at 40,2\n");
    const auto after = readJob(test::answered({"draw", lines, "--onto", demo}));
    ASSERT_TRUE(after);
    EXPECT_EQ(after->stock.parts.size(), before->job.stock.parts.size() + 1);
    EXPECT_EQ(after->plan, before->job.plan);
    const std::string wrong = written(folder.path("wrong.txt"), "\nput nothing at 1,1\n");
    const test::Called call = test::call({"draw", wrong});
    EXPECT_NE(call.status, ExitStatus::answered);
    EXPECT_NE(call.err.find("line 2: "), std::string::npos) << call.err;
    EXPECT_EQ(call.out, "");
    EXPECT_NE(test::call({"draw", folder.path("none.txt")}).status, ExitStatus::answered);
}

}  // namespace
}  // namespace ohmwright
