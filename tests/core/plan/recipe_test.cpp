// Figures: of the demos (tests/reference/demos/figures.csv); the JFET's trims from the demo's own description: Rd 19k7,
// 5k37 and 2k37 for the low, typical and high device give a stage gain of 30.4, 18.7 and 10.1 dB.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/recipe.h"

#include "core/measure/solved_circuit.h"
#include "core/measure/spread.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"
#include "tests/support/demo_job_files.h"
#include "tests/support/disguise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <tuple>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Job withOnly(Job job, const std::string& letters) {
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

Recipe recipeOf(const Job& job, RecipeOptions options = {}) {
    return test::valueOrThrow(takeRecipe(job, options));
}

/// The same board drawn by another hand, without a plan.
Job otherUnit(const Job& job, const test::Disguise& other) {
    Job unit = job;
    unit.stock = other.circuit;
    unit.plan.clear();
    unit.setting.throws.clear();
    unit.unit.serial = "2";
    return unit;
}

/// A board that lacks a part.
test::Disguise without(const PartId& part, const Job& job, std::uint32_t seed) {
    test::Disguise other = test::disguised(job.stock, seed);
    const PartId id = other.parts.at(part);
    std::erase_if(other.circuit.parts, [&id](const Part& each) { return each.id == id; });
    for (Stage& stage : other.circuit.stages) {
        std::erase(stage.parts, id);
    }
    return other;
}

const RecipeDifference* find(const RecipeFit& fit, DifferenceKind kind, const std::string& what) {
    for (const RecipeDifference& each : fit.differences) {
        if (each.kind == kind && each.what == what) {
            return &each;
        }
    }
    return nullptr;
}

std::string differencesOf(const RecipeFit& fit, DifferenceKind kind) {
    std::string words;
    for (const RecipeDifference& each : fit.differences) {
        words += each.kind == kind ? each.sentence + "\n" : "";
    }
    return words;
}

TEST(Recipe, HoldsWhatWasFittedAndNothingOfTheUnit) {
    const Job job = test::demoJob("harbour-lamp");
    const Recipe recipe = recipeOf(job, {"", "2026-11-29", {}});
    EXPECT_EQ(recipe.name, "Harbour Lamp A");
    EXPECT_EQ(recipe.taken, "2026-11-29");
    EXPECT_EQ(recipe.from.serial, "HL-0231");
    EXPECT_EQ(recipe.hash, stateHash(job));
    ASSERT_THAT(recipe.plan, SizeIs(1));
    EXPECT_EQ(recipe.plan[0].letter, "A");
    EXPECT_THAT(recipe.words, ElementsAre("fuller", "less squashed"));
    for (const Part& part : recipe.circuit.parts) {
        EXPECT_EQ(part.knowledge, Knowledge::drawn);
        EXPECT_FALSE(part.measured || !part.printed.empty() || !part.boardNote.empty() || part.placement);
    }
    const auto corner = std::find_if(recipe.figures.begin(), recipe.figures.end(),
                                     [](const RecipeFigure& figure) { return figure.id == "gain_leg_corner"; });
    ASSERT_NE(corner, recipe.figures.end());
    EXPECT_NEAR(*corner->stock, 728.7, 0.1);
    EXPECT_NEAR(*corner->now, 340.1, 0.1);
}

TEST(Recipe, WithoutAFittedModThereIsNone) {
    const auto none = takeRecipe(withOnly(test::demoJob("harbour-lamp"), ""), {});
    ASSERT_FALSE(none);
    EXPECT_THAT(none.error().message, HasSubstr("No mod is on"));
}

// Property: on a unit of the same board drawn by another hand, every mod of every demo is applied for sure, and the
// unit then has the same figures and the same readings.
class OnTheSameBoard : public testing::TestWithParam<std::string> {};

