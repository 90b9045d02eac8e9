// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/outline.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Part placed(PartKind kind, const Placement& placement) {
    Part part;
    part.kind = kind;
    part.placement = placement;
    return part;
}

TEST(Outline, AQuarterTurnIsClockwise) {
    // y points downwards: a part that ran to the right runs down.
    const Part part = placed(PartKind::resistor, {{4, 7}, 1, false, 3, LabelSide::automatic});
    EXPECT_EQ(pinPoint(part, 0), (GridPoint{4, 7}));
    EXPECT_EQ(pinPoint(part, 1), (GridPoint{4, 10}));
}

TEST(Outline, AMirroredTransistorHasItsCollectorBelow) {
    EXPECT_EQ(pinPoint(placed(PartKind::bipolar, {}), 0), (GridPoint{2, -2}));
    EXPECT_EQ(pinPoint(placed(PartKind::bipolar, {{0, 0}, 0, true, 3, LabelSide::automatic}), 0), (GridPoint{2, 2}));
}

TEST(Outline, TheWiperStandsOnTheGridWhateverTheSpan) {
    for (int span = 2; span <= 7; ++span) {
        const Part pot = placed(PartKind::potentiometer, {{0, 0}, 0, false, span, LabelSide::automatic});
        EXPECT_EQ(pinPoint(pot, 1), (GridPoint{span / 2, 1}));
    }
}

TEST(Outline, FourTurnsAreNone) {
    for (const PartKind kind : {PartKind::opamp, PartKind::pentode, PartKind::potentiometer}) {
        for (int pin = 0; pin < pinCount(kind); ++pin) {
            EXPECT_EQ(pinPoint(placed(kind, {{1, 2}, 4, true, 4, LabelSide::automatic}), pin),
                      pinPoint(placed(kind, {{1, 2}, 0, true, 4, LabelSide::automatic}), pin));
        }
    }
}

TEST(Outline, ABodyTurnsWithItsPart) {
    const GridBox level = bodyBox(placed(PartKind::opamp, {}));
    const GridBox upright = bodyBox(placed(PartKind::opamp, {{0, 0}, 1, false, 3, LabelSide::automatic}));
    EXPECT_DOUBLE_EQ(level.right - level.left, upright.bottom - upright.top);
    EXPECT_DOUBLE_EQ(level.bottom - level.top, upright.right - upright.left);
}

TEST(Outline, APinIsFoundByItsPoint) {
    Circuit circuit;
    circuit.parts = {placed(PartKind::opamp, {{2, 2}, 0, false, 3, LabelSide::automatic}),
                     placed(PartKind::resistor, {{7, 3}, 0, false, 3, LabelSide::automatic}), Part()};
    circuit.parts[2].nets = {"a", "b"};
    const std::optional<DrawnPin> output = pinAt(circuit, {7, 3});
    ASSERT_TRUE(output);
    EXPECT_EQ(output->part, circuit.parts.data()) << "the first of two";
    EXPECT_EQ(output->pin, 2);
    EXPECT_EQ(pinAt(circuit, {10, 3})->pin, 1);
    EXPECT_FALSE(pinAt(circuit, {4, 1})) << "an op-amp's supply has no place";
    EXPECT_FALSE(pinAt(circuit, {0, 0})) << "a part without a place stands nowhere";
}

TEST(Outline, AnOpampsSuppliesAreNotDrawn) {
    EXPECT_EQ(drawnPinCount(PartKind::opamp), 3);
    EXPECT_EQ(drawnPinCount(PartKind::pentode), 4);
}

}  // namespace
}  // namespace ohmwright
