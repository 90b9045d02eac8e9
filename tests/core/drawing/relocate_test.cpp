// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/relocate.h"

#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Part resistor() {
    Part part;
    part.value = 1000.0;
    return part;
}

Placement level(GridPoint at) {
    return {at, 0, false, 3, LabelSide::automatic};
}

/// R1 - wire - R2 on one line.
Circuit twoOnAWire() {
    Circuit circuit = placePart({}, resistor(), level({2, 4}))->circuit;
    circuit = placePart(circuit, resistor(), level({9, 4}))->circuit;
    return drawWire(circuit, {{5, 4}, {9, 4}})->circuit;
}

bool isRightAngled(const Wire& wire) {
    for (std::size_t i = 1; i < wire.corners.size(); ++i) {
        const bool level = wire.corners[i].y == wire.corners[i - 1].y;
        const bool upright = wire.corners[i].x == wire.corners[i - 1].x;
        if (level == upright) {
            return false;
        }
    }
    return true;
}

TEST(Relocate, AWireFollowsAtRightAngles) {
    const Circuit circuit = twoOnAWire();
    const EditResult moved = move(circuit, {{"r2"}, {}, {}}, {2, 3});
    ASSERT_TRUE(moved) << moved.error().message;
    ASSERT_EQ(moved->circuit.drawing.wires.size(), 1U);
    const Wire& wire = moved->circuit.drawing.wires[0];
    EXPECT_TRUE(isRightAngled(wire));
    EXPECT_EQ(wire.corners.front(), (GridPoint{5, 4}));
    EXPECT_EQ(wire.corners.back(), (GridPoint{11, 7}));
    EXPECT_EQ(moved->circuit.parts[1].nets, circuit.parts[1].nets);
}

TEST(Relocate, BackAgainIsTheSameDrawing) {
    const Circuit circuit = twoOnAWire();
    const EditResult there = move(circuit, {{"r2"}, {}, {}}, {0, 3});
    ASSERT_TRUE(there);
    const EditResult back = move(there->circuit, {{"r2"}, {}, {}}, {0, -3});
    ASSERT_TRUE(back);
    EXPECT_EQ(back->circuit, circuit);
}

TEST(Relocate, PartsThatStoodPinToPinGetAWire) {
    Circuit circuit = placePart({}, resistor(), level({2, 4}))->circuit;
    circuit = placePart(circuit, resistor(), level({5, 4}))->circuit;
    const EditResult moved = move(circuit, {{"r2"}, {}, {}}, {3, 0});
    ASSERT_TRUE(moved);
    ASSERT_EQ(moved->circuit.drawing.wires.size(), 1U);
    EXPECT_EQ(moved->circuit.parts[0].nets[1], moved->circuit.parts[1].nets[0]);
}

TEST(Relocate, AGroundSignGoesAlongWithItsPart) {
    Circuit circuit = placePart({}, resistor(), level({2, 4}))->circuit;
    circuit = placeFlag(circuit, {FlagKind::ground, {}, {5, 4}, {}})->circuit;
    const EditResult moved = move(circuit, {{"r1"}, {}, {}}, {4, 1});
    ASSERT_TRUE(moved);
    EXPECT_EQ(moved->circuit.drawing.flags[0].at, (GridPoint{9, 5}));
    EXPECT_EQ(moved->circuit.parts[0].nets[1], "0");
}

TEST(Relocate, AMoveThatWouldTouchAnotherNetIsRefused) {
    Circuit circuit = twoOnAWire();
    circuit = placePart(circuit, resistor(), {{7, 6}, 1, false, 3, LabelSide::automatic})->circuit;
    // Its upper pin would stand on the wire.
    const EditResult moved = move(circuit, {{"r3"}, {}, {}}, {0, -2});
    ASSERT_FALSE(moved);
    EXPECT_NE(moved.error().message.find("choose another place"), std::string::npos) << moved.error().message;
    EXPECT_FALSE(move(circuit, {{"r3"}, {}, {}}, {-9, 0})) << "off the sheet";
}

TEST(Relocate, ATurnedPartKeepsItsNets) {
    const Circuit circuit = twoOnAWire();
    EditResult turned = turn(circuit, {{"r2"}, {}, {}});
    ASSERT_TRUE(turned);
    EXPECT_EQ(turned->circuit.parts[1].placement->quarterTurns, 1);
    EXPECT_EQ(turned->circuit.parts[1].nets, circuit.parts[1].nets);
    for (int more = 0; more < 3; ++more) {
        turned = turn(turned->circuit, {{"r2"}, {}, {}});
        ASSERT_TRUE(turned) << turned.error().message << more;
    }
    EXPECT_EQ(turned->circuit.parts[1].placement, circuit.parts[1].placement);
    const EditResult mirrored = mirror(circuit, {{"r1"}, {}, {}});
    ASSERT_TRUE(mirrored);
    EXPECT_TRUE(mirrored->circuit.parts[0].placement->mirrored);
}

TEST(Relocate, NoMoveTurnOrMirrorOfADemosPartChangesANet) {
    for (const std::filesystem::path& path : test::demoJobPaths()) {
        const Circuit stock = test::jobIn(path).stock;
        int taken = 0;
        for (const Part& part : stock.parts) {
            const Picked picked{{part.id}, {}, {}};
            for (const EditResult& edit :
                 {move(stock, picked, {1, 0}), move(stock, picked, {0, 1}), move(stock, picked, {-1, -1}),
                  move(stock, picked, {0, 20}), turn(stock, picked), mirror(stock, picked)}) {
                if (!edit) {
                    EXPECT_FALSE(edit.error().message.empty());
                    continue;
                }
                ++taken;
                for (std::size_t i = 0; i < stock.parts.size(); ++i) {
                    EXPECT_EQ(edit->circuit.parts[i].nets, stock.parts[i].nets) << path << " " << part.id;
                }
                for (const Wire& wire : edit->circuit.drawing.wires) {
                    EXPECT_TRUE(isRightAngled(wire)) << path << " " << part.id << " net " << wire.net;
                }
                EXPECT_EQ(rejoin(edit->circuit).circuit, edit->circuit) << path << " " << part.id;
            }
        }
        EXPECT_GT(taken, static_cast<int>(stock.parts.size()) * 3) << path << ": half of what is asked for";
    }
}

TEST(Relocate, AWholeDrawingMovesWithoutANewWire) {
    const Circuit stock = test::jobIn(test::harbourLampPath()).stock;
    Picked all;
    for (const Part& part : stock.parts) {
        all.parts.push_back(part.id);
    }
    all = withInnerWires(stock, all);
    const EditResult moved = move(stock, all, {2, 1});
    ASSERT_TRUE(moved) << moved.error().message;
    EXPECT_EQ(moved->circuit.drawing.wires.size(), stock.drawing.wires.size());
    const EditResult back = move(moved->circuit, all, {-2, -1});
    ASSERT_TRUE(back);
    EXPECT_EQ(back->circuit.drawing.wires, stock.drawing.wires);
    EXPECT_EQ(back->circuit.parts, stock.parts);
}

}  // namespace
}  // namespace ohmwright