TEST_P(OnTheSameBoard, EveryModGivesTheSameFigures) {
    const Job demo = test::demoJob(GetParam());
    std::uint32_t seed = 20;
    for (const Mod& mod : demo.plan) {
        SCOPED_TRACE(mod.letter);
        const Job job = withOnly(demo, mod.letter);
        const Job unit = otherUnit(job, test::disguised(job.stock, ++seed));
        const auto fit = fitRecipe(recipeOf(job), unit);
        ASSERT_TRUE(fit) << fit.error().message;
        ASSERT_THAT(fit->mods, SizeIs(1));
        EXPECT_EQ(fit->mods[0].certainty, MatchCertainty::sure) << fit->mods[0].sentence;
        EXPECT_EQ(fit->mods[0].applied, "A");
        EXPECT_EQ(differencesOf(*fit, DifferenceKind::figure), "");
        EXPECT_EQ(differencesOf(*fit, DifferenceKind::reading), "");
        EXPECT_EQ(differencesOf(*fit, DifferenceKind::part), "");
    }
}

INSTANTIATE_TEST_SUITE_P(Demos, OnTheSameBoard, testing::ValuesIn(test::allDemos()), [](const auto& each) {
    std::string name = each.param;
    std::erase(name, '-');
    return name;
});

TEST(Recipe, ModsComeAfterTheUnitsOwnAndTakeFreeNames) {
    const Job demo = withOnly(test::demoJob("harbour-lamp"), "AB");
    const auto fit = fitRecipe(recipeOf(demo), demo);
    ASSERT_TRUE(fit) << fit.error().message;
    ASSERT_THAT(fit->job.plan, SizeIs(6));
    EXPECT_EQ(fit->mods[0].applied, "E");
    EXPECT_EQ(fit->mods[1].applied, "F");
    std::vector<std::string> references;
    for (const Mod& mod : fit->job.plan) {
        for (const NewPart* part : newPartsOf(mod.change)) {
            references.push_back(part->reference);
        }
    }
    EXPECT_THAT(references, ElementsAre("D3", "D4"));
    EXPECT_TRUE(nowCircuit(fit->job));
}

// A diode in series with a resistor that sits the other way round here still points the same way.
TEST(Recipe, AFittedDiodeKeepsItsWayRoundWhereThePartIsTurned) {
    Job job = withOnly(test::demoJob("small-rooster"), "");
    NewPart diode;
    diode.reference = "D9";
    diode.kind = PartKind::diode;
    diode.model = *findModel(test::demoJob("harbour-lamp").stock, "1N4148");
    job = test::valueOrThrow(addMod(job, AddInSeries{"r3", 1, diode, false}));
    const Circuit there = test::valueOrThrow(nowCircuit(job));
    const Part& fittedThere = *findPartByReference(there, "D9");
    bool isTurnedOnce = false;
    for (std::uint32_t seed = 1; seed <= 6; ++seed) {
        const test::Disguise other = test::disguised(job.stock, seed);
        isTurnedOnce = isTurnedOnce || other.isTurned.at("r3");
        const auto fit = fitRecipe(recipeOf(job), otherUnit(job, other));
        ASSERT_TRUE(fit) << fit.error().message;
        const Circuit here = test::valueOrThrow(nowCircuit(fit->job));
        const Part& fitted = *findPartByReference(here, "D9");
        // Its outer leg is the collector's net; the other one begins with it.
        const std::size_t outer = fittedThere.nets[0] == "c" ? 0 : 1;
        EXPECT_EQ(fitted.nets[outer], other.nets.at("c")) << seed;
    }
    EXPECT_TRUE(isTurnedOnce);
}

TEST(Recipe, AModWhosePartIsMissingIsNotAppliedAndSaid) {
    const Job job = withOnly(test::demoJob("harbour-lamp"), "AD");
    const auto fit = fitRecipe(recipeOf(job), otherUnit(job, without("c7", job, 31)));
    ASSERT_TRUE(fit) << fit.error().message;
    EXPECT_EQ(fit->mods[0].applied, "A");
    EXPECT_EQ(fit->mods[1].applied, "");
    EXPECT_THAT(fit->mods[1].sentence, HasSubstr("Mod D is not applied"));
    EXPECT_THAT(fit->mods[1].sentence, HasSubstr("C7"));
    EXPECT_THAT(fit->job.plan, SizeIs(1));
    EXPECT_THAT(differencesOf(*fit, DifferenceKind::part), HasSubstr("No part here does what C7"));
}

