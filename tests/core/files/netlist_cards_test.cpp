// R C L K E G F H B cards. No outside source: each value is the file's own arithmetic.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "netlist_text.h"

#include "core/expression/expression.h"

#include <gmock/gmock.h>

namespace ohmwright {
namespace {

struct Valued {
    const char* card;
    double value;
};

TEST(NetlistCards, ValuesOfResistorsCapacitorsInductors) {
    constexpr Valued cards[] = {
        {"R1 a 0 4.7k", 4700.0},
        {"R1 a 0 1meg", 1e6},
        {"R1 a 0 1MEG", 1e6},
        {"R1 a 0 10", 10.0},
        {"R1 a 0 10ohm", 10.0},
        {"R1 a 0 2.2kOhm", 2200.0},
        {"r1 a 0 1e3", 1000.0},
        {"R1 a 0 R=1k", 1000.0},
        {"R1 a 0 R = 1k", 1000.0},
        {"R1 a 0 {2*3k}", 6000.0},
        {"R1 a 0 '2*3k'", 6000.0},
        {"R1 a 0 R={2*3k}", 6000.0},
        {"R1 a 0 1g", 1e9},
        {"R1 a 0 1t", 1e12},
        {"R1 a 0 1m", 1e-3},
        {"R1 a 0 1k m=2", 500.0},
        {"R1 a 0 1k tc1=0.001 tc2=0 temp=27", 1000.0},
        {"C1 a 0 100nF", 100e-9},
        {"C1 a 0 10u IC=5", 10e-6},
        {"C1 a 0 C=47p", 47e-12},
        {"C1 a 0 1n m=3", 3e-9},
        {"C1 a 0 5f", 5e-15},
        {"L1 a 0 2.8", 2.8},
        {"L1 a 0 L=10m ic=1", 10e-3},
    };
    for (const Valued& one : cards) {
        const Netlist netlist = sound(std::string(one.card) + "\n");
        ASSERT_EQ(netlist.circuit.parts.size(), 1u) << one.card;
        EXPECT_DOUBLE_EQ(netlist.circuit.parts[0].value, one.value) << one.card;
        EXPECT_EQ(netlist.circuit.parts[0].nets, (std::vector<NetName>{"a", "0"})) << one.card;
    }
}

TEST(NetlistCards, KindsByTheirLetter) {
    const Netlist netlist = sound("r1 a 0 1\nc1 a 0 1n\nl1 a 0 1m\nv1 a 0 1\ni1 a 0 1\n");
    EXPECT_EQ(partOf(netlist, "r1").kind, PartKind::resistor);
    EXPECT_EQ(partOf(netlist, "c1").kind, PartKind::capacitor);
    EXPECT_EQ(partOf(netlist, "l1").kind, PartKind::inductor);
    EXPECT_EQ(partOf(netlist, "v1").kind, PartKind::voltageSource);
    EXPECT_EQ(partOf(netlist, "i1").kind, PartKind::currentSource);
}

TEST(NetlistCards, WhatIsReadOtherwiseThanMeantIsSaid) {
    EXPECT_TRUE(hasNote(sound("R1 a 0 1M\n"), 2, "milli"));
    EXPECT_FALSE(hasNote(sound("R1 a 0 1m\n"), 2, "milli"));
    EXPECT_FALSE(hasNote(sound("R1 a 0 1Meg\n"), 2, "milli"));
    EXPECT_TRUE(hasNote(sound("R1 a 0 {2*1M}\n"), 2, "milli"));
    EXPECT_TRUE(hasNote(sound("C1 a 0 1F\n"), 2, "femto"));
    EXPECT_TRUE(hasNote(sound("R1 a 0 1k tc1=1m\n"), 2, "tc1"));
    EXPECT_TRUE(hasNote(sound("C1 a 0 1n ic=2\n"), 2, "IC"));
    EXPECT_TRUE(hasNote(sound("R1 a 0 1k\nR2 b 0 1k\nR3 b 0 1k\n"), 2, "\"a\" is connected to one part only"));
}

TEST(NetlistCards, ZeroIsAWireOrNothingAndThatIsSaid) {
    const Netlist netlist = sound("R1 a b 0\nL1 b c 0\nC1 c 0 0\nR2 a 0 1k\nR3 c 0 {1-1}\n");
    EXPECT_EQ(partOf(netlist, "R1").kind, PartKind::link);
    EXPECT_EQ(partOf(netlist, "L1").kind, PartKind::link);
    EXPECT_EQ(partOf(netlist, "R3").kind, PartKind::link);
    EXPECT_EQ(findPart(netlist.circuit, "C1"), nullptr);
    EXPECT_TRUE(hasNote(netlist, 2, "wire"));
    EXPECT_TRUE(hasNote(netlist, 3, "wire"));
    EXPECT_TRUE(hasNote(netlist, 4, "left out"));
    EXPECT_THAT(netlist.topNets, testing::ElementsAre("a", "b", "c"));
}

TEST(NetlistCards, NamesKeepTheirFirstSpelling) {
    const Netlist netlist = sound("Rpu IN Out 1k\nr2 out in 2k\nR3 GND in 1\nR4 Gnd oUT 1\n");
    EXPECT_EQ(partOf(netlist, "Rpu").nets, (std::vector<NetName>{"IN", "Out"}));
    EXPECT_EQ(partOf(netlist, "r2").nets, (std::vector<NetName>{"Out", "IN"}));
    EXPECT_EQ(partOf(netlist, "R3").nets, (std::vector<NetName>{"0", "IN"}));
    EXPECT_EQ(partOf(netlist, "R4").nets, (std::vector<NetName>{"0", "Out"}));
    EXPECT_THAT(netlist.topNets, testing::ElementsAre("IN", "Out"));
}

TEST(NetlistCards, OddNetNamesAreNames) {
    const Netlist netlist = sound("R1 +9V n-1 1k\nR2 net@2 a/b 1k\nR3 x[1] y#2 1k\nR4 00 01 1\n");
    EXPECT_EQ(partOf(netlist, "R1").nets, (std::vector<NetName>{"+9V", "n-1"}));
    EXPECT_EQ(partOf(netlist, "R4").nets, (std::vector<NetName>{"00", "01"}));
}

TEST(NetlistCards, ControlledSources) {
    const Netlist netlist =
        sound("E1 a 0 b c -2k\nG1 a 0 (b, c) 1m\nF1 a 0 vs 3\nH1 b 0 VS {2*5}\nVs c 0 0\nR1 b c 1\n");
    const Part e = partOf(netlist, "E1");
    EXPECT_EQ(e.kind, PartKind::voltageControlledVoltage);
    EXPECT_EQ(e.nets, (std::vector<NetName>{"a", "0", "b", "c"}));
    EXPECT_DOUBLE_EQ(e.value, -2000.0);
    EXPECT_EQ(partOf(netlist, "G1").kind, PartKind::voltageControlledCurrent);
    EXPECT_DOUBLE_EQ(partOf(netlist, "G1").value, 1e-3);
    EXPECT_EQ(partOf(netlist, "F1").kind, PartKind::currentControlledCurrent);
    EXPECT_THAT(partOf(netlist, "F1").controls, testing::ElementsAre("Vs"));
    EXPECT_EQ(partOf(netlist, "H1").kind, PartKind::currentControlledVoltage);
    EXPECT_DOUBLE_EQ(partOf(netlist, "H1").value, 10.0);
    EXPECT_THAT(partOf(netlist, "H1").controls, testing::ElementsAre("Vs"));
}

TEST(NetlistCards, CouplingsOfTwoAndOfThree) {
    const Netlist netlist = sound("L1 a 0 1\nL2 b 0 1\nL3 c 0 4\nR1 a 0 1\nR2 b 0 1\nR3 c 0 1\nK1 L1 l2 L3 0.9\n");
    std::vector<const Part*> couplings;
    for (const Part& part : netlist.circuit.parts) {
        if (part.kind == PartKind::coupling) {
            couplings.push_back(&part);
        }
    }
    ASSERT_EQ(couplings.size(), 3u);
    EXPECT_EQ(couplings[0]->id, "K1");
    EXPECT_THAT(couplings[0]->controls, testing::ElementsAre("L1", "L2"));
    EXPECT_THAT(couplings[1]->controls, testing::ElementsAre("L1", "L3"));
    EXPECT_THAT(couplings[2]->controls, testing::ElementsAre("L2", "L3"));
    EXPECT_DOUBLE_EQ(couplings[2]->value, 0.9);
    EXPECT_EQ(faultOf("L1 a 0 1\nL2 b 0 1\nR1 a b 1\nK1 L1 L2 1\n"), "read");
    EXPECT_EQ(faultOf("L1 a 0 1\nL2 b 0 1\nR1 a b 1\nK1 L1 L2 -0.5\n"), "read");
    EXPECT_EQ(faultOf("L1 a 0 1\nL2 b 0 1\nL3 c 0 1\nK1 L1 L2 1\nK2 L2 L3 1\nK3 L1 L3 1\n"), "read");
    EXPECT_NE(faultOf("L1 a 0 1\nL2 b 0 1\nL3 c 0 1\nK1 L1 L2 1\nK2 L2 L3 1\nK3 L1 L3 0.9\n"), "read");
}

/// The law at the given values, in the order of its variables.
double lawAt(const Part& part, std::vector<double> values) {
    const Result<Expression> law = Expression::parse(part.law);
    EXPECT_TRUE(law.hasValue()) << part.law;
    EXPECT_EQ(law->variables().size(), values.size()) << part.law;
    return law->value(values);
}

TEST(NetlistCards, LawsOfBehaviouralSources) {
    const Netlist netlist = sound(
        ".param k=3\n"
        "B1 a 0 V=k*v(IN)+v(b,In)\n"
        "B2 b 0 I = {tanh(v(a) * 2)}\n"
        "B3 c 0 V='i(vS)*{k}**2'\n"
        "Vs in 0 1\nR1 a b 1\nR2 c 0 1\n");
    const Part first = partOf(netlist, "B1");
    EXPECT_EQ(first.kind, PartKind::behaviouralVoltage);
    EXPECT_DOUBLE_EQ(lawAt(first, {2.0, 5.0}), 11.0);
    const auto variables = Expression::parse(first.law)->variables();
    EXPECT_EQ(variables[0].first, "in");
    EXPECT_EQ(variables[1].first, "b");
    EXPECT_EQ(variables[1].second, "in");
    const Part second = partOf(netlist, "B2");
    EXPECT_EQ(second.kind, PartKind::behaviouralCurrent);
    EXPECT_DOUBLE_EQ(lawAt(second, {0.25}), 0.46211715726000975);  // tanh(0.5)
    EXPECT_DOUBLE_EQ(lawAt(partOf(netlist, "B3"), {2.0}), 18.0);
    EXPECT_EQ(Expression::parse(partOf(netlist, "B3").law)->variables()[0].first, "Vs");
}

TEST(NetlistCards, ALawMayReadANetInsideACall) {
    const Netlist netlist =
        sound("B1 a 0 V=2*v(x1.MID)\nR1 a 0 1\nX1 a 0 S\n.subckt S p q\nR1 p mid 1\nR2 mid q 1\n.ends\n");
    EXPECT_EQ(Expression::parse(partOf(netlist, "B1").law)->variables()[0].first, "X1.mid");
}

}  // namespace
}  // namespace ohmwright
