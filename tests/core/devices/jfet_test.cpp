// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/jfet.h"

#include "tests/core/devices/law_probe.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::lawOf;
using test::pointOf;

double drainAmperes(const JfetLaw& law, double gateSource, double drainSource) {
    return pointOf(law, {gateSource, gateSource - drainSource}).currents[0];
}

const std::map<std::string, double> fullCard{{"VTO", -0.8},  {"BETA", 0.94e-3}, {"LAMBDA", 8e-3}, {"IS", 2e-13},
                                             {"CGS", 6e-12}, {"CGD", 7e-12},    {"PB", 0.9},      {"KF", 1e-16}};

TEST(Jfet, EverySlopeIsTheDerivative) {
    std::uniform_real_distribution<double> gate(-3.0, 0.5);
    const auto draw = [&](auto& random) { return std::array{gate(random), gate(random)}; };
    test::expectEverySlopeIsTheDerivative(lawOf<JfetLaw>(fullCard), draw);
    auto tail = fullCard;
    tail["B"] = 0.3;
    test::expectEverySlopeIsTheDerivative(lawOf<JfetLaw>(tail), draw);
}

TEST(Jfet, StaysFiniteAnywhere) {
    test::expectFiniteAnywhere(lawOf<JfetLaw>(fullCard));
    test::expectFiniteAnywhere(lawOf<JfetLaw>({{"IS", 0.0}, {"VTO", 3.0}}));
}

TEST(Jfet, SelfBiasedStagesSettleWhereTheSquareLawSays) {
    // ID = VP^2/(2 IDSS RS^2) (1 + 2 IDSS RS/|VP| - sqrt(1 + 4 IDSS RS/|VP|)); worked examples, checked with a
    // general-purpose simulator: IDSS 3 mA, VP -2 V, RS 1k, 9 V less RD 2.2k: 0.902832 mA; IDSS 0.6 mA, VP -0.8 V, RS
    // 1.5k, RD 15k: 0.214469 mA; IDSS 12 mA, VP -6 V, RS 1k, RD 1k, 20 V: 3 mA exactly.
    struct Stage {
        double idss, pinchOff, sourceOhms, drainOhms, supply, amperes, transconductance;
    };
    constexpr Stage stages[] = {{3e-3, -2.0, 1e3, 2.2e3, 9.0, 0.902832e-3, 1.64575e-3},
                                {0.6e-3, -0.8, 1.5e3, 15e3, 9.0, 0.214469e-3, 0.0},
                                {12e-3, -6.0, 1e3, 1e3, 20.0, 3e-3, 2e-3}};
    for (const Stage& stage : stages) {
        const auto law = lawOf<JfetLaw>(
            {{"VTO", stage.pinchOff}, {"BETA", stage.idss / (stage.pinchOff * stage.pinchOff)}, {"IS", 1e-14}});
        double low = 0.0;
        double high = stage.idss;
        for (int k = 0; k < 100; ++k) {
            const double amperes = (low + high) / 2.0;
            const double drain = stage.supply - amperes * (stage.drainOhms + stage.sourceOhms);
            (drainAmperes(law, -amperes * stage.sourceOhms, drain) > amperes ? low : high) = amperes;
        }
        EXPECT_NEAR(low, stage.amperes, 6e-10);
        const auto point = pointOf(law, {-low * stage.sourceOhms, -5.0});
        if (stage.transconductance > 0.0) {
            EXPECT_NEAR(point.currentSlopes[0], stage.transconductance, 6e-9);
        }
    }
}

TEST(Jfet, TheCardFittedToASheetGoesThroughItsPoints) {
    // 2N5457, makers' sheets: IDSS 3 mA typical at 15 V, 100 uA at -2.5 V. Fit VP -3.058 V, 0.3207 mA/V^2.
    const auto law = lawOf<JfetLaw>({{"VTO", -3.058}, {"BETA", 0.3207e-3}});
    EXPECT_NEAR(drainAmperes(law, 0.0, 15.0), 3e-3, 2e-6);
    EXPECT_NEAR(drainAmperes(law, -2.5, 15.0), 100e-6, 0.3e-6);
}

