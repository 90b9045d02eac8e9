// What the electrodes of an amplifying device meet, against values read off the circuits by hand.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/amplifier.h"

#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

/// A common-emitter stage: 10k from the source, 100u into a divider of 100k and 22k, collector 4k7 and, through 100u,
/// a load of 10k; emitter 1k.
test::SmallCircuit commonEmitter() {
    test::SmallCircuit circuit;
    circuit.v("VCC", "vcc", "0", 9.0)
        .r("RS", "in", "s", 10e3)
        .c("CIN", "s", "b", 100e-6)
        .r("R1", "vcc", "b", 100e3)
        .r("R2", "b", "0", 22e3)
        .q("Q1", "c", "b", "e", {{"IS", 1e-14}, {"BF", 200.0}})
        .r("RC", "vcc", "c", 4.7e3)
        .r("RE", "e", "0", 1e3)
        .c("COUT", "c", "out", 100e-6)
        .r("RL", "out", "0", 10e3);
    Stage stage;
    stage.name = "Gain stage";
    stage.input = "in";
    stage.output = "out";
    stage.parts = {"RS", "CIN", "R1", "R2", "Q1", "RC", "RE", "COUT", "RL"};
    circuit.circuit().stages = {stage};
    return circuit;
}

std::vector<Amplifier> amplifiersOf(const Circuit& circuit) {
    const auto solved = solveCircuit(circuit, {});
    if (!solved) {
        ADD_FAILURE() << solved.error().message;
        return {};
    }
    const auto found = findAmplifiers(circuit, {}, *solved);
    if (!found) {
        ADD_FAILURE() << found.error().message;
        return {};
    }
    return *found;
}

TEST(Amplifier, MeetsTheResistancesAroundIt) {
    const auto found = amplifiersOf(commonEmitter());
    ASSERT_EQ(found.size(), 1u);
    const Amplifier& one = found.front();
    EXPECT_EQ(one.device, "Q1");
    EXPECT_EQ(one.input, "in");
    EXPECT_EQ(one.output, "out");
    EXPECT_NEAR(one.ownLoadOhms.value(), 4.7e3, 1e-6);
    EXPECT_NEAR(one.loadOhms, 1.0 / (1.0 / 4.7e3 + 1.0 / 10e3), 1.0);
    EXPECT_NEAR(one.commonOhms, 1e3, 1e-3);
    EXPECT_NEAR(one.sourceOhms, 10e3, 10.0);
    EXPECT_NEAR(one.inputShuntOhms.value(), 1.0 / (1.0 / 100e3 + 1.0 / 22e3), 50.0);
    EXPECT_NEAR(one.outputAmperes / one.controlAmperes, 200.0, 0.5);
}

/// Without borders the device is looked at between base and collector, and nothing stands in front.
TEST(Amplifier, WithoutAStageStandsBetweenItsOwnElectrodes) {
    test::SmallCircuit circuit = commonEmitter();
    circuit.circuit().stages.clear();
    const auto found = amplifiersOf(circuit);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found.front().input, "b");
    EXPECT_EQ(found.front().output, "c");
    EXPECT_EQ(found.front().sourceOhms, 0.0);
}

TEST(Amplifier, AFollowerIsNone) {
    test::SmallCircuit circuit;
    circuit.v("VCC", "vcc", "0", 9.0)
        .c("CIN", "in", "b", 1e-6)
        .r("R1", "vcc", "b", 100e3)
        .r("R2", "b", "0", 100e3)
        .q("Q1", "vcc", "b", "out", {{"IS", 1e-14}, {"BF", 200.0}})
        .r("RE", "out", "0", 10e3);
    EXPECT_TRUE(amplifiersOf(circuit).empty());
}

TEST(Amplifier, BypassIsFoundByWhatItDoes) {
    test::SmallCircuit circuit = commonEmitter();
    const auto bypass = [&] {
        const Circuit& whole = circuit;
        return findBypassedResistance(whole, *findPart(whole, "Q1"));
    };
    EXPECT_FALSE(bypass());
    circuit.c("CE", "e", "x", 10e-6).r("RX", "x", "0", 150.0);
    ASSERT_TRUE(bypass());
    EXPECT_EQ(bypass()->seriesOhms, 150.0);
    EXPECT_NEAR(bypass()->ohms, 1e3, 1e-9);
    EXPECT_EQ(bypass()->farads, 10e-6);
    EXPECT_EQ(bypass()->capacitors, std::vector<PartId>{"CE"});
    // Something else at the joint, or a second way through a resistor: no shelf that two numbers describe.
    circuit.c("CX", "x", "0", 1e-6);
    EXPECT_FALSE(bypass());
}

/// A part tried across the capacitor adds to it.
TEST(Amplifier, TwoCapacitorsAcrossTheResistanceAddUp) {
    test::SmallCircuit circuit = commonEmitter();
    circuit.c("CE", "e", "0", 10e-6).c("CT", "0", "e", 4.7e-6);
    const Circuit& whole = circuit;
    const auto bypass = findBypassedResistance(whole, *findPart(whole, "Q1"));
    ASSERT_TRUE(bypass);
    EXPECT_NEAR(bypass->farads, 14.7e-6, 1e-12);
}

}  // namespace
}  // namespace ohmwright
