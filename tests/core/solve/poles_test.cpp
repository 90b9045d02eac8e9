// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/poles.h"

#include "tests/support/csv_rows.h"
#include "tests/support/small_circuits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;
using Complex = std::complex<double>;

PolesAndZeros rootsOf(const Circuit& circuit) {
    const auto equations = Equations::compile(circuit, {});
    if (!equations) {
        ADD_FAILURE() << equations.error().message;
        return {};
    }
    const auto bias = solveBias(*equations);
    if (!bias) {
        ADD_FAILURE() << bias.error().message;
        return {};
    }
    auto roots = findPolesAndZeros(*equations, *bias, equations->indexOfNet("out"));
    if (!roots) {
        ADD_FAILURE() << roots.error().message;
        return {};
    }
    return *roots;
}

/// Every expected root has one of its own within a share of its size, and none is left over.
void expectRoots(std::vector<Complex> found, const std::vector<Complex>& expected, double share,
                 const std::string& of) {
    EXPECT_EQ(found.size(), expected.size()) << of;
    for (const Complex& root : expected) {
        const auto nearest = std::min_element(found.begin(), found.end(), [&](const Complex& a, const Complex& b) {
            return std::abs(a - root) < std::abs(b - root);
        });
        if (nearest == found.end()) {
            ADD_FAILURE() << of << ": nothing at " << root;
            return;
        }
        EXPECT_LE(std::abs(*nearest - root), share * std::abs(root)) << of << ": " << *nearest << " for " << root;
        found.erase(nearest);
    }
}

/// A stage that repeats a voltage and loads nothing.
void addBuffer(SmallCircuit& circuit, const std::string& id, const NetName& from, const NetName& to,
               double gain = 1.0) {
    Part part;
    part.id = id;
    part.reference = id;
    part.kind = PartKind::voltageControlledVoltage;
    part.nets = {to, "0", from, "0"};
    part.value = gain;
    circuit.circuit().parts.push_back(part);
}

/// The roots of a prototype in filter_poles.csv [Hz], its edge at `edgeHz`.
std::vector<Complex> tablePoles(const std::string& family, const std::string& normalisation, int order, double edgeHz) {
    std::vector<Complex> poles;
    for (const auto& row : test::referenceTable("filter_poles.csv")) {
        if (row.at("family") == family && row.at("normalisation") == normalisation &&
            std::stoi(row.at("order")) == order) {
            const Complex pole(std::stod(row.at("real")), std::stod(row.at("imag")));
            poles.push_back(edgeHz * pole);
            if (pole.imag() != 0.0) {
                poles.push_back(edgeHz * std::conj(pole));
            }
        }
    }
    return poles;
}

std::string normalisationOf(const std::string& family) {
    return family.starts_with("Chebyshev") ? "ripple edge at 1 rad/s" : "-3 dB at 1 rad/s";
}

TEST(Poles, LadderFiltersHaveTheirTabulatedPoles) {
    // Element values after Winder, Analog and Digital Filter Design, table 2.3 (filter_ladders.csv), poles from the
    // approximations themselves (filter_poles.csv). The element tables have six digits; Bessel's four, which its close
    // poles of high order magnify.
    int compared = 0;
    for (const auto& row : test::referenceTable("filter_ladders.csv")) {
        const bool isBessel = row.at("family").starts_with("Bessel");
        const std::string family = isBessel ? "Bessel" : row.at("family");
        const int order = std::stoi(row.at("order"));
        const std::string name = family + " " + row.at("order");
        const double share = !isBessel ? 2e-5 : order <= 6 ? 3e-3 : 2e-2;
        const double w0 = 2.0 * std::numbers::pi * 1e3;
        SmallCircuit circuit;
        circuit.r("RS", "in", "n1", 1e3);
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
        circuit.r("RL", net, "0", 1e3 * std::stod(row.at("R_load")));
        for (Part& part : circuit.circuit().parts) {
            std::replace(part.nets.begin(), part.nets.end(), net, std::string("out"));
        }
        const PolesAndZeros roots = rootsOf(circuit);
        expectRoots(roots.poles, tablePoles(family, normalisationOf(family), order, 1e3), share, name);
        EXPECT_TRUE(roots.zeros.empty()) << name;
        EXPECT_TRUE(roots.closed) << name << ": " << roots.checkErrorDb;
        EXPECT_EQ(roots.infinitePoles, 0) << name;
        ++compared;
    }
    EXPECT_GE(compared, 45);
}

