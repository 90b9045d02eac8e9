// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/draw_beside.h"

#include "core/drawing/edit_lines.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"

#include <gtest/gtest.h>

#include <cstdlib>

namespace ohmwright {
namespace {

/// A divider between a supply sign and ground.
Circuit divider() {
    const EditResult drawn = editByLines(Circuit(),
                                         "put V \"9 V\" at 10,2\nput R 10k at 10,2 turned 1\nwire 10,5 10,7\n"
                                         "put R 10k at 10,7 turned 1\nput E at 10,10",
                                         {});
    EXPECT_TRUE(drawn) << drawn.error().message;
    return drawn ? drawn->circuit : Circuit();
}

Circuit withPart(Circuit circuit, std::vector<NetName> nets) {
    Part part;
    part.id = "c1";
    part.reference = "C1";
    part.kind = PartKind::capacitor;
    part.value = 1e-6;
    part.nets = std::move(nets);
    circuit.parts.push_back(part);
    return circuit;
}

TEST(DrawBeside, EachLegIsJoinedToItsNetAndNothingElseIsTouched) {
    const Circuit bare = divider();
    const NetName middle = netAt(bare, {10, 6});
    const Circuit circuit = withPart(bare, {middle, NetName(groundNet)});
    const std::optional<Circuit> drawn = drawnBeside(circuit, "c1", "r2");
    ASSERT_TRUE(drawn);
    const Part& part = *findPart(*drawn, "c1");
    ASSERT_TRUE(part.placement);
    // By its lines alone: nets forgotten, they come out the same.
    Circuit forgotten = *drawn;
    findPart(forgotten, "c1")->nets = {"", ""};
    EXPECT_EQ(rejoin(forgotten).circuit.parts, drawn->parts);
    for (const Part& other : bare.parts) {
        EXPECT_EQ(*findPart(*drawn, other.id), other);
    }
    ASSERT_EQ(drawn->drawing.wires.size(), bare.drawing.wires.size() + 1);
    ASSERT_EQ(drawn->drawing.flags.size(), bare.drawing.flags.size() + 1);
    EXPECT_EQ(drawn->drawing.flags.back().kind, FlagKind::ground);
    EXPECT_EQ(drawn->drawing.flags.back().at, pinPoint(part, 1));
    EXPECT_EQ(drawn->drawing.size, bare.drawing.size);
    // Beside it: within a hand's breadth of the resistor's middle.
    EXPECT_LE(std::abs(part.placement->at.x - 10), 6);
    EXPECT_LE(std::abs(part.placement->at.y - 8), 6);
}

TEST(DrawBeside, ASupplyIsReachedByItsSign) {
    const Circuit bare = divider();
    const NetName supply = netAt(bare, {10, 2});
    const std::optional<Circuit> drawn = drawnBeside(withPart(bare, {supply, NetName(groundNet)}), "c1", "r1");
    ASSERT_TRUE(drawn);
    EXPECT_EQ(drawn->drawing.wires.size(), bare.drawing.wires.size());
    EXPECT_EQ(drawn->drawing.flags.size(), bare.drawing.flags.size() + 2);
    const Part& part = *findPart(*drawn, "c1");
    EXPECT_LT(pinPoint(part, 0).y, pinPoint(part, 1).y);  // The supply above, ground below.
}

TEST(DrawBeside, WhatItBroughtGoesWithIt) {
    const Circuit bare = divider();
    const Circuit circuit = withPart(bare, {netAt(bare, {10, 6}), NetName(groundNet)});
    Circuit drawn = *drawnBeside(circuit, "c1", "r2");
    takeOffLeads(drawn, *findPart(drawn, "c1"));
    findPart(drawn, "c1")->placement.reset();
    EXPECT_EQ(drawn, circuit);
}

TEST(DrawBeside, ALineThatSomethingElseHangsOnStays) {
    const Circuit bare = divider();
    Circuit drawn = *drawnBeside(withPart(bare, {netAt(bare, {10, 6}), NetName(groundNet)}), "c1", "r2");
    const std::vector<GridPoint>& lead = drawn.drawing.wires.back().corners;
    const GridPoint between{(lead[0].x + lead[1].x) / 2, (lead[0].y + lead[1].y) / 2};
    ASSERT_NE(between, lead[0]);
    drawn.drawing.flags.push_back({FlagKind::terminal, drawn.drawing.wires.back().net, between, "test point"});
    const std::size_t wires = drawn.drawing.wires.size();
    takeOffLeads(drawn, *findPart(drawn, "c1"));
    EXPECT_EQ(drawn.drawing.wires.size(), wires);
}

TEST(DrawBeside, ThereIsNothingToDrawWithoutADrawingOrTwice) {
    const Circuit bare = divider();
    const Circuit circuit = withPart(bare, {netAt(bare, {10, 6}), NetName(groundNet)});
    const Circuit drawn = *drawnBeside(circuit, "c1", "");
    EXPECT_FALSE(drawnBeside(drawn, "c1", ""));
    EXPECT_FALSE(drawnBeside(circuit, "c9", ""));
    Circuit list = circuit;
    list.drawing = {};
    EXPECT_FALSE(drawnBeside(list, "c1", ""));
}

}  // namespace
}  // namespace ohmwright
