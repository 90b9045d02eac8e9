// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/opamp.h"

#include "tests/core/devices/law_probe.h"

#include <gtest/gtest.h>

#include <numbers>

namespace ohmwright {
namespace {

using test::lawOf;
using test::pointOf;

TEST(Opamp, SlewRateAndGainBandwidthAreThoseOfTheParameters) {
    const auto law = lawOf<OpampLaw>({{"GBW", 3e6}, {"ILIM", 1.3}, {"CP", 100e-9}, {"GAIN", 2e5}});
    // Saturated, the pair charges CP with ILIM: 1.3 A / 100 nF = 13 V/us, the usual sheet figure of a TL072.
    EXPECT_NEAR(pointOf(law, {10.0, -9.0, -9.0, 0.0}).currents[0] / law.innerFarads(), 13e6, 1.0);
    EXPECT_NEAR(pointOf(law, {-10.0, -9.0, -9.0, 0.0}).currents[0] / law.innerFarads(), -13e6, 1.0);
    const double transconductance = pointOf(law, {0.0, -9.0, -9.0, 0.0}).currentSlopes[0];
    EXPECT_NEAR(transconductance / (2.0 * std::numbers::pi * law.innerFarads()), 3e6, 1e-3);
    EXPECT_NEAR(transconductance / law.innerSiemens(), 2e5, 1e-6);
}

TEST(Opamp, TheSlewRateMayBeStatedItself) {
    const auto law = lawOf<OpampLaw>({{"SR", 9e6}, {"CP", 100e-9}});
    EXPECT_NEAR(law.slewVoltsPerSecond(), 9e6, 1e-6);
    EXPECT_NEAR(pointOf(law, {10.0, -9.0, -9.0, 0.0}).currents[0], 0.9, 1e-9);
}

TEST(Opamp, EverySlopeIsTheDerivative) {
    std::uniform_real_distribution<double> input(-1.5, 1.5);
    std::uniform_real_distribution<double> clamp(-6.0, -1.2);
    std::uniform_real_distribution<double> output(-4.0, 4.0);
    const auto draw = [&](auto& random) {
        return std::array{input(random), clamp(random), clamp(random), output(random)};
    };
    test::expectEverySlopeIsTheDerivative(lawOf<OpampLaw>({}), draw);
    test::expectEverySlopeIsTheDerivative(lawOf<OpampLaw>({{"IOUT", 20e-3}, {"VOS", 3e-3}}), draw);
}

TEST(Opamp, AClampConductsOnlyPastItsHeadroom) {
    const auto law = lawOf<OpampLaw>({{"HEADROOM_P", 1.9}, {"HEADROOM_N", 1.5}});
    const auto open = pointOf(law, {0.0, -1.9 - 1.0, -1.5 - 1.0, 0.0});
    EXPECT_NEAR(open.currents[1], -1e-12, 1e-16);
    EXPECT_NEAR(open.currents[2], -1e-12, 1e-16);
    EXPECT_GT(pointOf(law, {0.0, -1.9 + 0.7, -9.0, 0.0}).currents[1], 0.1);
    EXPECT_GT(pointOf(law, {0.0, -9.0, -1.5 + 0.7, 0.0}).currents[2], 0.1);
}

TEST(Opamp, TheOutputIsAResistanceUntilItsLimit) {
    const auto linear = lawOf<OpampLaw>({{"ROUT", 50.0}});
    EXPECT_DOUBLE_EQ(pointOf(linear, {0.0, -9.0, -9.0, 2.0}).currents[3], 0.04);
    const auto limited = lawOf<OpampLaw>({{"ROUT", 50.0}, {"IOUT", 25e-3}});
    EXPECT_NEAR(pointOf(limited, {0.0, -9.0, -9.0, 0.01}).currents[3], 0.2e-3, 1e-8);
    EXPECT_NEAR(pointOf(limited, {0.0, -9.0, -9.0, 9.0}).currents[3], 25e-3, 1e-6);
    EXPECT_NEAR(pointOf(limited, {0.0, -9.0, -9.0, -9.0}).currents[3], -25e-3, 1e-6);
}

TEST(Opamp, TheOffsetStandsInSeriesWithTheNonInvertingInput) {
    const auto law = lawOf<OpampLaw>({{"VOS", 2e-3}});
    EXPECT_DOUBLE_EQ(pointOf(law, {-2e-3, -9.0, -9.0, 0.0}).currents[0], 0.0);
    EXPECT_GT(pointOf(law, {0.0, -9.0, -9.0, 0.0}).currents[0], 0.0);
    EXPECT_DOUBLE_EQ(law.offsetVolts(), 2e-3);
}

TEST(Opamp, LinearPiecesAreThoseOfTheCard) {
    const auto law = lawOf<OpampLaw>({{"RIN", 1e6}, {"ROUT", 75.0}, {"IQ", 2e-3}, {"IB", -80e-9}, {"POLE2", 6e6}});
    EXPECT_DOUBLE_EQ(law.inputSiemens(), 1e-6);
    EXPECT_DOUBLE_EQ(law.outputSiemens(), 1.0 / 75.0);
    EXPECT_DOUBLE_EQ(law.supplyAmperes(), 2e-3);
    EXPECT_DOUBLE_EQ(law.inputBiasAmperes(), -80e-9);
    EXPECT_DOUBLE_EQ(law.secondPoleHertz(), 6e6);
    const auto plain = lawOf<OpampLaw>({});
    EXPECT_EQ(plain.inputSiemens(), 0.0);
    EXPECT_EQ(plain.secondPoleHertz(), 0.0);
    EXPECT_EQ(plain.inputBiasAmperes(), 0.0);
}

TEST(Opamp, NoiseOfTheInputIsTheStatedDensityWithItsCorner) {
    // Divided by the transconductance, the current noise is the input's: 18 nV/rtHz far above the corner, sqrt(2) of it
    // at the corner.
    const auto law = lawOf<OpampLaw>({{"EN", 18e-9}, {"FCE", 300.0}, {"IN", 0.4e-12}, {"FCI", 100.0}});
    const std::array<double, 4> rest{0.0, -9.0, -9.0, 0.0};
    const double transconductance = pointOf(law, rest).currentSlopes[0];
    const NoiseDensity density = law.noise(rest)[0];
    const auto seen = [&](double hertz) {
        return std::sqrt(density.white + density.flicker / hertz) / transconductance;
    };
    EXPECT_NEAR(seen(1e9), 18e-9, 1e-14);
    EXPECT_NEAR(seen(300.0), 18e-9 * std::numbers::sqrt2, 1e-15);
    EXPECT_EQ(law.currentNoise().density, 0.4e-12);
    EXPECT_EQ(law.currentNoise().cornerHertz, 100.0);
}

TEST(Opamp, StaysFiniteAnywhere) {
    test::expectFiniteAnywhere(lawOf<OpampLaw>({{"IOUT", 0.02}, {"EN", 5e-9}, {"FCE", 100.0}}));
}

}  // namespace
}  // namespace ohmwright