TEST(Poles, SallenKeySectionsHaveTheirTabulatedPoles) {
    // sallen_key.csv: unity gain, R 10 kohm, 1 kHz; C feedback 2Q/(w0 R), C to ground 1/(2 Q w0 R).
    struct Filter {
        std::string family, rows;
        int order;
    };
    for (const Filter& filter : {Filter{"Butterworth", "Butterworth", 2},
                                 {"Butterworth", "Butterworth", 3},
                                 {"Butterworth", "Butterworth", 4},
                                 {"Bessel", "Bessel -3dB", 2},
                                 {"Bessel", "Bessel -3dB", 3},
                                 {"Bessel", "Bessel -3dB", 4},
                                 {"Chebyshev 0.5 dB", "Chebyshev 0.5 dB (ripple edge)", 2},
                                 {"Chebyshev 0.5 dB", "Chebyshev 0.5 dB (ripple edge)", 3},
                                 {"Chebyshev 1 dB", "Chebyshev 1 dB (ripple edge)", 4}}) {
        SmallCircuit circuit;
        std::string net = "in";
        int section = 0;
        for (const auto& row : test::referenceTable("sallen_key.csv")) {
            if (row.at("family") != filter.rows || std::stoi(row.at("order")) != filter.order) {
                continue;
            }
            const std::string n = std::to_string(++section);
            const double first = 1e-9 * std::stod(row.at("C1_feedback_or_RC_nF (R=10k, fc=1 kHz)"));
            const std::string& second = row.at("C2_to_ground_nF");
            const std::string end = "e" + n;
            if (second.empty()) {
                circuit.r("R" + n, net, "b" + n, 10e3).c("C" + n, "b" + n, "0", first);
            } else {
                circuit.r("RA" + n, net, "a" + n, 10e3).r("RB" + n, "a" + n, "b" + n, 10e3);
                circuit.c("CA" + n, "a" + n, end, first).c("CB" + n, "b" + n, "0", 1e-9 * std::stod(second));
            }
            addBuffer(circuit, "E" + n, "b" + n, end);
            net = end;
        }
        circuit.r("ROUT", net, "out", 1.0).r("RX", "out", "0", 1e9);
        const PolesAndZeros roots = rootsOf(circuit);
        const std::string name = filter.family + " " + std::to_string(filter.order);
        expectRoots(roots.poles, tablePoles(filter.family, normalisationOf(filter.family), filter.order, 1e3), 2e-6,
                    name);
        EXPECT_TRUE(roots.zeros.empty()) << name;
        EXPECT_TRUE(roots.closed) << name;
    }
}

TEST(Poles, TwinTKeepsThePoleThatItsZeroCancels) {
    // H = (1 + x^2)/(1 + 4x + x^2), x = sRC, with (1 + x) above and below: three capacitors make three poles.
    const double f0 = 1.0 / (2.0 * std::numbers::pi * 10e3 * 10e-9);
    EXPECT_NEAR(f0, 1591.549, 1e-3);
    SmallCircuit circuit;
    circuit.r("R1", "in", "t", 10e3).r("R2", "t", "out", 10e3).c("C3", "t", "0", 20e-9);
    circuit.c("C1", "in", "u", 10e-9).c("C2", "u", "out", 10e-9).r("R3", "u", "0", 5e3);
    const PolesAndZeros roots = rootsOf(circuit);
    const double root3 = std::sqrt(3.0);
    expectRoots(roots.poles, {-(2.0 - root3) * f0, -f0, -(2.0 + root3) * f0}, 1e-9, "poles");
    expectRoots(roots.zeros, {Complex(0.0, f0), Complex(0.0, -f0), -f0}, 1e-9, "zeros");
    EXPECT_TRUE(roots.closed) << roots.checkErrorDb;
}