// A mod on a part that the mod before it fits goes where that one goes, and stays away with it.
TEST(Recipe, AModOnAFittedPartFollowsIt) {
    Job job = withOnly(test::demoJob("harbour-lamp"), "B");
    NewPart resistor;
    resistor.reference = "R99";
    resistor.value = 100.0;
    const std::string fittedId = job.plan[1].id;
    job = test::valueOrThrow(addMod(job, AddInSeries{fittedId, 0, resistor, false}));
    const test::Disguise other = test::disguised(job.stock, 33);
    const auto fit = fitRecipe(recipeOf(job), otherUnit(job, other));
    ASSERT_TRUE(fit) << fit.error().message;
    EXPECT_EQ(fit->mods[1].applied, "B") << fit->mods[1].sentence;
    EXPECT_TRUE(nowCircuit(fit->job));

    const auto none = fitRecipe(recipeOf(job), otherUnit(job, without("d2", job, 34)));
    ASSERT_TRUE(none) << none.error().message;
    EXPECT_EQ(none->mods[0].applied, "");
    EXPECT_EQ(none->mods[1].applied, "");
    EXPECT_THAT(none->mods[1].sentence, HasSubstr("works on a part that a mod fits"));
}

TEST(Recipe, OtherValuesAreListedWithTheirFigures) {
    const Job job = withOnly(test::demoJob("harbour-lamp"), "A");
    test::Disguise other = test::disguised(job.stock, 35);
    Part& leg = *findPart(other.circuit, other.parts.at("r5"));
    leg.value = 2.7e3;
    Part& load = *findPart(other.circuit, other.parts.at("r7"));
    load.knowledge = Knowledge::measured;
    load.measured = 1.62e3;
    const auto fit = fitRecipe(recipeOf(job), otherUnit(job, other));
    ASSERT_TRUE(fit) << fit.error().message;
    EXPECT_THAT(differencesOf(*fit, DifferenceKind::value), HasSubstr("3k9 there, 2k7 here"));
    EXPECT_THAT(differencesOf(*fit, DifferenceKind::value), HasSubstr("1k5 there, 1k62 here, measured"));
    // 1/(2 pi 2k7 120n)
    const RecipeDifference* corner = find(*fit, DifferenceKind::figure, "gain_leg_corner");
    ASSERT_NE(corner, nullptr);
    EXPECT_NEAR(*corner->there, 340.1, 0.1);
    EXPECT_NEAR(*corner->here, 491.2, 0.1);
    EXPECT_THAT(corner->sentence, HasSubstr("340 Hz there, 491 Hz here"));
}

// ---- Trims --------------------------------------------------------------------------------------------------------

Job paperBoatWith(const std::string& corner) {
    Job job = withOnly(test::demoJob("paper-boat"), "A");
    for (Model& model : job.stock.models) {
        for (const ModelCorner& each : std::vector<ModelCorner>(model.corners)) {
            if (each.name == corner) {
                for (const auto& [name, value] : each.parameters) {
                    model.parameters[name] = value;
                }
            }
        }
    }
    return job;
}

RecipeFit trimmedFor(const std::string& corner, const char* rule) {
    const Job typical = paperBoatWith("typical");
    RecipeOptions options;
    options.trims = {test::valueOrThrow(readTrim(typical, "A", rule))};
    const Job unit = paperBoatWith(corner);
    return test::valueOrThrow(fitRecipe(recipeOf(typical, options), otherUnit(unit, test::disguised(unit.stock, 3))));
}

double valueOfMod(const RecipeFit& fit) {
    return std::get<SwapValue>(fit.job.plan.back().change).value;
}

