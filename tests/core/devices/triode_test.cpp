// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/triode.h"

#include "tests/core/devices/law_probe.h"
#include "tests/support/csv_rows.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::lawOf;
using test::pointOf;

const std::map<std::string, double> koren{{"MU", 100.0},  {"EX", 1.4},      {"KG1", 1060.0},  {"KP", 600.0},
                                          {"KVB", 300.0}, {"CCG", 1.6e-12}, {"CGP", 1.7e-12}, {"CCP", 0.5e-12}};
const std::map<std::string, double> dempwolf{{"G", 2.242e-3},  {"MU", 103.2}, {"GAMMA", 1.26}, {"C", 3.4},
                                             {"GG", 6.177e-4}, {"XI", 1.314}, {"CG", 9.901},   {"IG0", 8.025e-8}};

std::array<double, 4> volts(double anode, double grid) {
    return {anode, grid, grid, grid - anode};
}

TEST(Triode, BothLawsGiveTheirPublishedPoints) {
    for (const auto& row : test::referenceTable("triode_points.csv")) {
        const auto law = lawOf<TriodeLaw>(row.at("law") == "Koren" ? koren : dempwolf);
        const auto point = pointOf(law, volts(std::stod(row.at("volts_anode")), std::stod(row.at("volts_grid"))));
        const double anode = std::stod(row.at("amperes_anode"));
        EXPECT_NEAR(point.currents[0], anode, 1e-4 * anode);
        if (!row.at("amperes_grid").empty()) {
            const double grid = std::stod(row.at("amperes_grid"));
            EXPECT_NEAR(point.currents[1], grid, 3e-4 * grid);
        }
        if (!row.at("siemens").empty()) {
            EXPECT_NEAR(point.currentSlopes[1], std::stod(row.at("siemens")), 1e-7);
            EXPECT_NEAR(1.0 / point.currentSlopes[0], std::stod(row.at("ohms")), 1e-4 / point.currentSlopes[0]);
        }
    }
}

TEST(Triode, EverySlopeIsTheDerivative) {
    std::uniform_real_distribution<double> anode(-50.0, 400.0);
    std::uniform_real_distribution<double> grid(-5.0, 0.8);
    const auto draw = [&](auto& random) { return std::array{anode(random), grid(random), grid(random), grid(random)}; };
    test::expectEverySlopeIsTheDerivative(lawOf<TriodeLaw>(koren), draw, 1000, 1e-5);
    test::expectEverySlopeIsTheDerivative(lawOf<TriodeLaw>(dempwolf), draw, 1000, 1e-5);
}

TEST(Triode, StaysFiniteAnywhere) {
    test::expectFiniteAnywhere(lawOf<TriodeLaw>(koren));
    test::expectFiniteAnywhere(lawOf<TriodeLaw>(dempwolf));
}

TEST(Triode, ASelfBiasedStageSettlesAtThePublishedPoint) {
    // Steck, Analog and Digital Electronics, section 6 (University of Oregon): this law, 330 V, anode 100k,
    // cathode 1.5k: 1.07 mA, 221 V, -1.61 V, 1.88 mS; recomputed 1.07419 mA, 220.970 V, 1.87717 mS, 48.995k.
    const auto law = lawOf<TriodeLaw>(koren);
    double low = 0.0;
    double high = 3e-3;
    for (int k = 0; k < 100; ++k) {
        const double amperes = (low + high) / 2.0;
        (pointOf(law, volts(330.0 - amperes * 101.5e3, -amperes * 1.5e3)).currents[0] > amperes ? low : high) = amperes;
    }
    EXPECT_NEAR(low, 1.07419e-3, 1e-8);
    const auto point = pointOf(law, volts(330.0 - low * 101.5e3, -low * 1.5e3));
    EXPECT_NEAR(point.currentSlopes[1], 1.87717e-3, 1e-8);
    EXPECT_NEAR(1.0 / point.currentSlopes[0], 48.995e3, 5.0);
}

TEST(Triode, TheGridConductsBehindItsResistance) {
    const auto law = lawOf<TriodeLaw>(koren);
    EXPECT_EQ(law.seriesOhms()[1], 2000.0);
    // 1 nA (exp(v/Vt) - 1), Vt 25.8649 mV, by hand at 0.4 V: 5.2 mA... and the saturation current below.
    EXPECT_NEAR(pointOf(law, {100.0, 1.0, 0.4, 0.0}).currents[1], 1e-9 * std::expm1(0.4 / 25.8649257863e-3), 1e-12);
    EXPECT_NEAR(pointOf(law, volts(100.0, -3.0)).currents[1], -1e-9, 1e-13);
    // The anode's current follows the grid in front of the resistance.
    EXPECT_EQ(pointOf(law, {100.0, -1.0, -1.0, 0.0}).currents[0], pointOf(law, {100.0, -1.0, 0.3, 0.0}).currents[0]);
}

TEST(Triode, CutOffIsNoCurrentAndNoKink) {
    const auto law = lawOf<TriodeLaw>(koren);
    EXPECT_EQ(pointOf(law, volts(-10.0, 0.5)).currents[0], 0.0);
    EXPECT_LT(pointOf(law, volts(250.0, -20.0)).currents[0], 1e-12);
    EXPECT_LT(pointOf(law, volts(1e-6, 0.0)).currentSlopes[0], 1e-4);
}

TEST(Triode, TheLawMayBeNamed) {
    auto named = dempwolf;
    named.erase("G");
    named["LAW"] = 2.0;  // G 2.242e-3 is the law's own figure
    EXPECT_DOUBLE_EQ(pointOf(lawOf<TriodeLaw>(named), volts(250.0, -1.0)).currents[0],
                     pointOf(lawOf<TriodeLaw>(dempwolf), volts(250.0, -1.0)).currents[0]);
}

TEST(Triode, NoiseIsThatOfItsEquivalentResistance) {
    auto card = koren;
    EXPECT_EQ(lawOf<TriodeLaw>(card).noise(volts(250.0, -2.0))[0].white, 0.0);
    card["RNEQ"] = 1500.0;
    const auto law = lawOf<TriodeLaw>(card);
    const double atGrid = std::sqrt(law.noise(volts(250.0, -2.0))[0].white) / 1.6700e-3;
    // sqrt(4 k T R): 1.5k at 27 °C, 4.9864 nV/rtHz by hand.
    EXPECT_NEAR(atGrid, 4.9864e-9, 1e-12);
}

}  // namespace
}  // namespace ohmwright
