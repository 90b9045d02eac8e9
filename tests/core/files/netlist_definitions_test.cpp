// Cards with a dot: which are read, which are passed over and what is said of them. The program's own rules.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_definitions.h"

#include "netlist_text.h"

namespace ohmwright {
namespace {

TEST(NetlistDefinitions, AnalysesAndOptionsArePassedOver) {
    const Netlist netlist = sound(
        "R1 a 0 1\nR2 a 0 1\n.ac dec 10 1 10k\n.tran 1u 1m\n.op\n.dc V1 0 1 0.1\n.noise v(a) V1 dec 10 1 1k\n"
        ".options reltol=1e-6\n.OPTION gmin=1e-12\n");
    EXPECT_TRUE(netlist.notes.empty()) << notesOf(netlist);
}

TEST(NetlistDefinitions, OtherCardsArePassedOverWithANote) {
    const char* cards[] = {".ic v(a)=1",          ".nodeset v(a)=1", ".print ac v(a)", ".plot v(a)",  ".save all",
                           ".meas ac x max v(a)", ".four 1k v(a)",   ".width out=80",  ".probe v(a)", ".temp 50",
                           ".options temp=50"};
    for (const char* card : cards) {
        const Netlist netlist = sound("R1 a 0 1\nR2 a 0 1\n" + std::string(card) + "\n");
        EXPECT_EQ(netlist.notes.size(), 1u) << card;
        EXPECT_TRUE(hasNote(netlist, 4, "ignored")) << card;
    }
}

TEST(NetlistDefinitions, ControlIsSkippedWhateverItHolds) {
    const Netlist netlist = sound("R1 a 0 1\n.control\nrun ((\nshell rm -rf x\n.foo\n.subckt\n.ENDC\nR2 a 0 1\n");
    EXPECT_EQ(netlist.circuit.parts.size(), 2u);
    EXPECT_TRUE(hasNote(netlist, 3, "never runs"));
}

TEST(NetlistDefinitions, ABodyIsFoundFromInsideOut) {
    NetlistLog log;
    const auto file = readDefinitions("t\n.subckt A p\n.subckt B p\n.ends\n.ends\n.subckt B p q\n.ends\n", log);
    ASSERT_NE(file, nullptr);
    const Definition* a = findDefinition(file->top, "a");
    ASSERT_NE(a, nullptr);
    EXPECT_EQ(findDefinition(*a, "b")->pins.size(), 1u);
    EXPECT_EQ(findDefinition(file->top, "b")->pins.size(), 2u);
    EXPECT_EQ(findDefinition(file->top, "c"), nullptr);
}

}  // namespace
}  // namespace ohmwright
