// Networks and stages of the literature, by every small-signal analysis that their figures speak of.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/decibels.h"
#include "core/devices/constants.h"
#include "core/solve/impedance.h"
#include "core/solve/response.h"
#include "tests/support/csv_rows.h"
#include "tests/support/gains.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <numbers>
#include <tuple>

namespace ohmwright {
namespace {

using test::dbOf;
using test::gainsOf;
using test::SmallCircuit;
using Complex = std::complex<double>;

Part& addControlled(SmallCircuit& circuit, PartKind kind, const std::string& id, std::vector<NetName> nets,
                    double value) {
    Part part;
    part.id = id;
    part.reference = id;
    part.kind = kind;
    part.nets = std::move(nets);
    part.value = value;
    circuit.circuit().parts.push_back(part);
    return circuit.circuit().parts.back();
}

TEST(PublishedNetworks, TwinTFollowsItsClosedForm) {
    // (1 + x^2)/(1 + 4x + x^2) at 10k and 10n, f0 1591.549 Hz: -9.0908 dB an octave off, -0.6567 a decade, -25.563 at
    // 0.9 and -26.435 at 1.1, -3.0103 at sqrt 5 -+ 2; the leg's capacitor 1 % high: -58.14 dB at 0.9975 f0.
    const double f0 = 1.0 / (2.0 * std::numbers::pi * 10e3 * 10e-9);
    const auto twinT = [](double leg) {
        SmallCircuit circuit;
        circuit.r("R1", "in", "t", 10e3).r("R2", "t", "out", 10e3).c("C3", "t", "0", leg);
        circuit.c("C1", "in", "u", 10e-9).c("C2", "u", "out", 10e-9).r("R3", "u", "0", 5e3);
        return circuit;
    };
    const SmallCircuit exact = twinT(20e-9);
    for (const auto& [at, db] : {std::pair{0.5, -9.0908}, {2.0, -9.0908}, {0.1, -0.6567}, {10.0, -0.6567}}) {
        EXPECT_NEAR(dbOf(exact, at * f0), db, 1e-4) << at;
    }
    EXPECT_NEAR(dbOf(exact, 0.9 * f0), -25.563, 5e-4);
    EXPECT_NEAR(dbOf(exact, 1.1 * f0), -26.435, 5e-4);
    EXPECT_NEAR(dbOf(exact, (std::sqrt(5.0) - 2.0) * f0), -3.0103, 1e-4);
    EXPECT_NEAR(dbOf(exact, (std::sqrt(5.0) + 2.0) * f0), -3.0103, 1e-4);
    EXPECT_NEAR(dbOf(twinT(20.2e-9), 0.9975 * f0), -58.14, 0.05);
}

TEST(PublishedNetworks, WienArmIsAThirdInPhase) {
    // x/(1 + 3x + x^2): 1/3 and 0 degrees at f0.
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 10e3).c("C1", "a", "out", 10e-9).r("R2", "out", "0", 10e3).c("C2", "out", "0", 10e-9);
    const Complex gain = gainsOf(circuit, {1.0 / (2.0 * std::numbers::pi * 10e3 * 10e-9)})[0];
    EXPECT_NEAR(gain.real(), 1.0 / 3.0, 1e-12);
    EXPECT_NEAR(gain.imag(), 0.0, 1e-12);
}

TEST(PublishedNetworks, TrebleCutFollowsItsClosedForm) {
    // (1 + srC)/(1 + s(R + r)C) at 10k, 1k, 22n: -5.119 dB at 1 kHz, -20.299 at 20 kHz.
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 10e3).r("R2", "out", "a", 1e3).c("C1", "a", "0", 22e-9);
    EXPECT_NEAR(dbOf(circuit, 1e3), -5.119, 5e-4);
    EXPECT_NEAR(dbOf(circuit, 20e3), -20.299, 5e-4);
}

