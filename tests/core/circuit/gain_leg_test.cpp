// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/gain_leg.h"

#include "tests/core/circuit/circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>

// Corners: the figures of the demo Harbour Lamp (own solver, checked against an independent circuit simulator),
// elsewhere 1/(2 pi R C) worked by hand with the values written beside the check.
namespace ohmwright {
namespace {

using Ids = std::vector<PartId>;

GainLeg legOf(const Circuit& circuit, const PotOhms& potOhms = {}) {
    const std::optional<GainLeg> leg = findGainLeg(circuit, "o1", potOhms);
    EXPECT_TRUE(leg.has_value()) << "no gain leg was found";
    return leg.value_or(GainLeg{});
}

TEST(GainLeg, TheDemosStockLegHasItsTag) {
    const GainLeg leg = legOf(clipStage());
    EXPECT_NEAR(leg.cornerHz(), 728.731, 0.01);
    EXPECT_EQ(leg.opamp, "id-U1");
    EXPECT_EQ(leg.ohms, 3.9e3);
    EXPECT_NEAR(leg.farads, 56e-9, 1e-18);
    EXPECT_EQ(leg.resistors, Ids{"id-R5"});
    EXPECT_EQ(leg.capacitors, Ids{"id-C4"});
}

TEST(GainLeg, TheDemosModsMoveTheTag) {
    Circuit circuit = clipStage();
    partOf(circuit, "C4").value = 120e-9;
    EXPECT_NEAR(legOf(circuit).cornerHz(), 340.075, 0.01);
    partOf(circuit, "R5").value = 2.7e3;
    EXPECT_NEAR(legOf(circuit).cornerHz(), 491.219, 0.01);
    partOf(circuit, "C4").value = 56e-9;
    EXPECT_NEAR(legOf(circuit).cornerHz(), 1052.61, 0.01);
}

TEST(GainLeg, APartAcrossTheCapacitorCounts) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(capacitor("C44", "leg", "im", 68e-9));
    const GainLeg leg = legOf(circuit);
    EXPECT_NEAR(leg.farads, 124e-9, 1e-15);
    EXPECT_NEAR(leg.cornerHz(), 329.105, 0.01);  // 3k9, 124n
    EXPECT_EQ(leg.capacitors, (Ids{"id-C4", "id-C44"}));
}

TEST(GainLeg, APartAcrossTheResistorCounts) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(resistor("R55", "0", "leg", 9.1e3));
    const GainLeg leg = legOf(circuit);
    EXPECT_NEAR(leg.ohms, 2730.0, 1e-6);  // 3k9 and 9k1 across each other
    EXPECT_EQ(leg.resistors, (Ids{"id-R5", "id-R55"}));
}

TEST(GainLeg, APartInSeriesCountsOnEitherSideOfTheCapacitor) {
    Circuit below = clipStage();
    partOf(below, "R5").nets = {"leg", "joint"};
    below.parts.push_back(resistor("R55", "joint", "0", 820.0));
    EXPECT_NEAR(legOf(below).ohms, 4720.0, 1e-9);

    Circuit above = clipStage();
    partOf(above, "C4").nets = {"joint", "leg"};
    above.parts.push_back(resistor("R55", "im", "joint", 820.0));
    EXPECT_NEAR(legOf(above).ohms, 4720.0, 1e-9);
    EXPECT_NEAR(legOf(above).cornerHz(), 602.13, 0.01);  // 4k72, 56n
}

TEST(GainLeg, CapacitorsInSeriesCount) {
    Circuit circuit = clipStage();
    partOf(circuit, "R5").nets = {"leg", "joint"};
    circuit.parts.push_back(capacitor("C44", "joint", "0", 56e-9));
    EXPECT_NEAR(legOf(circuit).farads, 28e-9, 1e-16);
}

TEST(GainLeg, TheCapacitorMayStandAtTheGroundEnd) {
    Circuit circuit = clipStage();
    partOf(circuit, "R5").nets = {"im", "leg"};
    partOf(circuit, "C4").nets = {"leg", "0"};
    EXPECT_NEAR(legOf(circuit).cornerHz(), 728.731, 0.01);
}

