// Subcircuits and their parameters. No outside source: each value is the file's own arithmetic.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "netlist_text.h"

#include <gmock/gmock.h>

namespace ohmwright {
namespace {

TEST(NetlistSubcircuits, ACallPutsItsPartsInItsPlace) {
    const Netlist netlist = sound(
        "R1 in 0 1k\nX1 in Out Div\nR9 out 0 1\n.subckt DIV a b\nRtop a mid 1k\nRbot mid b 2k\nRg mid 0 3k\nRh GND b "
        "4\n"
        ".ends\n");
    ASSERT_EQ(netlist.circuit.parts.size(), 6u);
    EXPECT_EQ(netlist.circuit.parts[0].id, "R1");
    EXPECT_EQ(netlist.circuit.parts[1].id, "X1.Rtop");
    EXPECT_EQ(netlist.circuit.parts[1].reference, "X1.Rtop");
    EXPECT_EQ(netlist.circuit.parts[1].call, "X1");
    EXPECT_EQ(netlist.circuit.parts[1].nets, (std::vector<NetName>{"in", "X1.mid"}));
    EXPECT_EQ(netlist.circuit.parts[2].nets, (std::vector<NetName>{"X1.mid", "Out"}));
    EXPECT_EQ(netlist.circuit.parts[3].nets, (std::vector<NetName>{"X1.mid", "0"}));
    EXPECT_EQ(netlist.circuit.parts[4].nets, (std::vector<NetName>{"0", "Out"}));
    EXPECT_EQ(netlist.circuit.parts[5].id, "R9");
    EXPECT_THAT(netlist.topNets, testing::ElementsAre("in", "Out"));
    ASSERT_EQ(netlist.calls.size(), 1u);
    EXPECT_EQ(netlist.calls[0].name, "X1");
    EXPECT_EQ(netlist.calls[0].subcircuit, "DIV");
    EXPECT_THAT(netlist.calls[0].nets, testing::ElementsAre("in", "Out"));
    EXPECT_THAT(netlist.calls[0].pins, testing::ElementsAre("a", "b"));
}

TEST(NetlistSubcircuits, ParametersOfTheCallGoBeforeDefaults) {
    const Netlist netlist = sound(
        ".param base=100\nX1 a 0 S r=2k\nX2 a 0 S params: R={base*3} c='base*1n'\nX3 a 0 S r=base\nX4 a 0 S\n"
        ".subckt S p q PARAMS: r={base} c=1n\nR1 p q {r+inner}\nC1 p q {c}\n.param inner={r/2}\n.ends S\n");
    EXPECT_DOUBLE_EQ(partOf(netlist, "X1.R1").value, 3000.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X2.R1").value, 450.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X2.C1").value, 100e-9);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X3.R1").value, 150.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X4.R1").value, 150.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X4.C1").value, 1e-9);
}

TEST(NetlistSubcircuits, InnerParametersHideOuterOnes) {
    const Netlist netlist = sound(
        ".param r=1\nX1 a 0 S\nR1 a 0 {r}\n.subckt S p q\n.param r=5\nR1 p q {r}\nX2 p q T\n.ends\n"
        ".subckt T p q\nR1 p q {r}\n.ends\n");
    EXPECT_DOUBLE_EQ(partOf(netlist, "R1").value, 1.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X1.R1").value, 5.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X1.X2.R1").value, 1.0);  // T stands beside S, not in it.
}

TEST(NetlistSubcircuits, DefinitionsInDefinitionsSeeWhatIsAroundThem) {
    const Netlist netlist = sound(
        "X1 a 0 OUTER k=3\n.subckt OUTER p q k=1\n.subckt INNER p q\nR1 p q {10*k}\nR2 p m 1\nR3 m q 1\n.ends INNER\n"
        "X9 p q INNER\nX8 p q THIRD\n.subckt THIRD p q\nX7 p q INNER\n.ends\n.ends OUTER\nR0 a 0 1\n");
    EXPECT_DOUBLE_EQ(partOf(netlist, "X1.X9.R1").value, 30.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "X1.X8.X7.R1").value, 30.0);
    EXPECT_EQ(partOf(netlist, "X1.X8.X7.R2").nets, (std::vector<NetName>{"a", "X1.X8.X7.m"}));
    EXPECT_EQ(partOf(netlist, "X1.X8.X7.R2").call, "X1.X8.X7");
}

TEST(NetlistSubcircuits, ModelsOfABodyGoBeforeThoseOfTheFile) {
    const Netlist netlist = sound(
        "D1 a 0 DX\nX1 a 0 S n=2\nX2 a 0 S n=3\nX3 a 0 T\nX4 a 0 T\n.model DX D(N=1)\n"
        ".subckt S p q n=1\nD1 p q dx\n.model DX D(N={n})\n.ends\n"
        ".subckt T p q\nD1 p q DX\n.model dx D(N=4)\n.ends\n");
    EXPECT_EQ(partOf(netlist, "D1").model, "DX");
    EXPECT_DOUBLE_EQ(modelOf(netlist, "DX").parameters.at("N"), 1.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, partOf(netlist, "X1.D1").model).parameters.at("N"), 2.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, partOf(netlist, "X2.D1").model).parameters.at("N"), 3.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, partOf(netlist, "X3.D1").model).parameters.at("N"), 4.0);
    EXPECT_EQ(partOf(netlist, "X3.D1").model, partOf(netlist, "X4.D1").model);
    EXPECT_EQ(netlist.circuit.models.size(), 4u);
}