TEST(Poles, GainLegHasItsPoleAndZero) {
    // 4.7k and 47n below 470k of an ideal stage: G = (1 + s(Rg + Rf)C)/(1 + s Rg C), 720.484 and 7.13351 Hz.
    SmallCircuit circuit;
    Part stage;
    stage.id = "E1";
    stage.reference = "E1";
    stage.kind = PartKind::voltageControlledVoltage;
    stage.nets = {"out", "0", "in", "fb"};
    stage.value = 1e12;
    circuit.circuit().parts.push_back(stage);
    circuit.r("RF", "out", "fb", 470e3).r("RG", "fb", "leg", 4.7e3).c("CG", "leg", "0", 47e-9);
    const PolesAndZeros roots = rootsOf(circuit);
    expectRoots(roots.poles, {-720.484}, 1e-6, "pole");
    expectRoots(roots.zeros, {-7.13351}, 1e-6, "zero");
    EXPECT_TRUE(roots.closed);
}

TEST(Poles, ReplayNetworkHasTheTimeConstantsOfTheStandard) {
    // IEC 60098: 3180, 318 and 75 us; the network's ratios R1/R2 6.877358, C1/C2 2.916 as in Lipshitz, J. Audio Eng.
    // Soc. 27(6) (1979): R2 C1 = 318 us, R1 C2 = 750 us, R1 C1 = 2187 us.
    const double r1 = 75e3;
    SmallCircuit circuit;
    const double r2 = 318e-6 / (2187e-6 / r1);
    circuit.r("R1", "in", "out", r1).r("R2", "out", "x", r2).c("C1", "x", "0", 2187e-6 / r1);
    circuit.c("C2", "out", "0", 750e-6 / r1);
    const PolesAndZeros roots = rootsOf(circuit);
    expectRoots(roots.poles, {-50.0487, -2122.07}, 2e-6, "poles");
    expectRoots(roots.zeros, {-500.487}, 2e-6, "zero");
}

TEST(Poles, ResonatorRingsAtItsPairs) {
    // Series 100 ohm, 10 mH, 100 nF: 5032.92 Hz, Q 3.162278.
    SmallCircuit circuit;
    circuit.r("R", "in", "a", 100.0).l("L", "a", "out", 10e-3).c("C", "out", "0", 100e-9);
    const PolesAndZeros roots = rootsOf(circuit);
    ASSERT_EQ(roots.poles.size(), 2u);
    EXPECT_NEAR(std::abs(roots.poles[0]), 5032.92, 5e-3);
    EXPECT_NEAR(std::abs(roots.poles[0]) / (-2.0 * roots.poles[0].real()), 3.162278, 1e-6);
    EXPECT_EQ(roots.poles[0], std::conj(roots.poles[1]));
}

TEST(Poles, EqualSectionsKeepTheirMultiplePole) {
    // Buffered RC sections, all alike: a pole of that multiplicity at 1/(2 pi RC), whose eigenvalues fly apart by the
    // root of the rounding when they are taken as they come.
    for (const int sections : {2, 3, 4, 6, 8}) {
        SmallCircuit circuit;
        std::string net = "in";
        for (int k = 0; k < sections; ++k) {
            const std::string n = std::to_string(k);
            const std::string end = k + 1 == sections ? "out" : "e" + n;
            circuit.r("R" + n, net, "b" + n, 10e3).c("C" + n, "b" + n, "0", 10e-9);
            addBuffer(circuit, "E" + n, "b" + n, end);
            net = end;
        }
        const PolesAndZeros roots = rootsOf(circuit);
        const double pole = -1.0 / (2.0 * std::numbers::pi * 10e3 * 10e-9);
        expectRoots(roots.poles, std::vector<Complex>(std::size_t(sections), pole), 1e-9, std::to_string(sections));
        EXPECT_TRUE(roots.zeros.empty());
        EXPECT_TRUE(roots.closed) << sections;
    }
}

