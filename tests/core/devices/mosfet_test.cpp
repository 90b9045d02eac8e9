// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/mosfet.h"

#include "tests/core/devices/law_probe.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::lawOf;
using test::pointOf;

/// Gate and drain against source and bulk, which are one.
std::array<double, 5> volts(double gateSource, double drainSource, double bulkSource = 0.0) {
    return {gateSource, gateSource - drainSource, bulkSource, bulkSource - drainSource, gateSource - bulkSource};
}

const std::map<std::string, double> fullCard{
    {"VTO", 0.8},    {"KP", 40e-6}, {"GAMMA", 0.5}, {"PHI", 0.65},   {"LAMBDA", 0.02}, {"TOX", 50e-9},  {"CJ", 3e-4},
    {"CJSW", 4e-10}, {"MJ", 0.45},  {"MJSW", 0.3},  {"CGSO", 1e-10}, {"CGDO", 2e-10},  {"CGBO", 1e-10}, {"KF", 1e-26}};
const std::map<std::string, double> fullDevice{{"W", 50e-6},  {"L", 5e-6},  {"AD", 2e-10},
                                               {"AS", 3e-10}, {"PD", 8e-5}, {"PS", 9e-5}};

TEST(Mosfet, EverySlopeIsTheDerivative) {
    std::uniform_real_distribution<double> gate(-2.0, 5.0);
    std::uniform_real_distribution<double> bulk(-4.0, 0.6);
    const auto draw = [&](auto& random) {
        return std::array{gate(random), gate(random), bulk(random), bulk(random), gate(random)};
    };
    test::expectEverySlopeIsTheDerivative(lawOf<MosfetLaw>(fullCard, nominalKelvin, fullDevice), draw, 2000);
    test::expectEverySlopeIsTheDerivative(lawOf<MosfetLaw>({{"VTO", 1.72}, {"KP", 54.4e-3}}), draw);
}

TEST(Mosfet, StaysFiniteAnywhere) {
    test::expectFiniteAnywhere(lawOf<MosfetLaw>(fullCard, nominalKelvin, fullDevice));
    test::expectFiniteAnywhere(lawOf<MosfetLaw>({{"IS", 0.0}, {"TOX", 1e-7}, {"LD", 5e-5}}));
}

TEST(Mosfet, TheCardFittedToASheetGoesThroughItsPoints) {
    // 2N7000, makers' sheets: 1 mA at 1.9 V (threshold, typical), 210 mA at 4.5 V. Fit VTO 1.72 V, KP 54.4 mA/V^2, W =
    // L.
    const auto law = lawOf<MosfetLaw>({{"VTO", 1.72}, {"KP", 54.4e-3}});
    EXPECT_NEAR(pointOf(law, volts(1.9, 10.0)).currents[0], 1e-3, 0.13e-3);
    EXPECT_NEAR(pointOf(law, volts(4.5, 10.0)).currents[0], 210e-3, 1e-3);
}

TEST(Mosfet, CurrentGoesWithWidthOverLength) {
    const std::map<std::string, double> card{{"VTO", 1.0}, {"KP", 20e-6}, {"LD", 1e-6}};
    const auto law = lawOf<MosfetLaw>(card, nominalKelvin, {{"W", 60e-6}, {"L", 5e-6}, {"M", 2.0}});
    // 2 KP/2 W/(L - 2 LD) (VGS - VTO)^2 by hand: 20e-6 * 20 * 4 = 1.6 mA at 3 V.
    EXPECT_NEAR(pointOf(law, volts(3.0, 5.0)).currents[0], 1.6e-3, 1e-12);
    // Without W and L both are 100 um: KP/2 (VGS - VTO)^2, less the shortening by LD.
    EXPECT_NEAR(pointOf(lawOf<MosfetLaw>(card), volts(3.0, 5.0)).currents[0], 40e-6 / 0.98, 1e-12);
}

