// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/rejoin.h"

#include "core/drawing/outline.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Part resistor(const std::string& id, GridPoint at, NetName first, NetName second) {
    Part part;
    part.id = id;
    part.reference = id;
    part.value = 1000.0;
    part.nets = {std::move(first), std::move(second)};
    part.placement = Placement{at, 0, false, 3, LabelSide::automatic};
    return part;
}

Wire wire(NetName net, std::vector<GridPoint> corners) {
    return {std::move(net), std::move(corners)};
}

const std::vector<NetName>& netsOf(const Rejoined& rejoined, const char* id) {
    return findPart(rejoined.circuit, id)->nets;
}

TEST(Rejoin, EveryDemoIsDrawnAsItsNetsSay) {
    for (const std::filesystem::path& path : test::demoJobPaths()) {
        const Circuit stock = test::jobIn(path).stock;
        const Rejoined rejoined = rejoin(stock);
        EXPECT_EQ(rejoined.circuit, stock) << path;
        EXPECT_TRUE(rejoined.goneInto.empty()) << path;
    }
}

TEST(Rejoin, AWireThatEndsOnAPinIsJoinedAndCrossingWiresAreNot) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, "a", "b"), resistor("R2", {6, 0}, "c", "d"),
                     resistor("R3", {4, 3}, "", "")};
    circuit.drawing.wires = {wire("", {{3, 0}, {6, 0}}), wire("", {{4, -2}, {4, 3}})};
    const Rejoined rejoined = rejoin(circuit);
    EXPECT_EQ(netsOf(rejoined, "R1")[1], netsOf(rejoined, "R2")[0]);
    EXPECT_NE(netsOf(rejoined, "R3")[0], netsOf(rejoined, "R1")[1]) << "the upright wire only crosses";
    EXPECT_EQ(rejoined.circuit.drawing.wires[1].net, netsOf(rejoined, "R3")[0]);
}

TEST(Rejoin, AWireEndOnAWireIsJoined) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, "a", "b"), resistor("R2", {6, 0}, "c", "d"),
                     resistor("R3", {4, 3}, "", "")};
    circuit.drawing.wires = {wire("", {{3, 0}, {6, 0}}), wire("", {{4, 0}, {4, 3}})};
    const Rejoined rejoined = rejoin(circuit);
    EXPECT_EQ(netsOf(rejoined, "R3")[0], netsOf(rejoined, "R1")[1]);
    EXPECT_EQ(netsOf(rejoined, "R2")[0], netsOf(rejoined, "R1")[1]);
}

TEST(Rejoin, OfNetsThatComeTogetherThePortsNameWins) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, "a", "x"), resistor("R2", {3, 0}, "out", "b")};
    circuit.ports.output = "out";
    const Rejoined rejoined = rejoin(circuit);
    EXPECT_EQ(netsOf(rejoined, "R1")[1], "out");
    EXPECT_EQ(rejoined.goneInto, (std::map<NetName, NetName>{{"x", "out"}}));
}

TEST(Rejoin, APieceThatComesOffGetsANameOfItsOwn) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, "a", "mid"), resistor("R2", {4, 0}, "mid", "n1"),
                     resistor("R3", {4, -3}, "mid", "c")};
    circuit.drawing.wires = {wire("mid", {{4, 0}, {4, -3}})};
    const Rejoined rejoined = rejoin(circuit);
    EXPECT_EQ(netsOf(rejoined, "R2")[0], "mid") << "two pins against one";
    EXPECT_EQ(netsOf(rejoined, "R3")[0], "mid");
    EXPECT_EQ(netsOf(rejoined, "R1")[1], "n2") << "n1 is another net's";
}

TEST(Rejoin, SignsOfOneNameAreOneNetAndGroundIsGround) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, "", ""), resistor("R2", {9, 0}, "", "")};
    circuit.drawing.flags = {{FlagKind::supply, "vcc", {0, 0}, "9 V"},
                             {FlagKind::supply, "vcc", {9, 0}, "9 V"},
                             {FlagKind::ground, "", {3, 0}, ""},
                             {FlagKind::note, "", {12, 0}, "a note joins nothing"}};
    const Rejoined rejoined = rejoin(circuit);
    EXPECT_EQ(netsOf(rejoined, "R1"), (std::vector<NetName>{"vcc", "0"}));
    EXPECT_EQ(netsOf(rejoined, "R2")[0], "vcc");
    EXPECT_NE(netsOf(rejoined, "R2")[1], "0");
}

TEST(Rejoin, AShortBetweenSupplyAndGroundComesApartAgain) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, "vcc", "0")};
    circuit.drawing.flags = {{FlagKind::supply, "vcc", {0, 0}, "9 V"}, {FlagKind::ground, "0", {3, 0}, ""}};
    Circuit shorted = circuit;
    shorted.drawing.wires = {wire("", {{0, 0}, {0, 2}, {3, 2}, {3, 0}})};
    Circuit after = rejoin(shorted).circuit;
    EXPECT_EQ(after.parts[0].nets, (std::vector<NetName>{"0", "0"}));
    after.drawing.wires.clear();
    after = rejoin(after).circuit;
    EXPECT_EQ(after.parts[0].nets, (std::vector<NetName>{"9V", "0"})) << "named by its sign";
}

TEST(Rejoin, AnOpampsSuppliesStayOnTheirNetByName) {
    Circuit circuit;
    Part opamp;
    opamp.id = opamp.reference = "U1";
    opamp.kind = PartKind::opamp;
    opamp.nets = {"", "", "", "vcc", "0"};
    opamp.placement = Placement{};
    circuit.parts = {opamp, resistor("R1", {10, 0}, "v2", "0")};
    circuit.drawing.flags = {{FlagKind::supply, "vcc", {10, 0}, "9 V"}};
    const Rejoined rejoined = rejoin(circuit);
    EXPECT_EQ(netsOf(rejoined, "U1")[3], "vcc");
    EXPECT_EQ(netsOf(rejoined, "R1")[0], "vcc");
    EXPECT_EQ(rejoined.circuit.parts[0].nets[4], "0");
}

}  // namespace
}  // namespace ohmwright