TEST(GainLeg, NamesAndOrderDoNotMatter) {
    Circuit circuit = clipStage();
    for (Part& part : circuit.parts) {
        part.reference = "X";
        part.function.clear();
        part.role.clear();
        if (part.kind != PartKind::opamp) {
            std::reverse(part.nets.begin(), part.nets.end());
        }
    }
    std::reverse(circuit.parts.begin(), circuit.parts.end());
    EXPECT_NEAR(legOf(circuit).cornerHz(), 728.731, 0.01);
}

TEST(GainLeg, ALinkInTheLegIsAWire) {
    Circuit circuit = clipStage();
    partOf(circuit, "R5").nets = {"leg2", "0"};
    circuit.parts.push_back(wire("W1", "leg", "leg2"));
    EXPECT_NEAR(legOf(circuit).cornerHz(), 728.731, 0.01);
}

TEST(GainLeg, APotInTheLegCountsWithItsHalves) {
    Circuit circuit = clipStage();
    partOf(circuit, "R5").nets = {"leg", "gd"};
    circuit.parts.push_back(pot("VR3", {"gd", "0", "0"}, 10e3));
    EXPECT_NEAR(legOf(circuit).ohms, 8.9e3, 1e-6) << "at half travel where no position is given";
    EXPECT_NEAR(legOf(circuit, {{"id-VR3", 7e3}}).ohms, 6.9e3, 1e-6);
}

TEST(GainLeg, AnotherOpampMayListenInsideTheLeg) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(withModel(PartKind::opamp, "U2", {"leg", "o2", "o2", "vcc", "0"}, "TL072"));
    EXPECT_NEAR(legOf(circuit).cornerHz(), 728.731, 0.01);
}

TEST(GainLeg, WhatHangsOnByOneEndDoesNotCount) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(capacitor("C90", "leg", "nowhere", 1e-6));
    EXPECT_NEAR(legOf(circuit).cornerHz(), 728.731, 0.01);
}

TEST(GainLeg, FeedbackIsNoPartOfIt) {
    Circuit circuit = clipStage();
    // A feedback that is no single branch: it lies between output and inverting pin only.
    circuit.parts.push_back(resistor("R60", "rf", "t", 1e3));
    circuit.parts.push_back(capacitor("C60", "t", "im", 1e-9));
    circuit.parts.push_back(resistor("R61", "t", "o1", 1e3));
    EXPECT_NEAR(legOf(circuit).cornerHz(), 728.731, 0.01);
}

struct NoLeg {
    const char* why;
    void (*change)(Circuit&);
};

void PrintTo(const NoLeg& row, std::ostream* stream) {  // NOLINT(readability-identifier-naming): GoogleTest's name
    *stream << row.why;
}

class CircuitWithoutGainLeg : public testing::TestWithParam<NoLeg> {};

TEST_P(CircuitWithoutGainLeg, HasNoTag) {
    Circuit circuit = clipStage();
    GetParam().change(circuit);
    EXPECT_EQ(findGainLeg(circuit, "o1"), std::nullopt) << GetParam().why;
}

INSTANTIATE_TEST_SUITE_P(
    GainLeg, CircuitWithoutGainLeg,
    testing::Values(
        NoLeg{"lifted capacitor", [](Circuit& c) { partOf(c, "C4").nets[0] = "open"; }},
        NoLeg{"no parts from the inverting pin to ground",
              [](Circuit& c) { std::erase_if(c.parts, [](const Part& p) { return p.reference == "R5"; }); }},
        NoLeg{"capacitor bridged: pure resistance", [](Circuit& c) { c.parts.push_back(wire("W1", "im", "leg")); }},
        NoLeg{"resistor bridged: pure capacitance", [](Circuit& c) { c.parts.push_back(wire("W1", "0", "leg")); }},
        NoLeg{"a resistor across the capacitor",
              [](Circuit& c) { c.parts.push_back(resistor("R90", "im", "leg", 1e6)); }},
        NoLeg{"two legs", [](Circuit& c) { c.parts.push_back(capacitor("C90", "im", "0", 1e-12)); }},
        NoLeg{"a resistor from inside the leg to the supply",
              [](Circuit& c) { c.parts.push_back(resistor("R90", "leg", "vcc", 1e5)); }},
        NoLeg{"a diode inside the leg",
              [](Circuit& c) {
                  c.parts.push_back(withModel(PartKind::diode, "D9", {"leg", "0"}, "1N4148"));
              }},
        NoLeg{"a follower", [](Circuit& c) { partOf(c, "U1").nets[1] = "o1"; }},
        NoLeg{"the inverting pin on ground", [](Circuit& c) { partOf(c, "U1").nets[1] = "0"; }},
        NoLeg{"no op-amp",
              [](Circuit& c) { std::erase_if(c.parts, [](const Part& p) { return p.kind == PartKind::opamp; }); }}));

