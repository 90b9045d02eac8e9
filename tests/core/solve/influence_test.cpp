// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/influence.h"

#include "core/devices/constants.h"
#include "core/solve/response.h"
#include "tests/support/rest.h"
#include "tests/support/small_circuits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;

/// dB for +10 % of a part whose logarithm moves the logarithm of the gain by `slope`.
double tenPercent(double slope) {
    return 0.1 * 20.0 / std::numbers::ln10 * slope;
}

InfluenceCurves influenceOf(const Circuit& circuit, const std::vector<double>& hertz) {
    const auto rest = test::restOf(circuit);
    if (!rest) {
        return {};
    }
    auto curves = solveInfluence(rest->equations, rest->bias, rest->equations.indexOfNet("out"), hertz);
    if (!curves) {
        ADD_FAILURE() << curves.error().message;
        return {};
    }
    return *curves;
}

TEST(Influence, ALowPassFollowsItsClosedForm) {
    // |H|^2 = 1/(1 + u^2), u = wRC: d ln|H|/d ln R = d ln|H|/d ln C = -u^2/(1 + u^2).
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 4.7e3).c("C1", "out", "0", 47e-9);
    const std::vector<double> hertz{10.0, 100.0, 720.4841, 1e3, 1e4, 1e5};
    const InfluenceCurves curves = influenceOf(circuit, hertz);
    for (std::size_t k = 0; k < hertz.size(); ++k) {
        const double u = 2.0 * std::numbers::pi * hertz[k] * 4.7e3 * 47e-9;
        const double expected = tenPercent(-u * u / (1.0 + u * u));
        EXPECT_NEAR(curves.dbPerTenPercent[1][k], expected, 1e-12);
        EXPECT_NEAR(curves.dbPerTenPercent[2][k], expected, 1e-12);
        EXPECT_NEAR(curves.gainDb[k], -10.0 * std::log10(1.0 + u * u), 1e-10);
        EXPECT_EQ(curves.dbPerTenPercent[0][k], 0.0);  // the input's DC moves nothing in a linear circuit
    }
}

TEST(Influence, AResonatorFollowsItsClosedForm) {
    // H = 1/(1 - w^2 LC + j wRC) at w0: |H| = Q = sqrt(L/C)/R: +1/2 by L, -1/2 by C, -1 by R, of ln Q; the detuning
    // adds nothing at the extreme of 1 - w^2 LC = 0 ... to the square, and with it -1/2 of the pair to ln|H|.
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 100.0).l("L1", "a", "out", 10e-3).c("C1", "out", "0", 100e-9);
    const double hertz = 1.0 / (2.0 * std::numbers::pi * std::sqrt(10e-3 * 100e-9));
    const InfluenceCurves curves = influenceOf(circuit, {hertz});
    // At fixed w = 1/sqrt(LC): |H|^2 = 1/((1 - w^2 LC)^2 + (wRC)^2): by R -1, by C -1, by L 0.
    EXPECT_NEAR(curves.dbPerTenPercent[1][0], tenPercent(-1.0), 1e-10);
    EXPECT_NEAR(curves.dbPerTenPercent[2][0], 0.0, 1e-10);
    EXPECT_NEAR(curves.dbPerTenPercent[3][0], tenPercent(-1.0), 1e-10);
}

TEST(Influence, ADiodesCurrentIsHeardThroughTheBias) {
    // R into a diode that a source of current keeps open: g = rd/(R + rd), rd = VT/(I + IS): by I -R/(R + rd), by R
    // the same through the signal alone.
    const double amperes = 100e-6;
    SmallCircuit circuit;
    circuit.i("I1", "0", "out", amperes)
        .c("C1", "in", "a", 1.0)
        .r("R1", "a", "out", 1e3)
        .r("R2", "a", "0", 1e12)
        .d("D1", "out", "0", {{"IS", 1e-15}});
    const InfluenceCurves curves = influenceOf(circuit, {1e3});
    const double rd = thermalVolts(300.15) / amperes;
    EXPECT_NEAR(curves.dbPerTenPercent[1][0], tenPercent(-1e3 / (1e3 + rd)), 2e-6);
    EXPECT_NEAR(curves.dbPerTenPercent[3][0], tenPercent(-1e3 / (1e3 + rd)), 2e-6);
    EXPECT_TRUE(curves.dbPerTenPercent[5].empty());
}

TEST(Influence, TheSupplySetsTheGainOfASquareLawStage) {
    // Square-law JFET with its gate at ground and RD to the supply: the supply moves nothing; biased from the supply
    // through the source resistor alone it would. Checked on gm = 2 sqrt(BETA I) with a source of current: ln gm
    // follows half of ln I.
    SmallCircuit circuit;
    circuit.v("VCC", "vcc", "0", 30.0).i("I1", "s", "0", 1e-3).c("CS", "s", "0", 10.0).r("RD", "vcc", "out", 2.2e3);
    Part fet;
    fet.id = "J1";
    fet.reference = "J1";
    fet.kind = PartKind::jfet;
    fet.nets = {"out", "in", "s"};
    fet.model = "fet";
    circuit.circuit().models.push_back({"fet", PartKind::jfet, {{"VTO", -2.0}, {"BETA", 1e-3}}, "test"});
    circuit.circuit().parts.push_back(fet);
    const InfluenceCurves curves = influenceOf(circuit, {1e3});
    EXPECT_NEAR(curves.dbPerTenPercent[1][0], 0.0, 1e-6);
    EXPECT_NEAR(curves.dbPerTenPercent[2][0], tenPercent(0.5), 2e-6);
    EXPECT_NEAR(curves.dbPerTenPercent[4][0], tenPercent(1.0), 2e-6);
}

TEST(Influence, BothHalvesOfAPotMoveTogether) {
    // A pot as a divider into nothing has the same gain whatever its track; behind a source resistance of 10k and with
    // 100k at mid travel, g = 50k/110k: by the track +10/110.
    SmallCircuit circuit;
    circuit.r("RS", "in", "top", 10e3);
    Part pot;
    pot.id = "P1";
    pot.reference = "P1";
    pot.kind = PartKind::potentiometer;
    pot.nets = {"top", "out", "0"};
    pot.value = 100e3;
    circuit.circuit().parts.push_back(pot);
    const InfluenceCurves curves = influenceOf(circuit, {1e3});
    EXPECT_NEAR(curves.dbPerTenPercent[1][0], tenPercent(-10.0 / 110.0), 1e-12);
    EXPECT_NEAR(curves.dbPerTenPercent[2][0], tenPercent(10.0 / 110.0), 1e-12);
}

TEST(Influence, ASilentOutputHasNoShares) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "0", 1e3).r("R2", "out", "0", 1e3);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const std::vector<double> hertz{440.0};
    const auto silent = solveInfluence(*equations, *bias, equations->indexOfNet("out"), hertz);
    ASSERT_FALSE(silent);
    EXPECT_EQ(silent.error().code, ErrorCode::unsolvable);
    EXPECT_THAT(silent.error().message, testing::HasSubstr("440 Hz"));
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = solveInfluence(*equations, *bias, equations->indexOfNet("in"), hertz, stop.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
}

}  // namespace
}  // namespace ohmwright
