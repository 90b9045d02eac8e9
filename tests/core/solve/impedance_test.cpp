// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/impedance.h"

#include "core/devices/constants.h"
#include "tests/support/rest.h"
#include "tests/support/small_circuits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;
using Complex = std::complex<double>;

Complex inputOf(const Circuit& circuit, double hertz) {
    const auto rest = test::restOf(circuit);
    if (!rest) {
        return 0.0;
    }
    const std::vector<double> at{hertz};
    const auto impedance = inputImpedance(rest->equations, rest->bias, at);
    if (!impedance) {
        ADD_FAILURE() << impedance.error().message;
        return 0.0;
    }
    return impedance->front();
}

Complex nodeOf(const Circuit& circuit, const NetName& net, double hertz) {
    const auto rest = test::restOf(circuit);
    if (!rest) {
        return 0.0;
    }
    const std::vector<double> at{hertz};
    const auto impedance = nodeImpedance(rest->equations, rest->bias, rest->equations.indexOfNet(net), at);
    if (!impedance) {
        ADD_FAILURE() << impedance.error().message;
        return 0.0;
    }
    return impedance->front();
}

void addTransconductance(SmallCircuit& circuit, const std::string& id, std::vector<NetName> nets, double siemens) {
    Part part;
    part.id = id;
    part.reference = id;
    part.kind = PartKind::voltageControlledCurrent;
    part.nets = std::move(nets);
    part.value = siemens;
    circuit.circuit().parts.push_back(part);
}

TEST(Impedance, SeriesAndParallelPartsAreWhatTheyAre) {
    // 1 kohm + 1 uF at 159.155 Hz: 1000 - j 1000; from the node, with the source silent, 1 kohm beside the capacitor.
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-6);
    const double hertz = 1e3 / (2.0 * std::numbers::pi);
    EXPECT_NEAR(std::abs(inputOf(circuit, hertz) - Complex(1e3, -1e3)), 0.0, 1e-9);
    EXPECT_NEAR(std::abs(nodeOf(circuit, "out", hertz) - Complex(500.0, -500.0)), 0.0, 1e-9);
    EXPECT_NEAR(std::abs(nodeOf(circuit, "in", hertz)), 0.0, 1e-12);
}

TEST(Impedance, ASourceOfCurrentSeesTheSameAsOneOfVoltage) {
    SmallCircuit voltage;
    voltage.r("R1", "in", "out", 470.0).l("L1", "out", "0", 0.1).c("C1", "in", "0", 22e-9).r("R2", "in", "0", 10e3);
    SmallCircuit current;
    current.circuit().parts.clear();
    current.i("VIN", "0", "in", 0.0);
    current.r("R1", "in", "out", 470.0).l("L1", "out", "0", 0.1).c("C1", "in", "0", 22e-9).r("R2", "in", "0", 10e3);
    for (const double hertz : {10.0, 1e3, 3393.0, 1e5}) {
        const Complex expected = inputOf(voltage, hertz);
        EXPECT_NEAR(std::abs(inputOf(current, hertz) - expected), 0.0, 1e-10 * std::abs(expected));
        // The other way round it drives out of the same two ends.
        SmallCircuit turned;
        turned.circuit().parts = current.circuit().parts;
        std::swap(turned.circuit().parts[0].nets[0], turned.circuit().parts[0].nets[1]);
        EXPECT_NEAR(std::abs(inputOf(turned, hertz) - expected), 0.0, 1e-10 * std::abs(expected));
    }
}

TEST(Impedance, EmitterFollowerIsTheWorkedExample) {
    // 1 mA, beta 200, RE 4.7k, Rs 10k, 27 °C: Zin 949 873 ohm, Zout 74.29424 ohm; closed forms rpi + (beta + 1) RE and
    // RE || (rpi + Rs)/(beta + 1).
    const double collector = 1e-3;
    const double saturation = 1e-14;
    const double base = collector / 200.0;
    SmallCircuit circuit(4.7e3 * (collector + base) + thermalVolts(300.15) * std::log(collector / saturation) +
                         10e3 * base);
    circuit.v("VCC", "vcc", "0", 15.0)
        .r("RS", "in", "b", 10e3)
        .q("Q1", "vcc", "b", "out", {{"IS", saturation}, {"BF", 200.0}})
        .r("RE", "out", "0", 4.7e3);
    EXPECT_NEAR(inputOf(circuit, 100.0).real() - 10e3, 949873.0, 2.0);
    EXPECT_NEAR(nodeOf(circuit, "out", 100.0).real(), 74.29424, 2e-5);
}

