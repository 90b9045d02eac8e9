// The pointer of the hand that draws.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/outline.h"
#include "tests/app/map/hand_on_sheet.h"

namespace ohmwright::test {
namespace {

class DrawPointerTest : public HandOnSheet {};

// The cross went with every move of the pointer, so that the net that was clicked was another one on the way to its
// field.
TEST_F(DrawPointerTest, PassingOverTheSheetMovesNoCross) {
    click({4.0, 4.0});
    for (double x = 4.0; x < 40.0; x += 0.7) {
        hand.moveTo({x, 9.0});
    }
    EXPECT_EQ(hand.caret(), (GridPoint{4, 4}));
    EXPECT_EQ(hand.pointer(), std::optional(GridPoint{40, 9}));
    hand.pointAway();
    EXPECT_FALSE(hand.pointer());
}

TEST_F(DrawPointerTest, WhatIsInTheHandFollowsThePointer) {
    type("r");
    hand.moveTo({12.2, 5.9});
    EXPECT_EQ(hand.caret(), (GridPoint{12, 6}));
    press(Qt::Key_Right);
    hand.moveTo({12.1, 6.1});
    EXPECT_EQ(hand.caret(), (GridPoint{13, 6})) << "a trembling pointer leaves it to the keys";
    press(Qt::Key_Return);
    EXPECT_EQ(pinPoint(part("R1"), 0), (GridPoint{13, 6}));
}

// The row "wire" put the pen down where the pointer had left the sheet on its way to the row.
TEST_F(DrawPointerTest, ATakenWireBeginsWhereItIsClicked) {
    hand.setCaret({20, 2});
    hand.takeWire();
    EXPECT_TRUE(hand.takesWire());
    EXPECT_TRUE(hand.pen().empty());
    hand.moveTo({3.0, 6.0});
    click({5.0, 6.0});
    EXPECT_EQ(hand.pen(), (std::vector<GridPoint>{{5, 6}}));
    click({9.0, 6.0});
    EXPECT_EQ(hand.pen().size(), 2U);
    press(Qt::Key_Escape);
    press(Qt::Key_Escape);
    hand.takeWire();
    press(Qt::Key_Escape);
    EXPECT_FALSE(hand.takesWire());
}

TEST_F(DrawPointerTest, ADoubleClickEndsAWire) {
    hand.takeWire();
    click({5.0, 6.0});
    click({9.0, 6.0});
    hand.pressTwice({9.0, 6.0}, Qt::NoModifier);
    hand.release();
    EXPECT_TRUE(hand.pen().empty());
    ASSERT_EQ(drawn().drawing.wires.size(), 1U);
    EXPECT_EQ(drawn().drawing.wires.front().corners.back(), (GridPoint{9, 6}));
}

TEST_F(DrawPointerTest, ADoubleClickOnThePinThatEndedAWireBeginsNone) {
    put('R', "1k", {10, 6});
    hand.takeWire();
    click({5.0, 6.0});
    click({10.0, 6.0});
    ASSERT_TRUE(hand.pen().empty());
    hand.pressTwice({10.0, 6.0}, Qt::NoModifier);
    hand.release();
    EXPECT_TRUE(hand.pen().empty());
}

// A drag that was refused left its ghost where it was let go.
TEST_F(DrawPointerTest, ARefusedDragIsBackWhereItStands) {
    put('R', "1k", {10, 4});
    put('R', "1k", {10, 8});
    hand.moveTo({11.5, 4.0});
    hand.press({11.5, 4.0}, Qt::NoModifier);
    hand.moveTo({11.5, 8.0});
    ASSERT_NE(hand.dragged(), GridPoint());
    QSignalSpy changed(&hand, &DrawHand::changed);
    QSignalSpy refused(&document, &JobDocument::refused);
    hand.release();
    EXPECT_EQ(refused.count(), 1);
    EXPECT_EQ(hand.dragged(), GridPoint());
    EXPECT_GE(changed.count(), 1);
    EXPECT_EQ(pinPoint(part("R1"), 0), (GridPoint{10, 4}));
}

// Enter on a pin with a wire picked the wire.
TEST_F(DrawPointerTest, EnterOnAJoinedPinPicksItsPart) {
    put('R', "1k", {10, 4});
    wire({{5, 4}, {10, 4}});
    hand.setCaret({10, 4});
    press(Qt::Key_Return);
    EXPECT_EQ(hand.picked().parts, std::vector<PartId>{part("R1").id});
    EXPECT_TRUE(hand.picked().wires.empty());
    hand.setCaret({7, 4});
    press(Qt::Key_Return);
    EXPECT_EQ(hand.picked().wires.size(), 1U);
}

TEST_F(DrawPointerTest, ABoxThatIsPulledPicksAndIsKeptForAnArea) {
    put('R', "1k", {10, 4});
    hand.press({8.0, 2.0}, Qt::NoModifier);
    hand.moveTo({15.0, 6.0});
    hand.release();
    EXPECT_EQ(hand.picked().parts.size(), 1U);
    ASSERT_TRUE(hand.boxCorners());
    EXPECT_EQ(hand.boxCorners()->second, (GridPoint{15, 6}));
    click({20.0, 10.0});
    EXPECT_FALSE(hand.boxCorners()) << "a box is gone with what it picked";
}

}  // namespace
}  // namespace ohmwright::test
