// D Q J M cards and .model. Parameter names after Nagel, UCB/ERL M520 (1975); values are the file's own.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "netlist_text.h"

#include <gmock/gmock.h>

namespace ohmwright {
namespace {

TEST(NetlistDevices, EachKindWithItsNetsAndModel) {
    const Netlist netlist = sound(
        "D1 a k 1N4148\nQ1 c b e 2n3904\nQ2 c b e QP\nJ1 d g s JN\nJ2 d g s JP\nM1 d g s b MN W=10u L=2u\n"
        "M2 d g s b MP\nR1 a 0 1\n"
        ".model 1n4148 D(IS=2.52n N=1.752)\n.model 2N3904 NPN(BF=416.4)\n.model QP PNP\n.model JN NJF(VTO=-1.8)\n"
        ".model JP PJF\n.model MN NMOS(KP=20u level=1)\n.model MP PMOS()\n");
    EXPECT_EQ(partOf(netlist, "D1").kind, PartKind::diode);
    EXPECT_EQ(partOf(netlist, "D1").model, "1n4148");
    EXPECT_EQ(partOf(netlist, "D1").nets, (std::vector<NetName>{"a", "k"}));
    EXPECT_EQ(partOf(netlist, "Q1").model, "2N3904");
    EXPECT_EQ(partOf(netlist, "Q1").nets, (std::vector<NetName>{"c", "b", "e"}));
    EXPECT_EQ(partOf(netlist, "J1").kind, PartKind::jfet);
    EXPECT_EQ(partOf(netlist, "M1").kind, PartKind::mosfet);
    EXPECT_EQ(partOf(netlist, "M1").nets.size(), 4u);
    EXPECT_DOUBLE_EQ(partOf(netlist, "M1").parameters.at("W"), 10e-6);
    EXPECT_DOUBLE_EQ(partOf(netlist, "M1").parameters.at("L"), 2e-6);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "1n4148").parameters.at("IS"), 2.52e-9);
    EXPECT_EQ(modelOf(netlist, "1n4148").parameters.count("POLARITY"), 0u);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "2N3904").parameters.at("POLARITY"), 1.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "QP").parameters.at("POLARITY"), -1.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "JN").parameters.at("POLARITY"), 1.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "JP").parameters.at("POLARITY"), -1.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "MN").parameters.at("POLARITY"), 1.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "MP").parameters.at("POLARITY"), -1.0);
    EXPECT_EQ(modelOf(netlist, "MN").parameters.count("LEVEL"), 0u);
}

TEST(NetlistDevices, WhatADeviceAddsToItsModel) {
    const Netlist netlist = sound(
        "D1 a 0 DX 2\nD2 a 0 DX area=3 m=4\nD3 a 0 DX OFF\nD4 a 0 DX {2+3} off ic=0.5\nQ1 a a 0 QX 2 off\n"
        ".model DX D\n.model QX NPN\n");
    EXPECT_DOUBLE_EQ(partOf(netlist, "D1").parameters.at("AREA"), 2.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "D2").parameters.at("AREA"), 3.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "D2").parameters.at("M"), 4.0);
    EXPECT_TRUE(partOf(netlist, "D3").parameters.empty());
    EXPECT_DOUBLE_EQ(partOf(netlist, "D4").parameters.at("AREA"), 5.0);
    EXPECT_TRUE(hasNote(netlist, 5, "IC"));
    EXPECT_DOUBLE_EQ(partOf(netlist, "Q1").parameters.at("AREA"), 2.0);
    EXPECT_TRUE(hasNote(sound("D1 a 0 DX temp=50\nR1 a 0 1\n.model DX D\n"), 2, "temperature of the run"));
}

TEST(NetlistDevices, FourNetsOfATransistorAreToldByItsModel) {
    const Netlist netlist =
        sound("Q1 c b e s QX\nQ2 c b e 0 QX 2\nQ3 c b e QX 2\nQ4 c b e QX off\nR1 s 0 1\n.model QX NPN\n");
    EXPECT_EQ(partOf(netlist, "Q1").nets, (std::vector<NetName>{"c", "b", "e"}));
    EXPECT_TRUE(hasNote(netlist, 2, "substrate"));
    EXPECT_FALSE(hasNote(netlist, 3, "substrate"));
    EXPECT_DOUBLE_EQ(partOf(netlist, "Q2").parameters.at("AREA"), 2.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "Q3").parameters.at("AREA"), 2.0);
    EXPECT_TRUE(partOf(netlist, "Q4").parameters.empty());
}

TEST(NetlistModels, FormsOfACard) {
    for (const char* card : {".model DX D(IS=2n N=2)", ".model DX D IS=2n N=2", ".model DX d ( is = 2n, n = 2 )",
                             ".MODEL dx D(IS=2n\n+ N=2)", ".model DX D(IS={1n*2} N='1+1')"}) {
        const Netlist netlist = sound("D1 a 0 DX\nR1 a 0 1\n" + std::string(card) + "\n");
        const Model model = modelOf(netlist, netlist.circuit.models.front().name);
        EXPECT_EQ(model.kind, PartKind::diode);
        EXPECT_DOUBLE_EQ(model.parameters.at("IS"), 2e-9) << card;
        EXPECT_DOUBLE_EQ(model.parameters.at("N"), 2.0) << card;
    }
}

TEST(NetlistModels, OlderNamesAndUnknownOnes) {
    const Netlist netlist = sound(
        "D1 a 0 DX\nQ1 a a 0 QX\nJ1 a 0 0 JX\n.model DX D(CJ0=4p MFG=maker Iave=200m)\n.model QX NPN(VA=50 IK=1 "
        "PTF=30)\n"
        ".model JX NJF(VT0=-2)\n");
    EXPECT_DOUBLE_EQ(modelOf(netlist, "DX").parameters.at("CJO"), 4e-12);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "QX").parameters.at("VAF"), 50.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "QX").parameters.at("IKF"), 1.0);
    EXPECT_DOUBLE_EQ(modelOf(netlist, "JX").parameters.at("VTO"), -2.0);
    EXPECT_TRUE(hasNote(netlist, 5, "MFG"));
    EXPECT_TRUE(hasNote(netlist, 5, "Iave"));
    EXPECT_TRUE(hasNote(netlist, 6, "PTF"));
    EXPECT_EQ(modelOf(netlist, "DX").parameters.count("MFG"), 0u);
}

TEST(NetlistModels, AllOfTheFileAreThereUsedOrNot) {
    const Netlist netlist = sound("D1 a 0 D2\nR1 a 0 1\n.model D1 D\n.model D2 D\n.model D3 D\n");
    EXPECT_EQ(netlist.circuit.models.size(), 3u);
}

}  // namespace
}  // namespace ohmwright