TEST(PublishedNetworks, ActiveBassAndTrebleFollowTheirClosedForm) {
    // P. J. Baxandall, Wireless World, October 1952, in the form with an ideal inverting stage: R1 8.2k R2 50k R3 10k
    // R4 50k R5 2.2k C1 68n C3 6.8n (baxandall_active.csv). Ends of the pots at 1 mohm.
    int compared = 0;
    for (const auto& row : test::referenceTable("baxandall_active.csv")) {
        const double bass = std::stod(row.at("bass_b"));
        const double treble = std::stod(row.at("treble_t"));
        const auto share = [](double of, double part) { return std::max(1e-3, of * part); };
        SmallCircuit circuit;
        circuit.r("R1A", "in", "ba", 8.2e3).r("R1B", "bb", "out", 8.2e3);
        circuit.r("R2A", "ba", "bw", share(50e3, 1.0 - bass)).r("R2B", "bw", "bb", share(50e3, bass));
        circuit.c("C1A", "ba", "bw", 68e-9).c("C1B", "bw", "bb", 68e-9).r("R3", "bw", "m", 10e3);
        circuit.c("C3A", "in", "ta", 6.8e-9).c("C3B", "tb", "out", 6.8e-9);
        circuit.r("R4A", "ta", "tw", share(50e3, 1.0 - treble)).r("R4B", "tw", "tb", share(50e3, treble));
        circuit.r("R5", "tw", "m", 2.2e3);
        addControlled(circuit, PartKind::voltageControlledVoltage, "E1", {"out", "0", "0", "m"}, 1e9);
        for (const double hertz : {20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10000.0, 20000.0}) {
            const double expected = std::stod(row.at("dB@" + std::to_string(int(hertz)) + "Hz"));
            EXPECT_NEAR(dbOf(circuit, hertz), expected, 1.5e-4) << bass << " " << treble << " at " << hertz;
            ++compared;
        }
    }
    EXPECT_GE(compared, 50);
}

TEST(PublishedNetworks, PickupsPeakWithTheirLoads) {
    // Model V + R + L in series, then C, pots, cable and input in parallel; component ranges common practice, figures
    // from the closed form: peak [dB] and where [Hz].
    struct Case {
        double henries, ohms, farads, potOhms, cableFarads, loadOhms;
        double peakDb, peakHz;
    };
    for (const Case& c : {Case{2.5, 6e3, 100e-12, 250e3, 300e-12, 1e6, 2.55, 4334.0},
                          {2.5, 6e3, 100e-12, 250e3, 600e-12, 1e6, 4.12, 3506.0},
                          {4.5, 8e3, 120e-12, 500e3, 300e-12, 1e6, 4.73, 3401.0},
                          {4.5, 8e3, 120e-12, 500e3, 300e-12, 220e3, 1.11, 2848.0}}) {
        SmallCircuit circuit;
        circuit.l("LPU", "in", "pu1", c.henries).r("RPU", "pu1", "out", c.ohms).c("CPU", "out", "0", c.farads);
        circuit.r("RVOL", "out", "0", c.potOhms).r("RTONE", "out", "tone", c.potOhms).c("CTONE", "tone", "0", 22e-9);
        circuit.c("CCABLE", "out", "0", c.cableFarads).r("RLOAD", "out", "0", c.loadOhms);
        std::vector<double> hertz;
        for (double f = 2000.0; f < 6000.0; f += 1.0) {
            hertz.push_back(f);
        }
        const auto gains = gainsOf(circuit, hertz);
        std::size_t best = 0;
        for (std::size_t k = 0; k < gains.size(); ++k) {
            best = std::abs(gains[k]) > std::abs(gains[best]) ? k : best;
        }
        EXPECT_NEAR(amplitudeDb(std::abs(gains[best])), c.peakDb, 0.01);
        EXPECT_NEAR(hertz[best], c.peakHz, 5.0);
    }
    // Into 68 kohm there is no peak: -1.086 dB at 100 Hz, 3 dB below that at 4121 Hz; into 1 Mohm -0.426 dB and 7168
    // Hz.
    for (const auto& [ohms, low, corner] : {std::tuple{68e3, -1.086, 4121.0}, {1e6, -0.426, 7168.0}}) {
        SmallCircuit circuit;
        circuit.l("LPU", "in", "pu1", 2.5).r("RPU", "pu1", "out", 6e3).c("CPU", "out", "0", 400e-12);
        circuit.r("RVOL", "out", "0", 250e3).r("RTONE", "out", "tone", 250e3).c("CTONE", "tone", "0", 22e-9);
        circuit.r("RLOAD", "out", "0", ohms);
        EXPECT_NEAR(dbOf(circuit, 100.0), low, 5e-4);
        EXPECT_NEAR(dbOf(circuit, corner), low - 3.0103, 0.01);
    }
}

