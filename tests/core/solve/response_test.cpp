// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/response.h"

#include "core/base/decibels.h"
#include "tests/support/csv_rows.h"
#include "tests/support/gains.h"
#include "tests/support/small_circuits.h"
#include "tests/support/spoken.h"

#include <gtest/gtest.h>
#include <Eigen/LU>

#include <cmath>
#include <limits>
#include <numbers>

namespace ohmwright {
namespace {

using test::dbOf;
using test::gainsOf;
using test::SmallCircuit;
using Complex = std::complex<double>;

/// Series R1, shunt (R2 + C1) beside C2: the exact two-capacitor solution of the replay curve.
SmallCircuit replayNetwork(double r1, double r2, double c1, double c2) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", r1).r("R2", "out", "x", r2).c("C1", "x", "0", c1).c("C2", "out", "0", c2);
    return circuit;
}

TEST(Response, ReplayNetworkFollowsTheStandardCurve) {
    // IEC 60098 time constants 3180, 318, 75 us; riaa.csv computed from them. Ratios of the exact network
    // (R1/R2 6.877358, C1/C2 2.916) as in Lipshitz, "On RIAA Equalization Networks", J. Audio Eng. Soc. 27(6) (1979).
    const double r1 = 75e3;
    const double c2 = 750e-6 / r1;
    const double r2 = r1 / 6.877358;
    const auto circuit = replayNetwork(r1, r2, 318e-6 / r2, c2);
    const double at1k = dbOf(circuit, 1000.0);
    EXPECT_NEAR(at1k, -19.9110, 0.001);
    int compared = 0;
    for (const auto& row : test::referenceTable("riaa.csv")) {
        const double hertz = std::stod(row.at("freq_Hz"));
        EXPECT_NEAR(dbOf(circuit, hertz) - at1k, std::stod(row.at("riaa_dB_re_1kHz")), 0.001) << hertz;
        ++compared;
    }
    EXPECT_GE(compared, 20);
}

TEST(Response, ReplayNetworksOfRealPartsErrAsTheirFormulaSays) {
    // 100k, 14.5k, 22n, 7.5n stays within 0.02 dB; 75k, 8.2k, 39n, 10n errs +1.22 dB at 20 Hz and +1.50 dB at 20 kHz
    // (closed form, computed independently).
    const auto good = replayNetwork(100e3, 14.5e3, 22e-9, 7.5e-9);
    const auto bad = replayNetwork(75e3, 8.2e3, 39e-9, 10e-9);
    EXPECT_NEAR(dbOf(good, 20.0) - dbOf(good, 1000.0), 19.274, 0.021);
    EXPECT_NEAR(dbOf(bad, 20.0) - dbOf(bad, 1000.0), 19.274 + 1.22, 0.006);
    EXPECT_NEAR(dbOf(bad, 20000.0) - dbOf(bad, 1000.0), -19.620 + 1.50, 0.006);
}

TEST(Response, BufferedSectionsGiveTheAWeighting) {
    // IEC 61672-1 (2013) table 3; RC sections with C 10 nF: 772.634k twice, 147.841k, 21.5697k high-pass, 1.305167k
    // twice low-pass.
    SmallCircuit circuit;
    std::string from = "in";
    int count = 0;
    circuit.v("VP", "vp", "0", 15.0).v("VN", "0", "vn", 15.0);
    const auto buffer = [&](const std::string& net) {
        const std::string out = count == 5 ? "out" : "b" + std::to_string(count);
        // A buffer far better than the weighting: gain-bandwidth 1 THz.
        circuit.opamp("U" + std::to_string(count), {net, out, out, "vp", "vn"}, {{"GBW", 1e12}, {"GAIN", 1e9}});
        from = out;
        ++count;
    };
    for (const double ohms : {772.634e3, 772.634e3, 147.841e3, 21.5697e3}) {
        const std::string net = "h" + std::to_string(count);
        circuit.c("C" + std::to_string(count), from, net, 10e-9).r("R" + std::to_string(count), net, "0", ohms);
        buffer(net);
    }
    for (int k = 0; k < 2; ++k) {
        const std::string net = "l" + std::to_string(count);
        circuit.r("R" + std::to_string(count), from, net, 1.305167e3).c("C" + std::to_string(count), net, "0", 10e-9);
        buffer(net);
    }
    const double at1k = dbOf(circuit, 1000.0);
    EXPECT_NEAR(at1k, -1.99966, 0.001);
    int compared = 0;
    for (const auto& row : test::referenceTable("aweighting.csv")) {
        const double hertz = std::stod(row.at("exact_Hz_base10"));
        EXPECT_NEAR(dbOf(circuit, hertz) - at1k, std::stod(row.at("A_calc_at_exact_dB")), 0.002) << hertz;
        EXPECT_NEAR(dbOf(circuit, hertz) - at1k, std::stod(row.at("A_table_dB")), 0.0502) << hertz;
        ++compared;
    }
    EXPECT_EQ(compared, 34);
}

TEST(Response, ThreeControlNetworkFollowsItsClosedForm) {
    // D. T. Yeh, J. O. Smith, DAFx-06 (2006), discretization of a passive tone network; coefficients re-derived
    // symbolically.
    const double r1 = 200e3, r2 = 500e3, r3 = 20e3, r4 = 39e3, c1 = 300e-12, c2 = 33e-9, c3 = 27e-9;
    const std::vector<double> hertz{20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000};
    int compared = 0;
    for (const auto& row : test::referenceTable("three_control_stack.csv")) {
        const double l = std::stod(row.at("l_bass_fraction"));
        const double m = std::stod(row.at("m_middle"));
        const double t = std::stod(row.at("t_treble"));
        // An end of a track is 1 mohm, as everywhere in the program.
        const auto end = [](double ohms) { return std::max(ohms, 1e-3); };
        SmallCircuit circuit;
        circuit.c("C1", "in", "A", c1)
            .r("RT1", "A", "out", end((1.0 - t) * r1))
            .r("RT2", "out", "B", end(t * r1))
            .r("R4", "in", "X", r4)
            .c("C2", "X", "B", c2)
            .r("RB", "B", "D", end(l * r2))
            .r("RM1", "D", "W", end((1.0 - m) * r3))
            .r("RM2", "W", "0", end(m * r3))
            .c("C3", "X", "W", c3);
        const auto gains = gainsOf(circuit, hertz);
        for (std::size_t k = 0; k < hertz.size(); ++k) {
            const Complex s(0.0, 2.0 * std::numbers::pi * hertz[k]);
            const Complex closed =
                (std::stod(row.at("b1")) * s + std::stod(row.at("b2")) * s * s + std::stod(row.at("b3")) * s * s * s) /
                (1.0 + std::stod(row.at("a1")) * s + std::stod(row.at("a2")) * s * s +
                 std::stod(row.at("a3")) * s * s * s);
            EXPECT_NEAR(amplitudeDb(std::abs(gains[k])), amplitudeDb(std::abs(closed)), 0.002)
                << l << " " << m << " " << t << " at " << hertz[k];
            EXPECT_NEAR(std::arg(gains[k] / closed), 0.0, 1e-3);
            ++compared;
        }
    }
    EXPECT_GE(compared, 80);
}

SmallCircuit gainLegStage(bool withCf, double gain, double gbw) {
    SmallCircuit circuit;
    circuit.v("VP", "vp", "0", 15.0)
        .v("VN", "0", "vn", 15.0)
        .opamp("U1", {"in", "im", "out", "vp", "vn"}, {{"GAIN", gain}, {"GBW", gbw}, {"ROUT", 1e-3}})
        .c("CG", "im", "leg", 47e-9)
        .r("RG", "leg", "0", 4.7e3)
        .r("RF", "im", "out", 470e3);
    if (withCf) {
        circuit.c("CF", "im", "out", 47e-12);
    }
    return circuit;
}

TEST(Response, GainLegStageFollowsItsFormula) {
    // 4.7k/47n leg, Rf 470k: G = (1 + s(Rg + Rf)C)/(1 + s Rg C), pole 720.484 Hz, at the pole 3.00987 dB under
    // mid 40.0864 dB; with Cf 47 pF the table below (closed form, computed independently). An op-amp of 1e9 gain stands
    // for the ideal one.
    const auto plain = gainLegStage(false, 1e9, 1e13);
    EXPECT_NEAR(dbOf(plain, 1e6), 40.0864, 0.001);
    EXPECT_NEAR(dbOf(plain, 720.484), 40.0864 - 3.00987, 0.001);
    const std::vector<double> hertz{20, 50, 100, 200, 500, 720.4841, 1000, 2000, 5000, 7204.8412, 10000, 20000};
    const std::vector<double> ideal{9.4788,  16.9881, 22.8807, 28.6428, 35.1945, 37.0419,
                                    38.1964, 39.2427, 38.2986, 37.0419, 35.4099, 30.6946};
    const std::vector<double> real{9.4789,  16.9891, 22.8845, 28.6573, 35.2572, 37.1320,
                                   38.3001, 39.2619, 37.7268, 36.0945, 34.1479, 29.0173};
    for (std::size_t k = 0; k < hertz.size(); ++k) {
        EXPECT_NEAR(dbOf(gainLegStage(true, 1e9, 1e13), hertz[k]), ideal[k], 0.001) << hertz[k];
        EXPECT_NEAR(dbOf(gainLegStage(true, 2e5, 3e6), hertz[k]), real[k], 0.001) << hertz[k];
    }
}

TEST(Response, ClosedLoopBandwidthIsGainBandwidthOverGain) {
    // Gain 101, A0 2e5, GBW 3 MHz: DC 100.94902, -3 dB at 29717.97 Hz (closed form of one pole).
    SmallCircuit circuit;
    circuit.v("VP", "vp", "0", 15.0)
        .v("VN", "0", "vn", 15.0)
        .opamp("U1", {"in", "im", "out", "vp", "vn"}, {{"GAIN", 2e5}, {"GBW", 3e6}, {"ROUT", 1e-3}})
        .r("RG", "im", "0", 1e3)
        .r("RF", "im", "out", 100e3);
    const double dc = std::abs(gainsOf(circuit, {0.0})[0]);
    EXPECT_NEAR(dc, 100.94902, 1e-4);
    EXPECT_NEAR(std::abs(gainsOf(circuit, {29717.97})[0]) / dc, 1.0 / std::numbers::sqrt2, 1e-5);
}

TEST(Response, InputResistanceIsRaisedByTheLoopGain) {
    // Non-inverting, gain 11, RIN 1 Mohm behind a source of 100 kohm, ROUT 100 ohm into 1 kohm; A0 1000 so that both
    // show.
    SmallCircuit circuit;
    circuit.v("VP", "vp", "0", 15.0)
        .v("VN", "0", "vn", 15.0)
        .r("RS", "in", "p", 100e3)
        .opamp("U1", {"p", "im", "out", "vp", "vn"}, {{"GAIN", 1e3}, {"GBW", 3e6}, {"ROUT", 100.0}, {"RIN", 1e6}})
        .r("RG", "im", "0", 1e3)
        .r("RF", "im", "out", 10e3)
        .r("RL", "out", "0", 1e3);
    // The three node equations of p, im, out by hand, x = A0 (p - im), solved by a dense library.
    Eigen::Matrix3d g;
    const double a0 = 1e3;
    g << 1.0 / 100e3 + 1e-6, -1e-6, 0.0, -1e-6, 1e-6 + 1e-3 + 1e-4, -1e-4, -a0 / 100.0, a0 / 100.0 - 1e-4,
        1.0 / 100.0 + 1e-4 + 1e-3;
    const Eigen::Vector3d expected = g.inverse() * Eigen::Vector3d(1.0 / 100e3, 0.0, 0.0);
    EXPECT_NEAR(gainsOf(circuit, {0.0})[0].real(), expected[2], 1e-5);
}

TEST(Response, CommonEmitterGainIsTheWorkedExample) {
    // 9 V, 82k/15k, RC 4.7k, RE 1k, IS 1e-14, BF 200: A -4.5103546, RE bypassed -126.867; VAF 100 bypassed -123.448;
    // 2N3904 card -4.48543 and -115.580. Computed independently, reproduced with a general-purpose simulator.
    const auto stage = [](std::map<std::string, double> card, bool bypassed) {
        SmallCircuit circuit;
        circuit.v("VCC", "vcc", "0", 9.0)
            .r("R1", "vcc", "b", 82e3)
            .r("R2", "b", "0", 15e3)
            .c("CIN", "in", "b", 1.0)
            .r("RIN", "in", "0", 1e6)
            .r("RC", "vcc", "out", 4.7e3)
            .r("RE", "e", "0", 1e3);
        for (const char* capacitance : {"CJE", "CJC", "TF"}) {
            card.erase(capacitance);
        }
        circuit.q("Q1", "out", "b", "e", card);
        if (bypassed) {
            circuit.c("CE", "e", "0", 1.0);
        }
        return gainsOf(circuit, {1000.0})[0].real();
    };
    const std::map<std::string, double> ideal{{"IS", 1e-14}, {"BF", 200.0}, {"BR", 1.0}};
    auto early = ideal;
    early["VAF"] = 100.0;
    EXPECT_NEAR(stage(ideal, false), -4.5103546, 1e-5);
    EXPECT_NEAR(stage(ideal, true), -126.867, 2e-3);
    EXPECT_NEAR(stage(early, true), -123.448, 2e-3);
    EXPECT_NEAR(stage(test::card2N3904(), false), -4.48543, 1e-4);
    EXPECT_NEAR(stage(test::card2N3904(), true), -115.580, 2e-2);
}

TEST(Response, PickupWithPotsAndCableHasItsPublishedPeak) {
    // 4.5 H, 8k, 120 p, 500k volume at 10, 500k tone with 22 n full up, 3 m of 100 pF/m, 1 Mohm: +4.73 dB at 3401 Hz
    // (component ranges common practice; figures from the closed form, computed independently).
    SmallCircuit circuit;
    circuit.l("LPU", "in", "pu1", 4.5)
        .r("RPU", "pu1", "out", 8e3)
        .c("CPU", "out", "0", 120e-12)
        .r("RVOL", "out", "0", 500e3)
        .r("RTONE", "out", "tone", 500e3)
        .c("CTONE", "tone", "0", 22e-9)
        .c("CCABLE", "out", "0", 300e-12)
        .r("RLOAD", "out", "0", 1e6);
    double bestDb = -100.0;
    double bestHz = 0.0;
    for (double hertz = 2500.0; hertz < 4500.0; hertz += 1.0) {
        const double db = dbOf(circuit, hertz);
        if (db > bestDb) {
            bestDb = db;
            bestHz = hertz;
        }
    }
    EXPECT_NEAR(bestDb, 4.73, 0.01);
    EXPECT_NEAR(bestHz, 3401.0, 5.0);
}

TEST(Response, LadderFiltersFollowTheirTables) {
    // Doubly terminated prototypes (g1 a shunt C beside Rs 1), filter_ladders.csv: Butterworth by 2 sin((2k-1) pi/2n),
    // so that |H|^2 = 1/4/(1 + w^2n). Scaled to 1 kohm and 1 kHz.
    int compared = 0;
    for (const auto& row : test::referenceTable("filter_ladders.csv")) {
        if (row.at("family") != "Butterworth") {
            continue;
        }
        const int order = std::stoi(row.at("order"));
        SmallCircuit circuit;
        circuit.r("RS", "in", "n1", 1e3);
        const double w0 = 2.0 * std::numbers::pi * 1e3;
        std::string net = "n1";
        for (int k = 1; k <= order; ++k) {
            const double g = std::stod(row.at("g" + std::to_string(k)));
            if (k % 2 == 1) {
                circuit.c("C" + std::to_string(k), net, "0", g / (w0 * 1e3));
            } else {
                const std::string next = "n" + std::to_string(k);
                circuit.l("L" + std::to_string(k), net, next, g * 1e3 / w0);
                net = next;
            }
        }
        circuit.r("RL", net, "0", 1e3).r("ROUT", net, "out", 1e-2).r("RX", "out", "0", 1e11);
        for (const double w : {0.1, 0.5, 0.9, 1.0, 1.1, 2.0, 5.0}) {
            const double expected = -10.0 * std::log10(1.0 + std::pow(w, 2 * order)) - amplitudeDb(2.0);
            EXPECT_NEAR(dbOf(circuit, 1e3 * w), expected, 2e-4) << "order " << order << " at " << w;
            ++compared;
        }
    }
    EXPECT_GE(compared, 40);
}

TEST(Response, GainIsPerVoltWhateverDriveTheSourceStates) {
    // A divider by two is -6.02 dB; a file that states 2 V once gave 0 dB, and one that states 0 V no number.
    for (const double stated : {0.0, 1.0, 2.0, -1.0}) {
        SmallCircuit circuit;
        circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
        circuit.circuit().parts.front().acAmplitude = stated;
        const Complex gain = gainsOf(circuit, {100.0})[0];
        EXPECT_NEAR(gain.real(), 0.5, 1e-12) << stated;
        EXPECT_NEAR(gain.imag(), 0.0, 1e-12) << stated;
    }
}

TEST(Response, ASolutionThatIsNoNumberIsNoAnswer) {
    // A comparison with NaN is false, so that a balance check written the wrong way round lets it pass.
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-9);
    const auto equations = Equations::compile(circuit, {});
    ASSERT_TRUE(equations) << equations.error().message;
    auto bias = solveBias(*equations);
    ASSERT_TRUE(bias) << bias.error().message;
    bias->state.slopes.assign(bias->state.slopes.size(), std::numeric_limits<double>::quiet_NaN());
    EXPECT_FALSE(SmallSignal(*equations, *bias).at(1000.0));
}

TEST(Response, GridIsEvenOnALogAxis) {
    const auto grid = logarithmicGrid(20.0, 20000.0, 20);
    ASSERT_EQ(grid.size(), 61U);
    EXPECT_DOUBLE_EQ(grid.front(), 20.0);
    EXPECT_NEAR(grid.back(), 20000.0, 1e-8);
    EXPECT_NEAR(grid[20], 200.0, 1e-9);
}

TEST(Response, AnUnknownNetIsNamed) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const std::vector<double> hertz{100.0};
    const auto gains = frequencyResponse(*equations, *bias, {"elsewhere"}, hertz);
    ASSERT_FALSE(gains);
    EXPECT_NE(gains.error().message.find("elsewhere"), std::string::npos);
}

TEST(Response, ANetThatIsNotThereIsNamedInOneWholeSentence) {
    const test::Spoken german{{"The circuit has no net named %1.", "%1 heißt in der Schaltung kein Netz."}};
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const auto gains = frequencyResponse(*equations, *bias, {"elsewhere"}, std::vector<double>{100.0});
    ASSERT_FALSE(gains);
    EXPECT_EQ(gains.error().message, "elsewhere heißt in der Schaltung kein Netz.");
}

}  // namespace
}  // namespace ohmwright
