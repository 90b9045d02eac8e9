// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/lead.h"

#include "tests/support/drawing_rules.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

TEST(FindLead, GoesAroundBodiesAndCrossesWiresStraight) {
    Circuit circuit;
    circuit.drawing.size = {20, 10};
    Part part;
    part.id = part.reference = "R1";
    part.value = 1.0;
    part.nets = {"a", "b"};
    part.placement = Placement{{8, 2}, 1, false, 6, LabelSide::automatic};  // upright from row 2 to 8
    circuit.parts = {part};
    circuit.drawing.wires = {{"c", {{12, 0}, {12, 10}}}};
    const auto lead = findLead(circuit, "n", {{4, 5}}, [](GridPoint point) { return point.x == 20; });
    // Past the resistor's lower or upper pin, then straight over the wire.
    ASSERT_EQ(lead.size(), 3U);
    EXPECT_EQ(lead.front(), (GridPoint{4, 5}));
    EXPECT_EQ(lead.back().x, 20);
    EXPECT_EQ(lead[1].x, lead[0].x);
    circuit.drawing.wires.push_back({"n", lead});
    EXPECT_TRUE(drawingFaults(circuit).empty());
    // A wall of bodies cannot be passed.
    circuit.parts[0].placement = Placement{{8, 0}, 1, false, 10, LabelSide::automatic};
    EXPECT_TRUE(findLead(circuit, "n", {{9, 5}}, [](GridPoint) { return false; }).empty());
}

TEST(FindLead, EndsNeitherOnAnotherNetsWireNorOffTheSheet) {
    Circuit circuit;
    circuit.drawing.size = {10, 4};
    circuit.drawing.wires = {{"c", {{10, 0}, {10, 4}}}};  // the whole of the edge that is wanted
    const auto atEdge = [](GridPoint point) { return point.x == 10; };
    EXPECT_TRUE(findLead(circuit, "n", {{2, 2}}, atEdge).empty());
    EXPECT_TRUE(findLead(circuit, "n", {{20, 20}}, atEdge).empty());
    circuit.drawing.wires = {{"c", {{10, 0}, {10, 2}}}};
    const auto lead = findLead(circuit, "n", {{2, 2}}, atEdge);
    ASSERT_FALSE(lead.empty());
    EXPECT_GT(lead.back().y, 2);
    // Where it stands already: a way of one point.
    EXPECT_EQ(findLead(circuit, "c", {{10, 1}}, atEdge).size(), 1U);
}

}  // namespace
}  // namespace ohmwright::test
