// Figures behind customers' words: the demos' own references, and sums on small circuits.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/sound_figures.h"

#include "core/measure/figures.h"
#include "tests/support/demo_job.h"
#include "tests/support/demo_netlists.h"
#include "tests/support/demo_tolerances.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::DemoNetlist;

test::ToleratedDemo demoOf(const std::string& demo) {
    return test::withTolerances(DemoNetlist::circuitOf(DemoNetlist::stock(demo).text(), "out"));
}

SolvedCircuit solved(const Circuit& circuit, const Setting& setting = {}) {
    auto result = solveCircuit(circuit, setting);
    if (!result) {
        throw std::runtime_error(result.error().message);
    }
    return *std::move(result);
}

int outputOf(const SolvedCircuit& circuit) {
    return circuit.equations->indexOfNet("out");
}

/// Product at 41.2 Hz of 82.4 + 123.6 Hz, 50 mVpk each: -42.505 dB in the demo's stock.
TEST(SoundFigures, DifferenceProductOfTwoLowStrings) {
    const Job job = test::harbourLamp();
    const SolvedCircuit lamp = solved(job.stock, job.setting);
    const auto product = measureDifferenceProduct(lamp, outputOf(lamp));
    ASSERT_TRUE(product) << product.error().message;
    EXPECT_NEAR(*product, -42.505, 0.1);
}

/// Harmonics of a linear circuit: none, so the fizz is the solver's rounding.
TEST(SoundFigures, ALinearCircuitHasNoFizzAndNoWarmth) {
    test::SmallCircuit divider;
    divider.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    const SolvedCircuit circuit = solved(divider);
    const auto fizz = measureFizz(circuit, outputOf(circuit), 329.6, 0.1);
    ASSERT_TRUE(fizz) << fizz.error().message;
    EXPECT_LT(*fizz, -150.0);
    const auto warmth = measureWarmth(circuit, outputOf(circuit), {});
    ASSERT_TRUE(warmth);
    EXPECT_DOUBLE_EQ(warmth->h2Dbc, -90.0);
    EXPECT_DOUBLE_EQ(warmth->h3AndH5Dbc, -90.0);
}

TEST(SoundFigures, SilenceIsSaid) {
    test::SmallCircuit dead;
    dead.r("R1", "in", "0", 1e3).r("R2", "out", "0", 1e3);
    const SolvedCircuit circuit = solved(dead);
    const auto fizz = measureFizz(circuit, outputOf(circuit), 329.6, 0.1);
    ASSERT_FALSE(fizz);
    EXPECT_NE(fizz.error().message.find("No signal"), std::string::npos);
    EXPECT_FALSE(measureOutputNoise(circuit, outputOf(circuit)));
    EXPECT_FALSE(measureDifferenceProduct(circuit, outputOf(circuit)));
}

/// h2 -73.9, h3 -19.6, h5 -38.2 dBc and THD 10.524 % in the demo's stock.
TEST(SoundFigures, WarmthAndDistortionAreTheHarmonicsOwn) {
    const Job job = test::harbourLamp();
    const SolvedCircuit lamp = solved(job.stock, job.setting);
    const auto warmth = measureWarmth(lamp, outputOf(lamp), job.setting);
    ASSERT_TRUE(warmth);
    EXPECT_NEAR(warmth->h2Dbc, -73.9, 0.1);
    EXPECT_NEAR(warmth->h3AndH5Dbc, 10.0 * std::log10(std::pow(10.0, -1.96) + std::pow(10.0, -3.82)), 0.1);
    const auto thd = measureThd(lamp, outputOf(lamp), job.setting);
    ASSERT_TRUE(thd);
    EXPECT_NEAR(*thd, 0.10524, 0.0005);
}

/// A resistor of 1 Mohm by itself: sqrt(4kTR 19980 Hz), 18.2 uV; the divider's gain is a half.
TEST(SoundFigures, NoiseAtEqualGainIsNoiseLessGain) {
    test::SmallCircuit divider;
    divider.r("R1", "in", "out", 2e6).r("R2", "out", "0", 2e6);
    const SolvedCircuit circuit = solved(divider);
    const auto noise = measureOutputNoise(circuit, outputOf(circuit));
    ASSERT_TRUE(noise);
    const double expected = std::sqrt(4.0 * 1.380649e-23 * 300.15 * 1e6 * (20000.0 - 20.0));
    EXPECT_NEAR(noise->voltsRms, expected, 1e-3 * expected);
    EXPECT_NEAR(noise->gainDb, 20.0 * std::log10(0.5), 1e-9);
    EXPECT_NEAR(noise->atEqualGainDb, 20.0 * std::log10(expected) - 20.0 * std::log10(0.5), 0.01);
    const Job job = test::harbourLamp();
    const SolvedCircuit lamp = solved(job.stock, job.setting);
    EXPECT_NEAR(1e6 * measureOutputNoise(lamp, outputOf(lamp))->voltsRms, 7.7666, 0.039);
}