TEST(Poles, WeightingNetworkHasItsDoublePolesAndItsZerosAtNothing) {
    // IEC 61672-1: poles 20.598997 (twice), 107.65265, 737.86223, 12194.217 Hz (twice), four zeros at 0; as buffered
    // sections of 10 nF.
    SmallCircuit circuit;
    std::string net = "in";
    int n = 0;
    const auto section = [&](double hertz, bool highPass) {
        const std::string name = std::to_string(++n);
        const double ohms = 1.0 / (2.0 * std::numbers::pi * hertz * 10e-9);
        if (highPass) {
            circuit.c("C" + name, net, "b" + name, 10e-9).r("R" + name, "b" + name, "0", ohms);
        } else {
            circuit.r("R" + name, net, "b" + name, ohms).c("C" + name, "b" + name, "0", 10e-9);
        }
        net = n == 6 ? "out" : "e" + name;
        addBuffer(circuit, "E" + name, "b" + name, net);
    };
    const std::vector<double> highPasses{20.598997, 20.598997, 107.65265, 737.86223};
    for (const double hertz : highPasses) {
        section(hertz, true);
    }
    section(12194.217, false);
    section(12194.217, false);
    const PolesAndZeros roots = rootsOf(circuit);
    expectRoots(roots.poles, {-20.598997, -20.598997, -107.65265, -737.86223, -12194.217, -12194.217}, 1e-9, "poles");
    ASSERT_EQ(roots.zeros.size(), 4u);
    for (const Complex& zero : roots.zeros) {
        EXPECT_EQ(zero, Complex(0.0));
    }
    EXPECT_TRUE(roots.closed) << roots.checkErrorDb;
}

TEST(Poles, TwoEqualSectionsWithoutBufferStandAsTheWeightingsPair) {
    // (3 -+ sqrt 5)/2 times 1/(2 pi RC): 107.65 and 737.86 Hz for 281.838 Hz.
    SmallCircuit circuit;
    const double ohms = 1.0 / (2.0 * std::numbers::pi * 281.838 * 10e-9);
    circuit.r("R1", "in", "a", ohms).c("C1", "a", "0", 10e-9).r("R2", "a", "out", ohms).c("C2", "out", "0", 10e-9);
    expectRoots(rootsOf(circuit).poles, {-107.65265, -737.86223}, 3e-6, "pair");
}

TEST(Poles, EighteenDecadesStandInOneList) {
    // Buffered sections with time constants from a thousand seconds to the fastest: each is 1/(2 pi RC).
    SmallCircuit circuit;
    std::vector<Complex> expected;
    std::string net = "in";
    int n = 0;
    for (const auto& [ohms, farads] : {std::pair{1e7, 1e-4},
                                       {1e6, 1e-6},
                                       {1e4, 1e-6},
                                       {1e4, 1e-8},
                                       {1e3, 1e-9},
                                       {1e2, 1e-11},
                                       {10.0, 1e-12},
                                       {1.0, 1e-13},
                                       {0.1, 1e-14}}) {
        const std::string name = std::to_string(++n);
        circuit.r("R" + name, net, "b" + name, ohms).c("C" + name, "b" + name, "0", farads);
        net = n == 9 ? "out" : "e" + name;
        addBuffer(circuit, "E" + name, "b" + name, net);
        expected.emplace_back(-1.0 / (2.0 * std::numbers::pi * ohms * farads));
    }
    const PolesAndZeros roots = rootsOf(circuit);
    expectRoots(roots.poles, expected, 1e-9, "poles");
    EXPECT_TRUE(roots.closed) << roots.checkErrorDb;
}

TEST(Poles, CouplingCapacitorsMakeZerosAtNothing) {
    // Three coupling capacitors in a row without buffers: the transfer falls as s^3. With the one at the end they make
    // a loop through the source.
    SmallCircuit circuit;
    circuit.c("C1", "in", "a", 100e-9).r("R1", "a", "0", 1e6).c("C2", "a", "b", 22e-9).r("R2", "b", "0", 100e3);
    circuit.c("C3", "b", "out", 1e-6).r("R3", "out", "0", 10e3).c("C4", "out", "0", 1e-9);
    const PolesAndZeros roots = rootsOf(circuit);
    EXPECT_EQ(roots.poles.size(), 3u);
    EXPECT_EQ(roots.infinitePoles, 1);
    EXPECT_EQ(roots.zeros, std::vector<Complex>(3, 0.0));
    EXPECT_TRUE(roots.closed) << roots.checkErrorDb;
}

