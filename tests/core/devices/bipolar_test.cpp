// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/bipolar.h"

#include "tests/core/devices/law_probe.h"
#include "tests/support/csv_rows.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::lawOf;
using test::pointOf;

/// Voltages of a transistor without series resistances.
std::array<double, 5> volts(double baseEmitter, double baseCollector) {
    return {baseEmitter, baseCollector, 0.0, baseCollector, -5.0};
}

/// Root of a rising function.
template <class Function>
double rootOf(Function function, double low, double high) {
    for (int k = 0; k < 200; ++k) {
        const double middle = (low + high) / 2.0;
        (function(middle) < 0.0 ? low : high) = middle;
    }
    return low;
}

std::map<std::string, double> everyParameter() {
    return {{"IS", 6.7e-15}, {"BF", 400.0},  {"BR", 0.7},    {"NF", 1.02},   {"NR", 1.05},  {"VAF", 74.0},
            {"VAR", 20.0},   {"IKF", 0.067}, {"IKR", 0.1},   {"ISE", 7e-15}, {"NE", 1.26},  {"ISC", 1e-14},
            {"NC", 2.0},     {"RB", 100.0},  {"RBM", 10.0},  {"CJE", 4e-12}, {"MJE", 0.26}, {"CJC", 3.6e-12},
            {"MJC", 0.31},   {"XCJC", 0.6},  {"CJS", 2e-12}, {"MJS", 0.4},   {"TF", 3e-10}, {"XTF", 2.0},
            {"VTF", 4.0},    {"ITF", 0.4},   {"TR", 2e-8},   {"KF", 1e-16},  {"NKF", 0.55}};
}

TEST(Bipolar, EverySlopeIsTheDerivative) {
    std::uniform_real_distribution<double> emitter(-2.0, 0.8);
    std::uniform_real_distribution<double> collector(-8.0, 0.7);
    std::uniform_real_distribution<double> resistance(0.0, 0.1);
    const auto draw = [&](auto& random) {
        return std::array{emitter(random), collector(random), resistance(random), collector(random), collector(random)};
    };
    test::expectEverySlopeIsTheDerivative(lawOf<BipolarLaw>(everyParameter()), draw);
    test::expectEverySlopeIsTheDerivative(lawOf<BipolarLaw>(test::card2N3904()), draw);
    auto crowding = everyParameter();
    crowding["IRB"] = 5e-5;
    test::expectEverySlopeIsTheDerivative(lawOf<BipolarLaw>(crowding), draw);
    test::expectEverySlopeIsTheDerivative(
        lawOf<BipolarLaw>({{"IS", 1e-6}, {"BF", 90.0}, {"POLARITY", -1.0}}),
        [&](auto& random) { return volts(emitter(random) / 3.0, collector(random)); });
}

TEST(Bipolar, StaysFiniteAnywhere) {
    auto card = everyParameter();
    test::expectFiniteAnywhere(lawOf<BipolarLaw>(card));
    card["IRB"] = 5e-5;
    card["VAR"] = 0.5;
    card["VAF"] = 0.5;
    test::expectFiniteAnywhere(lawOf<BipolarLaw>(card));
}

TEST(Bipolar, TheIdealLawGivesTheTextbookCurrents) {
    // Ebers-Moll: IC = IS exp(VBE/Vt), IB = IC/BF in the forward region; closed form.
    const auto law = lawOf<BipolarLaw>({{"IS", 1e-14}, {"BF", 200.0}});
    const double expected = 1e-14 * std::exp(0.65 / 25.8649257863e-3);
    EXPECT_NEAR(pointOf(law, volts(0.65, -5.0)).currents[0], expected, 1e-9 * expected);
    EXPECT_NEAR(pointOf(law, volts(0.65, -5.0)).currents[1], expected / 200.0, 1e-9 * expected);
}

TEST(Bipolar, MakersCardsGiveTheCurrentsThatASimulatorGives) {
    // bipolar_card_points.csv at VCE 5 V, with the cards' RB and RC.
    const std::map<std::string, std::map<std::string, double>> cards{{"2N3904", test::card2N3904()},
                                                                     {"2N5088",
                                                                      {{"IS", 5.911e-15},
                                                                       {"VAF", 62.37},
                                                                       {"BF", 1122.0},
                                                                       {"NE", 1.394},
                                                                       {"ISE", 5.911e-15},
                                                                       {"IKF", 0.01492},
                                                                       {"BR", 1.271},
                                                                       {"RC", 1.61},
                                                                       {"RB", 10.0}}}};
    for (const auto& row : test::referenceTable("bipolar_card_points.csv")) {
        const auto law = lawOf<BipolarLaw>(cards.at(row.at("card")));
        const double base = std::stod(row.at("amperes_base"));
        double collector = 0.0;
        double inner = 0.0;
        for (int round = 0; round < 20; ++round) {  // the collector's current takes its part of VCE
            const double across = 5.0 - collector * law.seriesOhms()[0];
            inner =
                rootOf([&](double be) { return pointOf(law, volts(be, be - across)).currents[1] - base; }, 0.3, 0.9);
            collector = pointOf(law, volts(inner, inner - across)).currents[0];
        }
        EXPECT_NEAR(collector, std::stod(row.at("amperes_collector")), 6e-4 * collector) << row.at("card");
        EXPECT_NEAR(collector / base, std::stod(row.at("gain")), 0.06) << row.at("card");
        EXPECT_NEAR(inner + base * law.seriesOhms()[1], std::stod(row.at("volts_base_emitter")), 6e-5)
            << row.at("card");
    }
}