TEST(PublishedNetworks, EmitterFollowerGainsAreTheWorkedExample) {
    // 1 mA, beta 200, RE 4.7k, Rs 10k, 27 °C: v_e/v_b 0.99455402, v_e/v_s 0.98419271.
    const double collector = 1e-3;
    const double base = collector / 200.0;
    for (const auto& [ohms, gain] : {std::pair{1e-3, 0.99455402}, {10e3, 0.98419271}}) {
        SmallCircuit circuit(4.7e3 * (collector + base) + thermalVolts(300.15) * std::log(collector / 1e-14) +
                             ohms * base);
        circuit.v("VCC", "vcc", "0", 15.0)
            .r("RS", "in", "b", ohms)
            .q("Q1", "vcc", "b", "out", {{"IS", 1e-14}, {"BF", 200.0}})
            .r("RE", "out", "0", 4.7e3);
        EXPECT_NEAR(gainsOf(circuit, {100.0})[0].real(), gain, 2e-8);
    }
}

TEST(PublishedNetworks, CommonEmitterBypassHasItsCorners) {
    // IC 1 mA, beta 200, Rs 1k, RC 4.7k, RE 1k, CE 10 uF, 27 °C: -4.537271 at DC, -152.276 far above 534.144 Hz (zero
    // 15.9155 Hz).
    const double collector = 1e-3;
    const double base = collector / 200.0;
    SmallCircuit circuit(1e3 * (collector + base) + thermalVolts(300.15) * std::log(collector / 1e-14) + 1e3 * base);
    circuit.v("VCC", "vcc", "0", 15.0)
        .r("RS", "in", "b", 1e3)
        .q("Q1", "out", "b", "e", {{"IS", 1e-14}, {"BF", 200.0}})
        .r("RC", "vcc", "out", 4.7e3)
        .r("RE", "e", "0", 1e3)
        .c("CE", "e", "0", 10e-6);
    EXPECT_NEAR(gainsOf(circuit, {0.0})[0].real(), -4.537271, 1e-6);
    EXPECT_NEAR(gainsOf(circuit, {1e7})[0].real(), -152.276, 1e-3);
    const Complex at = gainsOf(circuit, {534.144})[0];
    const Complex expected = -4.537271 * Complex(1.0, 534.144 / 15.9155) / Complex(1.0, 1.0);
    EXPECT_NEAR(std::abs(at - expected), 0.0, 1e-4 * std::abs(expected));
}

TEST(PublishedNetworks, SelfBiasedJfetsAreTheirClosedForm) {
    // Square law, ID = VP^2/(2 IDSS RS^2) [1 + 2 IDSS RS/|VP| - sqrt(1 + 4 IDSS RS/|VP|)]; reproduced with a general
    // purpose simulator. BETA = IDSS/VP^2.
    struct Case {
        double idss, vp, rs, rd, supply;
        double amperes, drainVolts, gain, bypassed;
    };
    for (const Case& c : {Case{3e-3, -2.0, 1e3, 2.2e3, 9.0, 0.902832e-3, 7.013769, -1.36848, -3.62066},
                          {0.6e-3, -0.8, 1.5e3, 15e3, 9.0, 0.214469e-3, 5.782961, -5.73599, -13.452},
                          {12e-3, -6.0, 1e3, 1e3, 20.0, 3e-3, 17.0, -2.0 / 3.0, -2.0}}) {
        for (const bool bypassed : {false, true}) {
            SmallCircuit circuit;
            circuit.v("VCC", "vcc", "0", c.supply).r("RD", "vcc", "out", c.rd).r("RS", "s", "0", c.rs);
            if (bypassed) {
                circuit.c("CS", "s", "0", 1.0);
            }
            Part fet;
            fet.id = "J1";
            fet.reference = "J1";
            fet.kind = PartKind::jfet;
            fet.nets = {"out", "in", "s"};
            fet.model = "fet";
            circuit.circuit().models.push_back(
                {"fet", PartKind::jfet, {{"VTO", c.vp}, {"BETA", c.idss / (c.vp * c.vp)}}, "test"});
            circuit.circuit().parts.push_back(fet);
            const auto equations = Equations::compile(circuit, {});
            ASSERT_TRUE(equations);
            const auto bias = solveBias(*equations);
            ASSERT_TRUE(bias);
            EXPECT_NEAR(bias->x[std::size_t(equations->indexOfNet("s"))] / c.rs, c.amperes, 1e-9);
            EXPECT_NEAR(bias->x[std::size_t(equations->indexOfNet("out"))], c.drainVolts, 1e-6);
            const double expected = bypassed ? c.bypassed : c.gain;
            EXPECT_NEAR(gainsOf(circuit, {1e3})[0].real(), expected, 4e-5 * std::abs(expected));
        }
    }
}