TEST(Poles, ChargesThatOthersDecideAreCountedAndLeftOut) {
    // A loop of three capacitors, one across the source, two coils in series: one pole less each than charges.
    SmallCircuit loop;
    loop.r("R1", "in", "a", 1e3).r("R2", "out", "0", 1e3);
    loop.c("C1", "a", "out", 1e-9).c("C2", "a", "0", 1e-9).c("C3", "out", "0", 1e-9);
    PolesAndZeros roots = rootsOf(loop);
    EXPECT_EQ(roots.poles.size(), 2u);
    EXPECT_EQ(roots.infinitePoles, 1);
    EXPECT_TRUE(roots.closed);

    SmallCircuit source;
    source.c("C1", "in", "0", 1e-6).r("R1", "in", "out", 1e3).c("C2", "out", "0", 1e-9);
    roots = rootsOf(source);
    expectRoots(roots.poles, {-159154.943092}, 1e-9, "beside the source");
    EXPECT_EQ(roots.infinitePoles, 1);

    SmallCircuit coils;
    coils.l("L1", "in", "a", 1e-3).l("L2", "a", "b", 3e-3).r("R1", "b", "out", 100.0).r("R2", "out", "0", 300.0);
    roots = rootsOf(coils);
    expectRoots(roots.poles, {-400.0 / (2.0 * std::numbers::pi * 4e-3)}, 1e-9, "coils in series");
    EXPECT_EQ(roots.infinitePoles, 1);
    EXPECT_TRUE(roots.zeros.empty());
    EXPECT_TRUE(roots.closed);
}

TEST(Poles, AGrowingCircuitHasItsPoleToTheRight) {
    // A capacitor beside 1 kohm and a conductance of -2 mS: s = +1 mS / C.
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-6);
    Part negative;
    negative.id = "G1";
    negative.reference = "G1";
    negative.kind = PartKind::voltageControlledCurrent;
    negative.nets = {"out", "0", "out", "0"};
    negative.value = -2e-3;
    circuit.circuit().parts.push_back(negative);
    expectRoots(rootsOf(circuit).poles, {1e-3 / 1e-6 / (2.0 * std::numbers::pi)}, 1e-9, "growing");
}

TEST(Poles, WithoutChargesThereAreNone) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    const PolesAndZeros roots = rootsOf(circuit);
    EXPECT_TRUE(roots.poles.empty());
    EXPECT_TRUE(roots.zeros.empty());
    EXPECT_NEAR(roots.gain, 0.5, 1e-12);
    EXPECT_TRUE(roots.closed);
}

TEST(Poles, TooManyChargesAreRefusedAndAStopIsHeard) {
    SmallCircuit circuit;
    std::string net = "in";
    for (int k = 0; k < 401; ++k) {
        const std::string next = k == 400 ? "out" : "n" + std::to_string(k);
        circuit.r("R" + std::to_string(k), net, next, 1e3).c("C" + std::to_string(k), next, "0", 1e-9);
        net = next;
    }
    const auto equations = Equations::compile(circuit, {});
    ASSERT_TRUE(equations);
    const auto bias = solveBias(*equations);
    ASSERT_TRUE(bias);
    const auto refused = findPolesAndZeros(*equations, *bias, equations->indexOfNet("out"));
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().message, testing::HasSubstr("401 charges"));

    SmallCircuit small;
    small.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-9);
    const auto few = Equations::compile(small, {});
    const auto fewBias = solveBias(*few);
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = findPolesAndZeros(*few, *fewBias, few->indexOfNet("out"), stop.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
}

}  // namespace
}  // namespace ohmwright
