/// Figures from the demos' own description: with a typical device Paper Boat's drain stands half way at 5k37, with a
/// high one at 2k37.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "core/files/recipe_file.h"
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

#include <variant>

namespace ohmwright {
namespace {

using test::numberIn;
using test::rowWith;

std::string demoPath(const std::string& demo) {
    return std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/" + demo + "/" + demo + ".ohmjob";
}

void expectSaid(const test::Called& called, const std::string& words) {
    EXPECT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_NE(called.err.find(words), std::string::npos) << called.err;
}

/// Paper Boat's trimmed drain resistor as a recipe, and a second unit whose JFET is one of the high ones.
class PaperBoats : public testing::Test {
protected:
    PaperBoats() {
        recipe = folder.path("trimmed.json");
        expectSaid(test::call({"recipe-take", demoPath("paper-boat"), "--trim", "A=half-way", "--name", "Half way",
                               "--date", "2026-11-29", "--out", recipe}),
                   "J1 drain half way");
        Job unit = loadJob(demoPath("paper-boat"))->job;
        unit.plan.clear();
        unit.unit.serial = "PT-0119";
        for (Model& model : unit.stock.models)
            if (!model.corners.empty())
                for (const auto& [name, value] : model.corners.back().parameters) model.parameters[name] = value;
        second = folder.path("second.ohmjob");
        EXPECT_TRUE(saveJob(unit, second));
    }

    test::ScratchFolder folder;
    std::string recipe, second;
};

TEST_F(PaperBoats, ARecipeIsTakenWithItsTrim) {
    const auto taken = loadRecipe(recipe);
    ASSERT_TRUE(taken) << taken.error().message;
    EXPECT_EQ(taken->name, "Half way");
    EXPECT_EQ(taken->taken, "2026-11-29");
    ASSERT_EQ(taken->trims.size(), 1u);
    EXPECT_EQ(taken->trims[0].device, "j1");
    test::refused({"recipe-take", demoPath("paper-boat"), "--trim", "A"}, ExitStatus::callWrong);
    test::refused({"recipe-take", demoPath("paper-boat"), "--trim", "B=half-way"}, ExitStatus::callWrong);
}

TEST_F(PaperBoats, IsHeldAgainstAnotherUnitBeforeItIsApplied) {
    const test::Called called = test::call({"recipe-compare", second, "--recipe", recipe});
    EXPECT_EQ(called.status, ExitStatus::answered) << called.err;
    const auto tables = test::tablesOf(called.out);
    ASSERT_GE(tables.size(), 3u);
    ASSERT_EQ(tables[0].size(), 1u);
    EXPECT_EQ(tables[0][0].at("certainty"), "sure");
    EXPECT_EQ(tables[1][0].at("applied"), "A");
    EXPECT_NEAR(numberIn(rowWith(tables[2], "difference", "trim"), "here_now"), 2370.0, 12.0);
    const test::CsvRow gain = rowWith(tables[2], "what", "stage_gain_1k");
    EXPECT_NEAR(numberIn(gain, "here_now"), 10.1, 0.1);
}

TEST_F(PaperBoats, IsAppliedAsMods) {
    const std::string out = folder.path("applied.ohmjob");
    test::answered({"recipe-apply", second, "--recipe", recipe, "--out", out});
    const auto applied = loadJob(out);
    ASSERT_TRUE(applied) << applied.error().message;
    ASSERT_EQ(applied->job.plan.size(), 1u);
    EXPECT_NEAR(std::get<SwapValue>(applied->job.plan[0].change).value, 2370.0, 12.0);
}

TEST_F(PaperBoats, OnAnotherCircuitWhatIsNotFoundIsSaid) {
    const test::Called called = test::call({"recipe-apply", demoPath("three-hills"), "--recipe", recipe});
    expectSaid(called, "Mod A is not applied");
}

TEST_F(PaperBoats, AFileThatIsNoRecipeIsNamed) {
    const std::string broken = folder.write("broken.json", "{}");
    EXPECT_NE(test::refused({"recipe-compare", second, "--recipe", broken}, ExitStatus::fileWrong).find("broken.json"),
              std::string::npos);
    test::refused({"recipe-apply", second}, ExitStatus::callWrong);
}

}  // namespace
}  // namespace ohmwright