TEST(NetlistSubcircuits, SensedSourcesAndCouplingsStayInTheirCall) {
    const Netlist netlist = sound(
        "V1 a 0 1\nL1 a 0 1\nL2 b 0 1\nR1 b 0 1\nX1 a 0 S\n.subckt S p q\nV1 p m 0\nR1 m q 1\nF1 p q v1 2\n"
        "L1 p m 1\nL2 m q 1\nK1 L1 L2 0.5\nB1 p q I=i(V1)*v(m)\n.ends\n");
    EXPECT_THAT(partOf(netlist, "X1.F1").controls, testing::ElementsAre("X1.V1"));
    EXPECT_THAT(partOf(netlist, "X1.K1").controls, testing::ElementsAre("X1.L1", "X1.L2"));
    EXPECT_EQ(partOf(netlist, "X1.B1").law, "i(X1.V1)*v(X1.m)");
}

TEST(NetlistSubcircuits, GlobalNetsAreOneEverywhere) {
    const Netlist netlist = sound(".global VCC\nV1 vcc 0 9\nX1 a S\nR1 a 0 1\n.subckt S p\nR1 Vcc p 1k\n.ends\n");
    EXPECT_EQ(partOf(netlist, "X1.R1").nets, (std::vector<NetName>{"vcc", "a"}));
}

TEST(NetlistSubcircuits, ValvesOfTheProgramAreParts) {
    const Netlist netlist = sound(
        "XV1 a g k KOREN_TRIODE MU=100 EX=1.4 KG1=1060 KP=600 KVB=300 RGI=2k CCG=1.6p CGP=1.6p\n"
        "XV2 a s g k koren_pentode params: MU=11 KG2={4*1000}\nR1 a s 1\nR2 g k 1\n");
    const Part triode = partOf(netlist, "XV1");
    EXPECT_EQ(triode.kind, PartKind::triode);
    EXPECT_EQ(triode.nets, (std::vector<NetName>{"a", "g", "k"}));
    const Model model = modelOf(netlist, triode.model);
    EXPECT_EQ(model.kind, PartKind::triode);
    EXPECT_DOUBLE_EQ(model.parameters.at("RGI"), 2000.0);
    EXPECT_DOUBLE_EQ(model.parameters.at("CGP"), 1.6e-12);
    EXPECT_EQ(model.parameters.size(), 8u);
    EXPECT_EQ(partOf(netlist, "XV2").kind, PartKind::pentode);
    EXPECT_DOUBLE_EQ(modelOf(netlist, partOf(netlist, "XV2").model).parameters.at("KG2"), 4000.0);
    EXPECT_TRUE(netlist.calls.empty());
}

TEST(NetlistSubcircuits, ASubcircuitOfAValvesNameGoesBeforeTheLaw) {
    const Netlist netlist = sound("X1 a g 0 KOREN_TRIODE MU=5\n.subckt KOREN_TRIODE a g k MU=1\nR1 a k {MU}\n.ends\n");
    EXPECT_DOUBLE_EQ(partOf(netlist, "X1.R1").value, 5.0);
    EXPECT_EQ(netlist.calls.size(), 1u);
}

TEST(NetlistSubcircuits, WhatNothingCallsIsOnlyANote) {
    const Netlist netlist = sound("R1 a 0 1\n.subckt S p q\nR1 p q 1\nS1 p q foo\n.ends\n");
    EXPECT_TRUE(hasNote(netlist, 5, "nothing calls")) << notesOf(netlist);
    EXPECT_TRUE(sound("R1 a 0 1\nR2 a 0 1\n.subckt S p q\nR1 p q 1\n.ends\n").notes.empty());
}

TEST(NetlistSubcircuits, NoTreeOfCallsGrowsWithoutEnd) {
    // Fifty definitions, each calling the next twice: 2^50 parts.
    std::string text = "X1 a 0 S1\n";
    for (int index = 1; index < 50; ++index) {
        const std::string next = "S" + std::to_string(index + 1);
        text += ".subckt S" + std::to_string(index) + " p q\nXA p q " + next + "\nXB p q " + next + "\n.ends\n";
    }
    text += ".subckt S50 p q\nR1 p q 1\n.ends\n";
    EXPECT_THAT(faultOf(text), testing::HasSubstr("200,000 parts"));
    // A chain of sixty: more than 50 deep.
    std::string chain = "X1 a 0 S1\n";
    for (int index = 1; index < 60; ++index) {
        chain += ".subckt S" + std::to_string(index) + " p q\nXA p q S" + std::to_string(index + 1) + "\n.ends\n";
    }
    chain += ".subckt S60 p q\nR1 p q 1\n.ends\n";
    EXPECT_THAT(faultOf(chain), testing::HasSubstr("50 deep"));
    // Definitions in definitions, a thousand deep.
    std::string nested = "R1 a 0 1\n";
    for (int index = 0; index < 1000; ++index) {
        nested += ".subckt S" + std::to_string(index) + " p q\n";
    }
    EXPECT_THAT(faultOf(nested), testing::HasSubstr("50 deep"));
}

}  // namespace
}  // namespace ohmwright