TEST(GainLeg, ANetThatNoOpampDrivesHasNone) {
    EXPECT_EQ(findGainLeg(clipStage(), "lp"), std::nullopt);
    EXPECT_EQ(findGainLeg(clipStage(), ""), std::nullopt);
    EXPECT_EQ(findGainLeg(Circuit{}, "o1"), std::nullopt);
}

TEST(GainLeg, AVeryLargeNetworkIsNoLeg) {
    Circuit circuit = clipStage();
    for (int i = 0; i < 2000; ++i) {
        const std::string here = "n" + std::to_string(i);
        circuit.parts.push_back(
            resistor("RX" + std::to_string(i), i == 0 ? "im" : "n" + std::to_string(i - 1), here, 1.0));
        circuit.parts.push_back(capacitor("CX" + std::to_string(i), here, "0", 1e-9));
    }
    EXPECT_EQ(findGainLeg(circuit, "o1"), std::nullopt);
}

TEST(FeedbackResistance, FixedPartAndDrivePotAreTakenTogether) {
    // Drive 5: 37k5 of 250k left in circuit, with 33k (demo Harbour Lamp).
    const auto path = findFeedbackResistance(clipStage(), "id-U1", {{"id-VR1", 250e3 - 37.5e3}});
    ASSERT_TRUE(path);
    EXPECT_NEAR(path->ohms, 70.5e3, 1e-6);
    EXPECT_EQ(path->parts, (Ids{"id-R6", "id-VR1"}));
}

TEST(FeedbackResistance, AWiperOnTheTopLeavesTheOhmsBelowIt) {
    Circuit circuit = clipStage();
    partOf(circuit, "VR1").nets = {"o1", "o1", "rf"};
    const auto path = findFeedbackResistance(circuit, "id-U1", {{"id-VR1", 37.5e3}});
    ASSERT_TRUE(path);
    EXPECT_NEAR(path->ohms, 70.5e3, 1e-6);
}

TEST(FeedbackResistance, APotThatIsNotNamedStandsAtHalfTravel) {
    const auto path = findFeedbackResistance(clipStage(), "id-U1", {});
    ASSERT_TRUE(path);
    EXPECT_NEAR(path->ohms, 33e3 + 37.5e3, 1e-6);  // 15 % of 250k between wiper and top of a reverse log pot
}

TEST(FeedbackResistance, ResistorsAcrossEachOtherAreOne) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(resistor("R66", "im", "o1", 70.5e3));
    const auto path = findFeedbackResistance(circuit, "id-U1", {{"id-VR1", 212.5e3}});
    ASSERT_TRUE(path);
    EXPECT_NEAR(path->ohms, 35.25e3, 1e-6);
}

TEST(FeedbackResistance, CapacitorsAndDiodesInsideThePathDoNotHideIt) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(capacitor("C66", "rf", "0", 1e-9));
    circuit.parts.push_back(withModel(PartKind::diode, "D9", {"rf", "o1"}, "1N4148"));
    EXPECT_TRUE(findFeedbackResistance(circuit, "id-U1", {}));
}

TEST(FeedbackResistance, AResistorFromInsideThePathToGroundLeavesNoSingleFigure) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(resistor("R66", "rf", "x", 1e3));
    circuit.parts.push_back(resistor("R67", "x", "0", 1e3));
    EXPECT_FALSE(findFeedbackResistance(circuit, "id-U1", {}));
}

TEST(FeedbackResistance, AnOpenPathHasNone) {
    Circuit circuit = clipStage();
    partOf(circuit, "R6").nets[0] = "open";
    EXPECT_FALSE(findFeedbackResistance(circuit, "id-U1", {}));
    EXPECT_FALSE(findFeedbackResistance(circuit, "id-R6", {})) << "no op-amp";
    EXPECT_FALSE(findFeedbackResistance(circuit, "id-U9", {})) << "no such part";
}

}  // namespace
}  // namespace ohmwright