TEST(Mosfet, DrainAndSourceChangePlaces) {
    const auto law = lawOf<MosfetLaw>({{"VTO", 0.8}, {"KP", 1e-3}, {"GAMMA", 0.4}, {"LAMBDA", 0.02}, {"TOX", 1e-7}});
    std::mt19937 random(3);
    std::uniform_real_distribution<double> gate(-1.0, 4.0);
    for (int k = 0; k < 500; ++k) {
        const double source = gate(random);
        const double drain = gate(random);
        const double bulk = -std::abs(gate(random));
        const auto here = pointOf(law, {source, drain, bulk, bulk + drain - source, 1.0});
        const auto there = pointOf(law, {drain, source, bulk + drain - source, bulk, 1.0});
        EXPECT_DOUBLE_EQ(here.currents[0], -there.currents[0]);
        EXPECT_NEAR(here.charges[0], there.charges[1], 1e-12 * std::abs(here.charges[0]) + 1e-30);
        EXPECT_NEAR(here.charges[1], there.charges[0], 1e-12 * std::abs(here.charges[1]) + 1e-30);
    }
}

TEST(Mosfet, TheGateChargeIsMeyersAtItsCorners) {
    // J. E. Meyer, RCA Review 32 (1971) 42: of the oxide's capacitance C, at saturation 2/3 C to the source and none to
    // the drain; without drain voltage half to each; in deep cut-off all to the bulk. C = 3.9 eps0/TOX W L by hand.
    const auto law =
        lawOf<MosfetLaw>({{"VTO", 1.0}, {"TOX", 50e-9}, {"PHI", 0.6}}, nominalKelvin, {{"W", 50e-6}, {"L", 5e-6}});
    const double oxide = 3.9 * 8.8541878128e-12 / 50e-9 * 50e-6 * 5e-6;
    const auto saturated = pointOf(law, volts(3.0, 6.0));
    EXPECT_NEAR(saturated.chargeSlopes[0], 2.0 / 3.0 * oxide, 1e-20);
    EXPECT_NEAR(saturated.chargeSlopes[1], 0.0, 1e-25);
    EXPECT_NEAR(saturated.chargeSlopes[3], 0.0, 1e-25);
    EXPECT_NEAR(saturated.chargeSlopes[4], 0.0, 1e-25);
    const auto resting = pointOf(law, volts(3.0, 0.0));
    EXPECT_NEAR(resting.chargeSlopes[0] + resting.chargeSlopes[2], oxide / 2.0, 1e-20);  // the gate's by the source
    EXPECT_NEAR(resting.chargeSlopes[1] + resting.chargeSlopes[3], oxide / 2.0, 1e-20);  // and by the drain
    const auto off = pointOf(law, volts(-2.0, 5.0));
    EXPECT_NEAR(off.chargeSlopes[4], oxide, 1e-20);
    EXPECT_NEAR(off.chargeSlopes[0], 0.0, 1e-25);
}

TEST(Mosfet, SmallSignalsSeeMeyersCapacitancesAlone) {
    // Meyer, as above: without drain voltage half of the oxide's capacitance to each end and none from end to end; an
    // independent general-purpose simulator gives 0.544 and 0.449 of it at 3 V and 0.5 V, where the smooth onset is off
    // by less than a hundredth.
    const auto law =
        lawOf<MosfetLaw>({{"VTO", 1.0}, {"TOX", 50e-9}, {"PHI", 0.6}}, nominalKelvin, {{"W", 50e-6}, {"L", 5e-6}});
    const double oxide = 3.9 * 8.8541878128e-12 / 50e-9 * 50e-6 * 5e-6;
    auto resting = pointOf(law, volts(3.0, 0.0));
    MosfetLaw::smallSignal(resting);
    EXPECT_NEAR(resting.chargeSlopes[0], oxide / 2.0, 1e-20);
    EXPECT_NEAR(resting.chargeSlopes[3], oxide / 2.0, 1e-20);
    auto linear = pointOf(law, volts(3.0, 0.5));
    MosfetLaw::smallSignal(linear);
    EXPECT_NEAR(linear.chargeSlopes[0], 0.544 * oxide, 0.01 * oxide);
    EXPECT_NEAR(linear.chargeSlopes[3], 0.449 * oxide, 0.01 * oxide);
    EXPECT_EQ(linear.chargeSlopes[1], 0.0);
    EXPECT_EQ(linear.chargeSlopes[2], 0.0);
}