TEST(PublishedNetworks, TriodeStageHasItsShelf) {
    // mu 100, ra 62.5k, Ra 100k, Rk 1.5k, Ck 1 uF: |A| 30.172, 31.895, 35.653, 35.782 dB at 20, 100, 1k, 10k Hz; DC
    // -31.84713. Common cathode with mu = gm ro as in the textbooks; gm 3 mS, ro 50k, RD 4.7k, RS 1k: -3.427321.
    const auto stage = [](double mu, double ra, double load, double cathode, double farads) {
        SmallCircuit circuit;
        addControlled(circuit, PartKind::voltageControlledCurrent, "G1", {"out", "k", "in", "k"}, mu / ra);
        circuit.r("RA", "out", "k", ra).r("RL", "out", "0", load).r("RK", "k", "0", cathode).r("RX", "in", "0", 1e6);
        if (farads > 0.0) {
            circuit.c("CK", "k", "0", farads);
        }
        return circuit;
    };
    const SmallCircuit triode = stage(100.0, 62.5e3, 100e3, 1.5e3, 1e-6);
    EXPECT_NEAR(dbOf(triode, 20.0), 30.172, 5e-4);
    EXPECT_NEAR(dbOf(triode, 100.0), 31.895, 5e-4);
    EXPECT_NEAR(dbOf(triode, 1e3), 35.653, 5e-4);
    EXPECT_NEAR(dbOf(triode, 10e3), 35.782, 5e-4);
    EXPECT_NEAR(gainsOf(triode, {0.0})[0].real(), -31.84713, 5e-6);
    EXPECT_NEAR(gainsOf(stage(150.0, 50e3, 4.7e3, 1e3, 0.0), {1e3})[0].real(), -3.427321, 5e-7);
}

TEST(PublishedNetworks, WorkedExamplesOfTextbooks) {
    // Malvino & Bates, Electronic Principles, 7th ed., ex 10-1 p 322: re' 22.7, RC 3.6k, RL 10k: 116.61; ex 13-13 p
    // 449: gm 5 mS, 3.6k, 10k: 13.235. Bell, Electronic Devices and Circuits, ex 10-2 p 290: gm 3 mS, RD 2.7k, RS 1k:
    // -2.025 unbypassed; bypassed with 10k and rd 100k -6.24518.
    const auto stage = [](double siemens, double drain, double load, double source, double rd) {
        SmallCircuit circuit;
        addControlled(circuit, PartKind::voltageControlledCurrent, "G1", {"out", "s", "in", "s"}, siemens);
        circuit.r("RD", "out", "0", drain).r("RL", "out", "0", load).r("RX", "in", "0", 1e6).r("RS", "s", "0", source);
        circuit.r("RDS", "out", "s", rd);
        return gainsOf(circuit, {1e3})[0].real();
    };
    const double none = 1e15;
    const double wire = 1e-9 * 1e3;
    EXPECT_NEAR(stage(1.0 / 22.7, 3.6e3, 10e3, wire, none), -116.61, 0.01);
    EXPECT_NEAR(stage(5e-3, 3.6e3, 10e3, wire, none), -13.235, 5e-4);
    EXPECT_NEAR(stage(3e-3, 2.7e3, none, 1e3, none), -2.025, 1e-9);
    EXPECT_NEAR(stage(3e-3, 2.7e3, 10e3, wire, 100e3), -6.24518, 1e-5);
}

}  // namespace
}  // namespace ohmwright
