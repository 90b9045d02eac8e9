// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/pentode.h"

#include "tests/core/devices/law_probe.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::lawOf;
using test::pointOf;

const std::map<std::string, double> card{{"MU", 11.0}, {"EX", 1.35},  {"KG1", 600.0},    {"KG2", 4200.0},
                                         {"KP", 60.0}, {"KVB", 24.0}, {"CPG1", 0.5e-12}, {"CCG", 10e-12}};

std::array<double, 5> volts(double anode, double screen, double grid) {
    return {anode, screen, grid, grid, grid - anode};
}

TEST(Pentode, CurrentsAreThePublishedFormula) {
    // The formula written out once more, in the plain form that overflows far from here.
    for (const double anode : {20.0, 150.0, 300.0}) {
        for (const double screen : {100.0, 250.0}) {
            for (const double grid : {-20.0, -10.0, -1.0, 2.0}) {
                const double e1 = screen / 60.0 * std::log(1.0 + std::exp(60.0 * (1.0 / 11.0 + grid / screen)));
                const double anodeCurrent = 2.0 * std::pow(e1, 1.35) / 600.0 * std::atan(anode / 24.0);
                const double drive = screen / 11.0 + grid;
                const double screenCurrent = drive > 0.0 ? std::exp(1.35 * std::log(drive)) / 4200.0 : 0.0;
                const auto point = pointOf(lawOf<PentodeLaw>(card), volts(anode, screen, grid));
                EXPECT_NEAR(point.currents[0], anodeCurrent, 1e-10 * anodeCurrent);
                EXPECT_NEAR(point.currents[1], screenCurrent, 1e-10 * screenCurrent);
            }
        }
    }
}

TEST(Pentode, EverySlopeIsTheDerivative) {
    std::uniform_real_distribution<double> anode(-30.0, 500.0);
    std::uniform_real_distribution<double> screen(-5.0, 400.0);
    std::uniform_real_distribution<double> grid(-40.0, 5.0);
    std::uniform_real_distribution<double> inner(-3.0, 0.6);
    test::expectEverySlopeIsTheDerivative(
        lawOf<PentodeLaw>(card),
        [&](auto& random) {
            return std::array{anode(random), screen(random), grid(random), inner(random), grid(random)};
        },
        2000, 1e-5);
}

TEST(Pentode, StaysFiniteAnywhere) {
    test::expectFiniteAnywhere(lawOf<PentodeLaw>(card));
}

TEST(Pentode, TheScreenMayFallThroughTheCathode) {
    // At a screen voltage of nothing the drive is the grid's own voltage where that is positive, from both sides.
    const auto law = lawOf<PentodeLaw>(card);
    for (const double grid : {-3.0, 0.0, 2.0}) {
        const double above = pointOf(law, volts(200.0, 1e-9, grid)).currents[0];
        const double below = pointOf(law, volts(200.0, -1e-9, grid)).currents[0];
        EXPECT_NEAR(above, below, 1e-11);
    }
}

TEST(Pentode, TheAnodeHardlyMattersAboveItsKneeAndTheScreenDoes) {
    const auto point = pointOf(lawOf<PentodeLaw>(card), volts(300.0, 250.0, -10.0));
    EXPECT_GT(point.currentSlopes[1], 5.0 * point.currentSlopes[0]);
    EXPECT_GT(point.currentSlopes[2], 5.0 * point.currentSlopes[1]);
    EXPECT_GT(point.currents[0], 3.0 * point.currents[1]);
}

TEST(Pentode, NoiseIsThatOfItsEquivalentResistance) {
    auto noisy = card;
    EXPECT_EQ(lawOf<PentodeLaw>(noisy).noise(volts(250.0, 250.0, -10.0))[0].white, 0.0);
    noisy["RNEQ"] = 1500.0;
    const auto law = lawOf<PentodeLaw>(noisy);
    const double transconductance = pointOf(law, volts(250.0, 250.0, -10.0)).currentSlopes[2];
    EXPECT_NEAR(std::sqrt(law.noise(volts(250.0, 250.0, -10.0))[0].white) / transconductance, 4.9864e-9, 1e-12);
}

}  // namespace
}  // namespace ohmwright
