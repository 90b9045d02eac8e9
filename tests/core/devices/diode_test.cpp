// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/diode.h"

#include "tests/core/devices/law_probe.h"
#include "tests/support/csv_rows.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace ohmwright {
namespace {

using test::lawOf;
using test::pointOf;

double amperesAt(const DiodeLaw& law, double volts) {
    return pointOf(law, {volts}).currents[0];
}

/// Voltage at a current, by halving: the inverse of the law under test.
double voltsAt(const DiodeLaw& law, double amperes) {
    double low = 0.0;
    double high = 10.0;
    for (int k = 0; k < 200; ++k) {
        const double middle = (low + high) / 2.0;
        (amperesAt(law, middle) < amperes ? low : high) = middle;
    }
    return low + amperes * law.seriesOhms()[0];
}

TEST(Diode, ForwardVoltagesMatchThePublishedCards) {
    // diode_vf.csv: V = N Vt ln(I/IS + 1) + I RS, computed independently for published cards.
    const std::map<std::string, std::map<std::string, double>> cards{
        {"1N4148/1N914 (A", {{"IS", 2.52e-9}, {"N", 1.752}, {"RS", 0.568}}},
        {"1N4148 (B", {{"IS", 2.495e-9}, {"N", 1.679}, {"RS", 0.4755}}},
        {"1N4148 (D", {{"IS", 4.352e-9}, {"N", 1.906}, {"RS", 0.6458}}},
        {"1N34A", {{"IS", 200e-9}, {"N", 1.3}, {"RS", 7.0}}},
        {"1N5817", {{"IS", 31.7e-6}, {"N", 1.373}, {"RS", 0.051}}},
    };
    int compared = 0;
    for (const auto& row : test::referenceTable("diode_vf.csv")) {
        for (const auto& [name, parameters] : cards) {
            if (row.at("card").rfind(name, 0) != 0) {
                continue;
            }
            const auto law = lawOf<DiodeLaw>(parameters, std::stod(row.at("T_K")));
            for (const auto& [column, text] : row) {
                if (column.rfind("VF@", 0) == 0) {
                    const double amperes = std::stod(column.substr(3));
                    EXPECT_NEAR(voltsAt(law, amperes), std::stod(text), 6e-6) << name << " " << column;
                    ++compared;
                }
            }
        }
    }
    EXPECT_GE(compared, 40);
}

TEST(Diode, ForwardVoltageFallsWithHeat) {
    // Card A without RS, XTI 3, EG 1.11, at 1 mA: 0 °C 0.6381286, 27 °C 0.5841717, 50 °C 0.5377106 V; computed
    // independently and reproduced with a general-purpose simulator.
    const std::map<std::string, double> card{{"IS", 2.52e-9}, {"N", 1.752}, {"EG", 1.11}, {"XTI", 3.0}};
    EXPECT_NEAR(voltsAt(lawOf<DiodeLaw>(card, 273.15), 1e-3), 0.6381286, 5e-7);
    EXPECT_NEAR(voltsAt(lawOf<DiodeLaw>(card, 300.15), 1e-3), 0.5841717, 5e-7);
    EXPECT_NEAR(voltsAt(lawOf<DiodeLaw>(card, 323.15), 1e-3), 0.5377106, 5e-7);
}

TEST(Diode, TheZenerCurrentFlowsAtTheZenerVoltage) {
    for (const double amperes : {1e-6, 1e-3, 20e-3, 1.0}) {
        for (const double kelvin : {273.15, 300.15, 350.15}) {
            const auto law = lawOf<DiodeLaw>({{"IS", 1e-14}, {"N", 1.2}, {"BV", 5.1}, {"IBV", amperes}}, kelvin);
            EXPECT_NEAR(amperesAt(law, -5.1), -amperes, 1e-9 * amperes);
            // A decade more takes NBV Vt ln 10, NBV being N where the card states none.
            const double decade = 1.2 * thermalVolts(kelvin) * std::log(10.0);
            EXPECT_NEAR(amperesAt(law, -5.1 - decade), -10.0 * amperes, 1e-8 * amperes);
        }
    }
    // A breakdown as soft as that of low voltages still passes IBV at -BV.
    EXPECT_NEAR(amperesAt(lawOf<DiodeLaw>({{"BV", 3.3}, {"IBV", 5e-3}, {"NBV", 12.0}}), -3.3), -5e-3, 1e-11);
    // Two in parallel share the current.
    const auto two = lawOf<DiodeLaw>({{"BV", 5.1}, {"IBV", 5e-3}}, nominalKelvin, {{"M", 2.0}});
    EXPECT_NEAR(amperesAt(two, -5.1), -10e-3, 1e-10);
}

TEST(Diode, NothingJumpsWhereTheBreakdownStarts) {
    const auto law = lawOf<DiodeLaw>({{"IS", 1e-9}, {"BV", 12.0}, {"IBV", 5e-3}, {"CJO", 20e-12}, {"TT", 1e-9}});
    double previous = amperesAt(law, -10.0);
    for (double volts = -10.0; volts > -13.0; volts -= 1e-5) {
        const double amperes = amperesAt(law, volts);
        EXPECT_LE(amperes, previous);
        EXPECT_LT(previous - amperes, 1e-3 * std::abs(amperes) + 1e-13) << volts;
        previous = amperes;
    }
}

TEST(Diode, HighInjectionAndRecombinationBendTheCurve) {
    // I/(1 + sqrt(I/IKF)): far above IKF the current goes on as its root; at I = IKF it is half.
    const auto knee = lawOf<DiodeLaw>({{"IS", 1e-9}, {"IKF", 1e-3}});
    const auto ideal = lawOf<DiodeLaw>({{"IS", 1e-9}});
    const double atKnee = voltsAt(ideal, 1e-3);
    EXPECT_NEAR(amperesAt(knee, atKnee), 0.5e-3, 1e-12);
    // Recombination at 0.3 V by an independent general-purpose simulator: 2.649764e-7 A with IS 1e-14, ISR 1e-9, NR 2,
    // VJ 0.7, M 0.4; at 0.5 V 1.215117e-5 A.
    const auto recombining =
        lawOf<DiodeLaw>({{"IS", 1e-14}, {"ISR", 1e-9}, {"NR", 2.0}, {"VJ", 0.7}, {"M", 0.4}, {"CJO", 1e-12}});
    EXPECT_NEAR(amperesAt(recombining, 0.3), 2.649764e-7, 3e-11);
    EXPECT_NEAR(amperesAt(recombining, 0.5), 1.215117e-5, 3e-9);
}

TEST(Diode, EverySlopeIsTheDerivative) {
    std::uniform_real_distribution<double> forward(-1.0, 0.8);
    std::uniform_real_distribution<double> anywhere(-5.4, 0.75);
    test::expectEverySlopeIsTheDerivative(
        lawOf<DiodeLaw>({{"IS", 2.52e-9}, {"N", 1.752}, {"CJO", 4e-12}, {"M", 0.4}, {"TT", 20e-9}}),
        [&](auto& random) { return std::array{forward(random)}; });
    test::expectEverySlopeIsTheDerivative(
        lawOf<DiodeLaw>(
            {{"IS", 1e-12}, {"BV", 5.1}, {"IBV", 5e-3}, {"CJO", 1e-10}, {"IKF", 1e-3}, {"ISR", 1e-9}, {"TT", 1e-9}}),
        [&](auto& random) { return std::array{anywhere(random)}; });
}

TEST(Diode, ChargeAtRestIsTheZeroBiasCapacitanceAndTransit) {
    const auto law = lawOf<DiodeLaw>({{"IS", 1e-9}, {"CJO", 4e-12}, {"TT", 20e-9}});
    const auto point = pointOf(law, {0.0});
    EXPECT_NEAR(point.chargeSlopes[0], 4e-12 + 20e-9 * point.currentSlopes[0], 1e-20);
}

TEST(Diode, StaysFiniteAnywhere) {
    test::expectFiniteAnywhere(lawOf<DiodeLaw>({{"CJO", 4e-12}, {"TT", 1e-9}, {"BV", 5.1}, {"KF", 1e-16}}));
    test::expectFiniteAnywhere(
        lawOf<DiodeLaw>({{"ISR", 1e-9}, {"IKF", 1e-3}, {"M", 0.0}, {"IBV", 0.0}, {"BV", 100.0}}));
}

TEST(Diode, NewtonIsHeldBackOnBothBranches) {
    const auto law = lawOf<DiodeLaw>({{"IS", 1e-14}, {"BV", 5.1}, {"IBV", 5e-3}});
    std::array<double, 1> forward{5.0};
    law.limit(forward, {0.7});
    EXPECT_LT(forward[0], 0.95);
    std::array<double, 1> reverse{-9.0};
    law.limit(reverse, {-5.1});
    EXPECT_GT(reverse[0], -5.6);
    std::array<double, 1> between{-2.0};
    law.limit(between, {0.0});
    EXPECT_EQ(between[0], -2.0);
}

TEST(Diode, NoiseIsShotAndFlicker) {
    // Independent general-purpose simulator: IS 1e-14, KF 1e-15, AF 1.2 at 0.6 V: 7.583845e-12 A/rtHz at 1 kHz and
    // 6.323704e-12 at 10 kHz.
    const auto law = lawOf<DiodeLaw>({{"IS", 1e-14}, {"KF", 1e-15}, {"AF", 1.2}});
    const NoiseDensity density = law.noise({0.6})[0];
    EXPECT_NEAR(std::sqrt(density.white + density.flicker / 1e3), 7.583845e-12, 3e-16);
    EXPECT_NEAR(std::sqrt(density.white + density.flicker / 1e4), 6.323704e-12, 3e-16);
}

}  // namespace
}  // namespace ohmwright
