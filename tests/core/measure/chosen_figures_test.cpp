// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/chosen_figures.h"

#include "tests/support/demo_job.h"
#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

std::vector<FigureName> namesOf(std::initializer_list<const char*> words) {
    std::vector<FigureName> names;
    for (const char* word : words) {
        const auto name = findFigureName(word);
        EXPECT_TRUE(name) << word;
        if (name) names.push_back(*name);
    }
    return names;
}

TEST(ChosenFigures, EveryFigureKindIsKnownAndAnyFrequency) {
    for (const FigureKind& kind : figureKinds()) {
        const auto name = findFigureName(kind.id);
        ASSERT_TRUE(name) << kind.id;
        EXPECT_EQ(name->unit, kind.unit);
    }
    EXPECT_DOUBLE_EQ(findFigureName("response@440.5")->hertz.value(), 440.5);
    for (const char* word : {"", "response@", "response@x", "response@-3", "response@1e99", "corner"}) {
        const auto name = findFigureName(word);
        ASSERT_FALSE(name) << word;
        EXPECT_THAT(name.error().message, testing::HasSubstr("gain_leg_corner"));
    }
}

// Whatever was measured before: one circuit after the other gives what each gives alone.
TEST(ChosenFigures, AreThoseOfTheWholeMeasurement) {
    const Job job = test::harbourLamp();
    FigureMeter meter(namesOf({"gain_leg_corner", "plateau_gain", "low_corner", "highest_gain", "response_82",
                               "response@82.41", "stage_gain_1k", "stage_gain@1000", "supply_current", "level",
                               "peak_positive", "clip_threshold_positive"}));
    for (const double farads : {56e-9, 120e-9, 33e-9}) {
        Circuit circuit = job.stock;
        findPart(circuit, "c4")->value = farads;
        const auto whole = measureFigures(circuit, job.setting);
        const auto chosen = meter.measure(circuit, job.setting);
        ASSERT_TRUE(whole && chosen);
        ASSERT_EQ(chosen->size(), meter.names().size());
        for (const Figure& figure : *chosen) {
            const std::string id = figure.id == "response@82.41"    ? "response_82"
                                   : figure.id == "stage_gain@1000" ? "stage_gain_1k"
                                                                    : figure.id;
            ASSERT_TRUE(figure.value) << figure.id;
            EXPECT_NEAR(*figure.value, *findFigure(*whole, id)->value, 1e-4 * std::abs(*figure.value) + 1e-6)
                << figure.id;
        }
    }
}

TEST(ChosenFigures, WorkIsNoMoreThanNeeded) {
    EXPECT_EQ(findFigureName("gain_leg_corner")->work, FigureWork::formula);
    EXPECT_EQ(findFigureName("response_330")->work, FigureWork::linear);
    EXPECT_EQ(findFigureName("level")->work, FigureWork::settled);
    EXPECT_EQ(findFigureName("clip_threshold_negative_input")->work, FigureWork::clip);
}

TEST(ChosenFigures, AnUnknownFigureIsAskedForWhole) {
    const test::Spoken german{{"There is no figure “%1”: choose from %2.", "Zur Wahl stehen %2; „%1“ fehlt."}};
    const auto unknown = findFigureName("loudness");
    ASSERT_FALSE(unknown);
    EXPECT_TRUE(unknown.error().message.starts_with("Zur Wahl stehen gain_leg_corner, ")) << unknown.error().message;
    EXPECT_TRUE(unknown.error().message.ends_with("stage_gain@HZ; „loudness“ fehlt.")) << unknown.error().message;
}

}  // namespace
}  // namespace ohmwright