TEST(Bipolar, TheBaseResistanceFollowsTheBias) {
    // An independent general-purpose simulator: IS 1e-14, BF 50, RB 200, RBM 20, VBE 0.85 V, VCE 2 V: with IKF 10 mA IC
    // 19.095955 mA, IB 1.1112301 mA; with IRB 50 uA IC 93.808510 mA, IB 1.8761702 mA; without RBM 27.330272 mA.
    const auto solved = [](std::map<std::string, double> card) {
        card["IS"] = 1e-14;
        card["BF"] = 50.0;
        card["RB"] = 200.0;
        const auto law = lawOf<BipolarLaw>(card);
        const auto at = [&](double inner) {
            return pointOf(law, {inner, inner - 2.0, 0.85 - inner, 0.85 - 2.0, -2.0});
        };
        const double inner = rootOf(
            [&](double be) {
                const auto point = at(be);
                return point.currents[1] - point.currents[2] - (0.85 - be) / law.seriesOhms()[1];
            },
            0.5, 0.85);
        return at(inner).currents;
    };
    const auto modulated = solved({{"RBM", 20.0}, {"IKF", 10e-3}});
    EXPECT_NEAR(modulated[0], 19.095955e-3, 1e-6);
    EXPECT_NEAR(modulated[1], 1.1112301e-3, 1e-7);
    const auto crowded = solved({{"RBM", 20.0}, {"IRB", 50e-6}});
    EXPECT_NEAR(crowded[0], 93.808510e-3, 5e-6);
    EXPECT_NEAR(crowded[1], 1.8761702e-3, 1e-7);
    EXPECT_NEAR(solved({})[0], 27.330272e-3, 2e-6);
}

TEST(Bipolar, SmallSignalsSeeTheBaseResistanceOfTheBias) {
    const auto law = lawOf<BipolarLaw>(everyParameter());
    auto point = pointOf(law, {0.72, -3.0, 0.02, -3.0, -5.0});
    const double siemens = point.currentSlopes[6];
    ASSERT_NE(point.currentSlopes[4], 0.0);
    BipolarLaw::smallSignal(point);
    EXPECT_EQ(point.currentSlopes[4], 0.0);
    EXPECT_EQ(point.currentSlopes[5], 0.0);
    EXPECT_EQ(point.currentSlopes[6], siemens);
}

TEST(Bipolar, DevicesInParallelShareTheCurrent) {
    const auto one = lawOf<BipolarLaw>(everyParameter());
    const auto three = lawOf<BipolarLaw>(everyParameter(), nominalKelvin, {{"M", 1.5}, {"AREA", 2.0}});
    for (const auto& at : {volts(0.7, -3.0), volts(0.75, 0.6), volts(-1.0, 0.5)}) {
        const auto single = pointOf(one, at);
        const auto parallel = pointOf(three, at);
        for (std::size_t k = 0; k < 2; ++k) {
            EXPECT_NEAR(parallel.currents[k], 3.0 * single.currents[k], 1e-12 * std::abs(parallel.currents[k]));
        }
        for (std::size_t k = 0; k < 4; ++k) {
            EXPECT_NEAR(parallel.charges[k], 3.0 * single.charges[k], 1e-12 * std::abs(parallel.charges[k]));
        }
    }
    EXPECT_NEAR(three.seriesOhms()[1], one.seriesOhms()[1] / 3.0, 1e-12);
}

TEST(Bipolar, HeatLowersTheVoltageOfAGivenCurrent) {
    // About -1.8 mV/K for IS 1e-14, N 1 at 1 mA: the diode figure -1.774 mV/K, computed independently.
    const auto voltsFor = [](double kelvin) {
        const auto law = lawOf<BipolarLaw>({{"IS", 1e-14}, {"BF", 200.0}}, kelvin);
        return rootOf([&](double be) { return pointOf(law, volts(be, -5.0)).currents[0] - 1e-3; }, 0.3, 0.9);
    };
    EXPECT_NEAR((voltsFor(305.15) - voltsFor(295.15)) / 10.0, -1.774e-3, 2e-5);
}

TEST(Bipolar, NoiseIsShotOfBothCurrentsAndFlickerOfTheBase) {
    // 2qI, q exact since SI 2019; KF IB^AF/f as published (Nagel).
    const auto law = lawOf<BipolarLaw>({{"IS", 1e-14}, {"BF", 100.0}, {"KF", 1e-15}, {"AF", 1.1}});
    const double collector = 1e-14 * std::exp(0.65 / 25.8649257863e-3);
    const auto noise = law.noise(volts(0.65, -4.0));
    EXPECT_NEAR(noise[0].white, 2.0 * 1.602176634e-19 * collector, 1e-6 * noise[0].white);
    EXPECT_NEAR(noise[1].white, 2.0 * 1.602176634e-19 * collector / 100.0, 1e-6 * noise[1].white);
    EXPECT_NEAR(noise[1].flicker, 1e-15 * std::pow(collector / 100.0, 1.1), 1e-6 * noise[1].flicker);
    EXPECT_EQ(noise[2].white, 0.0);
}

TEST(Bipolar, ThePnpIsTheNpnTurned) {
    EXPECT_EQ(lawOf<BipolarLaw>({}).polarity(), 1.0);
    EXPECT_EQ(lawOf<BipolarLaw>({{"POLARITY", -1.0}}).polarity(), -1.0);
}

}  // namespace
}  // namespace ohmwright
