// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_geometry.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright::test {
namespace {

Part resistor(const char* id, GridPoint at, int turns, std::vector<NetName> nets) {
    Part part;
    part.id = id;
    part.reference = id;
    part.nets = std::move(nets);
    part.placement = Placement{at, turns, false, 3, LabelSide::automatic};
    return part;
}

TEST(MapGeometry, ALineIsMeasuredOnlyInsideTheBox) {
    const QRectF box(0, 0, 10, 10);
    EXPECT_DOUBLE_EQ(lengthInside({-5, 5, 20, 5}, box), 10.0);
    EXPECT_DOUBLE_EQ(lengthInside({5, 5, 5, 40}, box), 5.0);
    EXPECT_NEAR(lengthInside({-1, -1, 11, 11}, box), 10.0 * std::numbers::sqrt2, 1e-9);
    EXPECT_DOUBLE_EQ(lengthInside({-5, 20, 20, 20}, box), 0.0);
    EXPECT_DOUBLE_EQ(lengthInside({0, 0, 10, 0}, box), 0.0) << "along the edge is not inside";
    EXPECT_DOUBLE_EQ(lengthInside({12, 0, 0, 12}, QRectF(0, 0, 5, 5)), 0.0) << "past the corner";
}

TEST(MapGeometry, ThreeEndsMakeAJunctionAndTwoDoNot) {
    Circuit circuit;
    circuit.drawing.wires = {{"a", {{0, 0}, {4, 0}, {4, 4}}}, {"a", {{4, 2}, {8, 2}}}, {"b", {{0, 2}, {6, 2}}}};
    const std::vector<QPointF> junctions = junctionsOf(circuit, "a");
    ASSERT_EQ(junctions.size(), 1U);
    EXPECT_EQ(junctions.front(), QPointF(80, 40));
    EXPECT_TRUE(junctionsOf(circuit, "b").empty()) << "a crossing of two nets is a plain cross";
}

TEST(MapGeometry, PinsAndSignsCountAsEnds) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, 0, {"x", "a"}), resistor("R2", {3, 0}, 1, {"a", "0"})};
    EXPECT_TRUE(junctionsOf(circuit, "a").empty());
    circuit.drawing.flags = {{FlagKind::supply, "a", {3, 0}, "9 V"}};
    ASSERT_EQ(junctionsOf(circuit, "a").size(), 1U);
    EXPECT_EQ(junctionsOf(circuit, "a").front(), QPointF(60, 0));
    circuit.drawing.flags = {{FlagKind::terminal, "a", {3, 0}, {}}};
    EXPECT_TRUE(junctionsOf(circuit, "a").empty()) << "a terminal is no end of its own";
}

TEST(MapGeometry, ASupplySignHangsBelowWhatComesFromAbove) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {0, 0}, 1, {"vb", "x"}), resistor("R2", {5, 8}, 3, {"vb", "y"})};
    EXPECT_FALSE(hangsDown(circuit, {FlagKind::supply, "vb", {0, 0}, "Vb"}));
    EXPECT_TRUE(hangsDown(circuit, {FlagKind::supply, "vb", {5, 8}, "Vb"}));
}

TEST(MapGeometry, CoveredIsNothingOnFreeGroundAndGrowsWithWhatIsHidden) {
    Obstacles obstacles;
    obstacles.sheet = {0, 0, 200, 200};
    obstacles.boxes = {{0, 0, 20, 20}};
    obstacles.lines = {{100, 0, 100, 200}};
    EXPECT_DOUBLE_EQ(obstacles.covered({30, 30, 20, 10}), 0.0);
    EXPECT_DOUBLE_EQ(obstacles.covered({20, 0, 20, 20}), 0.0) << "touching is not covering";
    EXPECT_DOUBLE_EQ(obstacles.covered({10, 10, 20, 20}), 100.0);
    EXPECT_GT(obstacles.covered({95, 50, 10, 10}), 0.0);
    EXPECT_GT(obstacles.covered({190, 190, 20, 20}), obstacles.covered({95, 50, 10, 10}));
}

TEST(MapGeometry, ASheetWithoutASizeHoldsEveryPin) {
    Circuit circuit;
    circuit.parts = {resistor("R1", {40, 30}, 0, {"a", "b"})};
    EXPECT_TRUE(sheetOf(circuit).contains(QPointF(43 * 20, 30 * 20)));
    circuit.drawing.size = {52, 16};
    EXPECT_EQ(sheetOf(circuit), QRectF(0, 0, 1040, 320));
}

}  // namespace
}  // namespace ohmwright::test
