// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/recipe_file.h"

#include "core/files/atomic_file.h"
#include "core/files/earlier_versions.h"
#include "tests/support/demo_job_files.h"
#include "tests/support/temporary_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// Every mod of Quarry Bell on paper, with trims of all kinds; its figures are not looked at here.
Recipe exampleRecipe() {
    const Job job = test::demoJob("quarry-bell");
    Recipe recipe;
    recipe.name = "LED pair, Köln";
    recipe.taken = "2026-11-29";
    recipe.from = job.unit;
    recipe.hash = stateHash(job);
    recipe.complaint = job.visit.complaint;
    recipe.words = job.visit.words;
    recipe.circuit = job.stock;
    recipe.circuit.drawing = {};
    recipe.plan = job.plan;
    recipe.setting = job.setting;
    recipe.setting.throws["mod-d"] = "LED";
    recipe.trims = {
        {job.plan[1].id,
         {},
         {},
         {test::valueOrThrow(readWant("gain_leg_corner=590")), test::valueOrThrow(readWant("response@330=12.5"))}},
        {job.plan[2].id, "u1a", 4.9, {}},
        {job.plan[2].id, "u1a", {}, {}}};
    recipe.figures = {{"level", -12.1, 1.0 / 3.0}, {"h2", {}, -40.0}, {"h3", -20.0, {}}};
    recipe.readings = {{"U1A output", "o1", 4.46, Unit::volt}};
    return recipe;
}

TEST(RecipeFile, ComesBackAsItWasWritten) {
    const Recipe recipe = exampleRecipe();
    const auto back = readRecipe(writeRecipe(recipe));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, recipe);
    EXPECT_EQ(writeRecipe(*back), writeRecipe(recipe));
}

TEST(RecipeFile, ATakenRecipeComesBackAndFitsAsBefore) {
    const Job job = test::demoJob("small-rooster");
    const Recipe recipe = test::valueOrThrow(takeRecipe(job, {"", "2026-11-29", {}}));
    const auto back = readRecipe(writeRecipe(recipe));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, recipe);
}

// Property: a file that was cut off anywhere is refused, never half read.
TEST(RecipeFile, EveryByteCutOffIsRefused) {
    const std::string text = writeRecipe(exampleRecipe());
    for (std::size_t length = 0; length + 2 < text.size(); length += 37) {
        EXPECT_FALSE(readRecipe(std::string_view(text).substr(0, length))) << length;
    }
}

TEST(RecipeFile, WhatIsWrongIsNamed) {
    const std::string text = writeRecipe(exampleRecipe());
    struct Case {
        const char *from, *to, *said;
    };
    for (const Case& each :
         {Case{"ohmwright-recipe", "ohmwright-job", "format"}, Case{"gain_leg_corner", "gain_of_leg", "gain_of_leg"},
          Case{"\"taken\"", "\"when\"", "taken"}, Case{"\"trims\"", "\"trimmings\"", "trimmings"},
          Case{"\"mod\": \"mod-c\"", "\"mod\": \"mod-z\"", "\"mod-z\""},
          Case{"\"function\"", "\"funktion\"", "funktion"}}) {
        std::string damaged = text;
        const std::size_t at = damaged.find(each.from);
        ASSERT_NE(at, std::string::npos) << each.from;
        damaged.replace(at, std::string(each.from).size(), each.to);
        const auto recipe = readRecipe(damaged);
        ASSERT_FALSE(recipe) << each.from;
        EXPECT_EQ(recipe.error().code, ErrorCode::fileDamaged);
        EXPECT_THAT(recipe.error().message, HasSubstr(each.said));
    }
    std::string newer = text;
    newer.replace(newer.find("\"version\": 1"), 12, "\"version\": 2");
    EXPECT_EQ(readRecipe(newer).error().code, ErrorCode::fileNewer);
}

TEST(RecipeFile, AShopKeepsItUnderItsNameAndLosesNone) {
    const TemporaryFolder shop;
    Recipe recipe = exampleRecipe();
    const auto path = saveRecipe(recipe, shop.path());
    ASSERT_TRUE(path) << path.error().message;
    EXPECT_EQ(*path, shop.path() / "recipes" / "led-pair-k-ln.json");
    // Another recipe whose name makes the same file name has its own file.
    Recipe other = recipe;
    other.name = "LED pair: k ln";
    EXPECT_EQ(*saveRecipe(other, shop.path()), shop.path() / "recipes" / "led-pair-k-ln-2.json");
    // The same one again takes its own place, and the earlier version is kept.
    recipe.complaint = "Fizzier.";
    EXPECT_EQ(*saveRecipe(recipe, shop.path()), *path);
    EXPECT_THAT(earlierVersionsOf(*path), SizeIs(1));
    const auto found = readShopRecipes(shop.path());
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_EQ(found[0].recipe->name, "LED pair: k ln");
    EXPECT_EQ(found[1].recipe, recipe);
}

TEST(RecipeFile, OneThatCannotBeReadIsListedWithItsFault) {
    const TemporaryFolder shop;
    ASSERT_TRUE(saveRecipe(exampleRecipe(), shop.path()));
    ASSERT_TRUE(replaceFile(shop.path() / "recipes" / "broken.json", "{"));
    const auto found = readShopRecipes(shop.path());
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_FALSE(found[0].recipe);
    EXPECT_THAT(found[0].fault, HasSubstr("broken.json"));
    EXPECT_THAT(readShopRecipes(shop.path() / "nowhere"), IsEmpty());
    EXPECT_FALSE(saveRecipe(exampleRecipe(), {}));
}

}  // namespace
}  // namespace ohmwright