/// Moss Engine: THD at guitar volume 5 over that at 10 is 0.971, at 5 it is 42.1 %.
TEST(SoundFigures, AFuzzDoesNotCleanUp) {
    const test::ToleratedDemo moss = demoOf("moss-engine");
    ASSERT_NE(guitarVolumeKnob(moss.circuit), nullptr);
    EXPECT_EQ(guitarVolumeKnob(moss.circuit)->id, "RVG");
    const auto cleanUp = measureCleanUp(moss.circuit, moss.setting);
    ASSERT_TRUE(cleanUp) << cleanUp.error().message;
    EXPECT_NEAR(cleanUp->ratio(), 0.9705, 0.005);
    EXPECT_NEAR(cleanUp->thdAt5, 0.42098, 0.002);
    test::SmallCircuit divider;
    divider.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    EXPECT_FALSE(measureCleanUp(divider, {}));
}

TEST(SoundFigures, TheGuitarsVolumeIsFoundByItsPlaceInTheJob) {
    const Job job = test::harbourLamp();
    ASSERT_NE(guitarVolumeKnob(job.stock), nullptr);
    EXPECT_EQ(guitarVolumeKnob(job.stock)->id, "guitar");
}

/// Moss Engine: the collector of Q2 at 47.5 / 54.4 / 62.8 % of the supply over beta 70 to 500.
TEST(SoundFigures, TheCollectorOfTheOutputTransistorOverBeta) {
    const test::ToleratedDemo moss = demoOf("moss-engine");
    const auto place = measureCollectorPlace(moss.circuit, moss.setting);
    ASSERT_TRUE(place) << place.error().message;
    EXPECT_EQ(place->transistor, "Q2");
    EXPECT_EQ(place->collector, "c2");
    EXPECT_NEAR(place->lowPercent, 47.543, 0.02);
    EXPECT_NEAR(place->nominalPercent, 54.436, 0.02);
    EXPECT_NEAR(place->highPercent, 62.753, 0.02);
    // Its two transistors are followers: no collector has a load.
    const Job job = test::harbourLamp();
    const auto none = measureCollectorPlace(job.stock, job.setting);
    ASSERT_FALSE(none);
    EXPECT_NE(none.error().message.find("no transistor"), std::string::npos);
}

TEST(SoundFigures, ATypesOwnCornersComeBeforeTheUsualGains) {
    test::ToleratedDemo moss = demoOf("moss-engine");
    for (Model& model : moss.circuit.models) {
        if (model.kind == PartKind::bipolar) {
            model.corners = {{"low", {{"BF", 70.0}}}, {"high", {{"BF", 500.0}}}};
        }
    }
    const auto place = measureCollectorPlace(moss.circuit, moss.setting, {.low = 10.0, .high = 20.0});
    ASSERT_TRUE(place);
    EXPECT_NEAR(place->lowPercent, 47.543, 0.02);
    EXPECT_NEAR(place->highPercent, 62.753, 0.02);
}

/// Paper Boat at 1 kHz: 22.11 / 20.86 / -10.35 dB for a low, typical and high device.
TEST(SoundFigures, CopiesOfAJfetDiffer) {
    test::ToleratedDemo boat = demoOf("paper-boat");
    const auto unknown = measureCopiesSpread(boat.circuit, boat.setting);
    ASSERT_FALSE(unknown);
    EXPECT_NE(unknown.error().message.find("corner"), std::string::npos);
    for (Model& model : boat.circuit.models) {
        if (model.kind == PartKind::jfet) {
            model.corners = {{"low", {{"VTO", -0.5}, {"BETA", 1e-3 / 0.25}}},
                             {"high", {{"VTO", -4.0}, {"BETA", 5e-3 / 16.0}}}};
        }
    }
    const auto copies = measureCopiesSpread(boat.circuit, boat.setting);
    ASSERT_TRUE(copies) << copies.error().message;
    EXPECT_NEAR(copies->lowDb, 22.113, 0.05);
    EXPECT_NEAR(copies->typicalDb, 20.858, 0.05);
    EXPECT_NEAR(copies->highDb, -10.352, 0.05);
    EXPECT_NEAR(copies->spreadDb(), 22.113 + 10.352, 0.1);
}

}  // namespace
}  // namespace ohmwright