TEST(Mosfet, AChargeThatGoesRoundComesBack) {
    // Walk the gate round a square of voltages and add up capacitance times step: a charge that depends on the path
    // (Meyer's) would be left over.
    const auto law = lawOf<MosfetLaw>({{"VTO", 1.0}, {"TOX", 50e-9}}, nominalKelvin, {{"W", 50e-6}, {"L", 5e-6}});
    constexpr int steps = 4000;
    const double corners[5][2] = {{0.2, -1.0}, {3.0, -1.0}, {3.0, 2.5}, {0.2, 2.5}, {0.2, -1.0}};
    double sum = 0.0;
    double travelled = 0.0;
    for (int side = 0; side < 4; ++side) {
        const double ds = (corners[side + 1][0] - corners[side][0]) / steps;
        const double dd = (corners[side + 1][1] - corners[side][1]) / steps;
        for (int k = 0; k < steps; ++k) {
            const auto at =
                pointOf(law, {corners[side][0] + (k + 0.5) * ds, corners[side][1] + (k + 0.5) * dd, 0.0, 0.0, 2.0});
            const double part = at.chargeSlopes[0] * ds + at.chargeSlopes[1] * dd;
            sum += part;
            travelled += std::abs(part);
        }
    }
    EXPECT_NEAR(sum, 0.0, 1e-6 * travelled);
}

TEST(Mosfet, ProcessFiguresGiveTheElectricalOnes) {
    // Device physics by hand for TOX 50 nm, NSUB 1e16 1/cm^3 at 300.15 K: C' = 0.690627 mF/m^2; KP = 600 cm^2/Vs C' =
    // 41.44 uA/V^2; PHI = 2 Vt ln(1e16/1.45e10) = 0.69561 V; GAMMA = sqrt(2 eps q N)/C' = 0.83403 sqrt(V).
    const std::map<std::string, double> card{{"TOX", 50e-9}, {"NSUB", 1e16}, {"VTO", 1.0}};
    const auto law = lawOf<MosfetLaw>(card);
    EXPECT_NEAR(pointOf(law, volts(3.0, 5.0)).currents[0], 41.44e-6 / 2.0 * 4.0, 0.02e-6);
    // The threshold moves by GAMMA (sqrt(PHI + 2) - sqrt(PHI)) = 0.67371 V with 2 V of bulk bias.
    const double overdrive = std::sqrt(pointOf(law, volts(3.0, 5.0, -2.0)).currents[0] * 2.0 / 41.44e-6);
    EXPECT_NEAR(3.0 - overdrive, 1.0 + 0.67371, 2e-3);
}

TEST(Mosfet, NoiseIsThatOfTheChannel) {
    // An independent general-purpose simulator, VTO 1.72, KP 54.4m, KF 1e-25, W = L = 100 um: 3.725328e-8 A/rtHz at 1
    // kHz with VGS 2.5 and VDS 5, half of that with TOX 50n; without KF 1.096502e-11 at VDS 0.2.
    std::map<std::string, double> card{{"VTO", 1.72}, {"KP", 54.4e-3}, {"KF", 1e-25}};
    const auto at1kHz = [&](double vds) {
        const NoiseDensity density = lawOf<MosfetLaw>(card).noise(volts(2.5, vds))[0];
        return std::sqrt(density.white + density.flicker / 1e3);
    };
    EXPECT_NEAR(at1kHz(5.0), 3.725328e-8, 2e-13);
    card["TOX"] = 50e-9;
    EXPECT_NEAR(at1kHz(5.0), 1.862665e-8, 1e-13);
    card.erase("KF");
    EXPECT_NEAR(at1kHz(0.2), 1.096502e-11, 1e-16);
}

TEST(Mosfet, SheetResistanceCountsSquares) {
    const auto law = lawOf<MosfetLaw>({{"RSH", 10.0}, {"RS", 3.0}}, nominalKelvin, {{"NRD", 4.0}});
    EXPECT_DOUBLE_EQ(law.seriesOhms()[0], 40.0);
    EXPECT_DOUBLE_EQ(law.seriesOhms()[2], 3.0);
}

}  // namespace
}  // namespace ohmwright