double stageGainAt1k(const RecipeFit& fit) {
    Job job = fit.job;
    job.stock = asMeasured(job.stock);
    const auto figures = measureFigures(test::valueOrThrow(nowCircuit(job)), job.setting);
    return findFigure(*figures, "stage_gain_1k")->value.value();
}

TEST(RecipeTrim, TheSameBiasIsAnotherPedalWithAnotherDevice) {
    struct Case {
        const char* corner;
        double ohms, gainDb;
    };
    for (const Case& each : {Case{"low", 19.7e3, 30.4}, Case{"typical", 5.37e3, 18.7}, Case{"high", 2.37e3, 10.1}}) {
        SCOPED_TRACE(each.corner);
        const RecipeFit fit = trimmedFor(each.corner, "half-way");
        EXPECT_NEAR(valueOfMod(fit), each.ohms, 0.005 * each.ohms);
        EXPECT_NEAR(stageGainAt1k(fit), each.gainDb, 0.1);
        EXPECT_THAT(fit.mods[0].sentence, HasSubstr("6k8 → "));
        EXPECT_THAT(differencesOf(fit, DifferenceKind::trim), HasSubstr("trimmed anew: J1 drain half way"));
        EXPECT_NE(find(fit, DifferenceKind::figure, "stage_gain_1k"), nullptr) << "5k6 was fitted there, untrimmed";
    }
}

TEST(RecipeTrim, HoldsVoltsAtTheDrain) {
    for (const char* corner : {"low", "typical", "high"}) {
        SCOPED_TRACE(corner);
        const RecipeFit fit = trimmedFor(corner, "4.9");
        const auto solved = solveCircuit(test::valueOrThrow(nowCircuit(fit.job)), fit.job.setting);
        ASSERT_TRUE(solved);
        const Part* device = nullptr;
        for (const Part& part : fit.job.stock.parts) {
            device = part.kind == PartKind::jfet ? &part : device;
        }
        EXPECT_NEAR(solved->biasVolts(device->nets[0]), 4.9, 0.03);
    }
}

TEST(RecipeTrim, HoldsAFigureWithPartsOfTheDrawer) {
    const Job job = withOnly(test::demoJob("harbour-lamp"), "C");
    RecipeOptions options;
    options.trims = {test::valueOrThrow(readTrim(job, "C", "gain_leg_corner=1053"))};
    // 1/(2 pi 2k7 56n) = 1052.6 Hz there; with 82n the leg needs 1k84, and 1k8 is the nearest of E24.
    test::Disguise other = test::disguised(job.stock, 37);
    findPart(other.circuit, other.parts.at("c4"))->value = 82e-9;
    const auto fit = fitRecipe(recipeOf(job, options), otherUnit(job, other));
    ASSERT_TRUE(fit) << fit.error().message;
    EXPECT_DOUBLE_EQ(valueOfMod(*fit), 1.8e3);
}

TEST(RecipeTrim, WhatCannotBeTrimmedIsRefusedInWords) {
    const Job job = test::demoJob("harbour-lamp");
    for (const auto& [letter, rule, words] :
         {std::tuple("A", "half-way", "feeds no transistor"), std::tuple("C", "half-way", "No mod “C” is on"),
          std::tuple("A", "gain=9", "gain"), std::tuple("Z", "half-way", "“Z”")}) {
        const auto trim = readTrim(job, letter, rule);
        ASSERT_FALSE(trim) << letter << rule;
        EXPECT_THAT(trim.error().message, HasSubstr(words));
    }
    const auto other = readTrim(paperBoatWith("typical"), "A", "by ear");
    ASSERT_FALSE(other);
    EXPECT_THAT(other.error().message, HasSubstr("half-way"));
}

TEST(Recipe, IsNotAppliedToAUnitThatIsGone) {
    Job job = test::demoJob("harbour-lamp");
    const Recipe recipe = recipeOf(job);
    job.visit.state = VisitState::gone;
    const auto fit = fitRecipe(recipe, job);
    ASSERT_FALSE(fit);
    EXPECT_THAT(fit.error().message, HasSubstr("begin the next one"));
}

}  // namespace
}  // namespace ohmwright