TEST(Impedance, CommonSourceStageHasItsRaisedOutput) {
    // gm 3 mS, ro 50k, RS 1k: ro + RS (1 + gm ro) = 201 kohm into the drain.
    SmallCircuit circuit;
    addTransconductance(circuit, "G1", {"out", "s", "in", "s"}, 3e-3);
    circuit.r("RO", "out", "s", 50e3).r("RS", "s", "0", 1e3).r("RX", "in", "0", 1e6).r("RD", "out", "0", 1e12);
    EXPECT_NEAR(nodeOf(circuit, "out", 100.0).real(), 201e3, 0.1);
}

TEST(Impedance, TriodeStageIsTheWorkedExample) {
    // mu 100, ra 62.5k, Ra 100k, Rk 1.5k: Zout 38.4615k bypassed, 68.1529k not; cathode follower Rk 100k: 615.006 ohm.
    const auto stage = [](const std::string& cathode) {
        SmallCircuit circuit;
        addTransconductance(circuit, "G1", {"out", cathode, "in", cathode}, 100.0 / 62.5e3);
        circuit.r("RA", "out", cathode, 62.5e3).r("RL", "out", "0", 100e3).r("RX", "in", "0", 1e6);
        if (cathode != "0") {
            circuit.r("RK", cathode, "0", 1.5e3);
        }
        return circuit;
    };
    EXPECT_NEAR(nodeOf(stage("0"), "out", 100.0).real(), 38461.5, 0.05);
    EXPECT_NEAR(nodeOf(stage("k"), "out", 100.0).real(), 68152.9, 0.05);
    SmallCircuit follower;
    addTransconductance(follower, "G1", {"0", "out", "in", "out"}, 100.0 / 62.5e3);
    follower.r("RA", "0", "out", 62.5e3).r("RK", "out", "0", 100e3).r("RX", "in", "0", 1e6);
    EXPECT_NEAR(nodeOf(follower, "out", 100.0).real(), 615.006, 5e-4);
}

TEST(Impedance, WorkedExamplesOfTextbooks) {
    // Bell, Electronic Devices and Circuits, ex 6-12: hie 1.5k beside 68k and 56k: 1430.15 ohm. Kumar & Jain ex 6.8:
    // 25 ohm, beta 125, Rs 2k, RE 100: 28.225 kohm, from IC 0.2 mA and VT 25 mV.
    SmallCircuit parallel;
    parallel.r("R1", "in", "0", 68e3).r("R2", "in", "0", 56e3).r("HIE", "in", "0", 1.5e3).r("RX", "out", "0", 1e3);
    EXPECT_NEAR(inputOf(parallel, 100.0).real(), 1430.15, 0.01);
    const double base = 125.0 * 25e-3 / 0.2e-3;
    SmallCircuit stage;
    stage.r("RPI", "in", "e", base).r("RE", "e", "0", 100.0).r("RC", "out", "0", 5e3);
    addTransconductance(stage, "G1", {"out", "e", "in", "e"}, 125.0 / base);
    EXPECT_NEAR(inputOf(stage, 100.0).real(), 28225.0, 0.5);
}

TEST(Impedance, ManyFrequenciesComeInTheirOrder) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-6);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const std::vector<double> hertz{5000.0, 1.0, 20.0, 300.0, 7.0, 2e5, 11.0};
    const auto impedance = inputImpedance(*equations, *bias, hertz);
    ASSERT_TRUE(impedance);
    ASSERT_EQ(impedance->size(), hertz.size());
    for (std::size_t k = 0; k < hertz.size(); ++k) {
        const double reactance = -1.0 / (2.0 * std::numbers::pi * hertz[k] * 1e-6);
        EXPECT_NEAR((*impedance)[k].real(), 1e3, 1e-6);
        EXPECT_NEAR((*impedance)[k].imag(), reactance, 1e-9 * std::abs(reactance));
    }
}

TEST(Impedance, WhatHasNoEndIsSaidSo) {
    SmallCircuit open;
    open.c("C1", "in", "out", 1e-6).r("R1", "out", "0", 1e3);
    auto equations = Equations::compile(open, {});
    auto bias = solveBias(*equations);
    const std::vector<double> zero{0.0};
    const auto endless = inputImpedance(*equations, *bias, zero);
    ASSERT_FALSE(endless);
    EXPECT_EQ(endless.error().code, ErrorCode::unsolvable);
    EXPECT_THAT(endless.error().message, testing::HasSubstr("drives no current"));

    open.circuit().ports.source.clear();
    equations = Equations::compile(open, {});
    bias = solveBias(*equations);
    const auto nothing = inputImpedance(*equations, *bias, zero);
    ASSERT_FALSE(nothing);
    EXPECT_THAT(nothing.error().message, testing::HasSubstr("no input"));
    const std::vector<double> bad{-1.0};
    const auto negative = nodeImpedance(*equations, *bias, 0, bad);
    ASSERT_FALSE(negative);
    EXPECT_EQ(negative.error().code, ErrorCode::invalidInput);
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = nodeImpedance(*equations, *bias, 0, zero, stop.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
}

}  // namespace
}  // namespace ohmwright