TEST(Jfet, DrainAndSourceChangePlaces) {
    const auto law = lawOf<JfetLaw>({{"VTO", -2.0}, {"BETA", 1e-3}, {"LAMBDA", 0.02}, {"B", 0.5}});
    std::mt19937 random(3);
    std::uniform_real_distribution<double> gate(-3.0, 0.3);
    for (int k = 0; k < 500; ++k) {
        const double source = gate(random);
        const double drain = gate(random);
        EXPECT_DOUBLE_EQ(pointOf(law, {source, drain}).currents[0], -pointOf(law, {drain, source}).currents[0]);
    }
}

TEST(Jfet, NothingJumpsAtTheBordersOfItsRegions) {
    const auto law = lawOf<JfetLaw>(fullCard);
    const double tiny = 1e-9;
    for (const double vds : {0.3, 2.0}) {
        for (const double vgs : {-0.8, -0.8 + vds}) {  // cut-off, pinch-off
            const auto below = pointOf(law, {vgs - tiny, vgs - vds - tiny});
            const auto above = pointOf(law, {vgs + tiny, vgs - vds + tiny});
            for (std::size_t k = 0; k < below.currents.size(); ++k) {
                EXPECT_NEAR(below.currents[k], above.currents[k], 1e-5 * std::abs(above.currents[k]) + 1e-11);
            }
            for (std::size_t k = 0; k < below.currentSlopes.size(); ++k) {
                EXPECT_NEAR(below.currentSlopes[k], above.currentSlopes[k],
                            1e-4 * std::abs(above.currentSlopes[k]) + 1e-10);
            }
        }
    }
    // Through vds = 0 the slopes are the same from both sides.
    const auto forward = pointOf(law, {-0.2, -0.2 - tiny});
    const auto reverse = pointOf(law, {-0.2, -0.2 + tiny});
    EXPECT_NEAR(forward.currentSlopes[0], reverse.currentSlopes[0], 1e-10);
    EXPECT_NEAR(forward.currentSlopes[1], reverse.currentSlopes[1], 1e-10);
}

TEST(Jfet, HeatMovesThresholdAndBetaAsTheCardSays) {
    // An independent general-purpose simulator at 77 °C, VTO -1, BETA 1m, VGS 0, VDS 5: VTOTC -2.5m 1.265625 mA,
    // BETATCE -0.5 0.779768 mA, BEX -1 0.857204 mA, none of them 1 mA.
    const auto hot = [](const std::string& name, double value) {
        return drainAmperes(lawOf<JfetLaw>({{"VTO", -1.0}, {"BETA", 1e-3}, {name, value}}, 350.15), 0.0, 5.0);
    };
    EXPECT_NEAR(hot("VTOTC", -2.5e-3), 1.265625e-3, 1e-8);
    EXPECT_NEAR(hot("TCV", 2.5e-3), 1.265625e-3, 1e-8);
    EXPECT_NEAR(hot("BETATCE", -0.5), 0.779768e-3, 1e-8);
    EXPECT_NEAR(hot("BEX", -1.0), 0.857204e-3, 1e-8);
    EXPECT_NEAR(hot("VTOTC", 0.0), 1e-3, 1e-8);
}

TEST(Jfet, NoiseIsThatOfTheChannel) {
    // An independent general-purpose simulator, VTO -1, BETA 1m, VGS 0: 4.701215e-12 A/rtHz at VDS 5, 2.102447e-12 at
    // 0.2; with KF 1e-15 3.197032e-11 at 1 kHz.
    const auto law = lawOf<JfetLaw>({{"VTO", -1.0}, {"BETA", 1e-3}, {"KF", 1e-15}});
    const NoiseDensity saturated = law.noise({0.0, -5.0})[0];
    EXPECT_NEAR(std::sqrt(saturated.white), 4.701215e-12, 2e-17);
    EXPECT_NEAR(std::sqrt(saturated.white + saturated.flicker / 1e3), 3.197032e-11, 1e-16);
    EXPECT_NEAR(std::sqrt(law.noise({0.0, -0.2})[0].white), 2.102447e-12, 2e-17);
}

TEST(Jfet, NewtonIsHeldBack) {
    const auto law = lawOf<JfetLaw>({{"VTO", -2.0}});
    std::array<double, 2> proposed{50.0, -50.0};
    law.limit(proposed, {-1.0, -4.0});
    EXPECT_LT(proposed[0], 1.0);
    EXPECT_GT(proposed[1], -12.0);
}

}  // namespace
}  // namespace ohmwright
