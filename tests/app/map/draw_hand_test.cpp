// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_hand.h"

#include "core/drawing/outline.h"
#include "tests/app/map/hand_on_sheet.h"

#include <QClipboard>
#include <QGuiApplication>

namespace ohmwright::test {
namespace {

class DrawHandTest : public HandOnSheet {};

// The index of a picked wire was another wire's after an undo, and Delete took that one.
TEST_F(DrawHandTest, AnUndoLetsGoOfWiresAndSigns) {
    wire({{2, 2}, {6, 2}});
    wire({{2, 5}, {6, 5}});
    hand.setCaret({4, 5});
    press(Qt::Key_Return);
    ASSERT_EQ(hand.picked().wires.size(), 1U);
    document.undoStack().undo();
    EXPECT_TRUE(hand.picked().wires.empty());
    document.undoStack().redo();
    const Circuit before = drawn();
    press(Qt::Key_Delete);
    EXPECT_EQ(drawn(), before);
}

TEST_F(DrawHandTest, APickedPartStaysPickedWhileItIsThere) {
    put('R', "1k", {10, 4});
    hand.setCaret({11, 4});
    press(Qt::Key_Return);
    press(Qt::Key_Period, Qt::NoModifier, ".");
    document.undoStack().undo();
    EXPECT_EQ(hand.picked().parts, std::vector<PartId>{part("R1").id});
    document.undoStack().undo();
    EXPECT_TRUE(hand.picked().isEmpty());
}

TEST_F(DrawHandTest, AnotherDocumentFindsTheHandEmpty) {
    put('R', "1k", {10, 4});
    hand.setCaret({11, 4});
    press(Qt::Key_Return);
    press(Qt::Key_Right, Qt::ShiftModifier);
    ASSERT_TRUE(hand.boxCorners());
    type("r4");
    document.setJob({}, {});
    EXPECT_FALSE(hand.held());
    EXPECT_TRUE(hand.picked().isEmpty());
    EXPECT_FALSE(hand.box());
    EXPECT_FALSE(hand.boxCorners());
}

// A box that Shift and an arrow had opened stayed open: the next pass of the pointer picked on with it, and Delete took
// 25 things.
TEST_F(DrawHandTest, TheBoxOfTheKeysIsClosedByTheFirstKeyWithoutShift) {
    put('R', "1k", {10, 4});
    put('R', "1k", {20, 8});
    hand.setCaret({9, 3});
    for (int step = 0; step < 5; ++step) {
        press(Qt::Key_Right, Qt::ShiftModifier);
    }
    press(Qt::Key_Down, Qt::ShiftModifier);
    press(Qt::Key_Down, Qt::ShiftModifier);
    ASSERT_EQ(hand.picked().parts.size(), 1U);
    hand.moveTo({30, 12});
    EXPECT_EQ(hand.picked().parts.size(), 1U) << "the pointer opens its own box only";
    press(Qt::Key_Shift, Qt::ShiftModifier);
    EXPECT_TRUE(hand.box()) << "Shift alone closes nothing";
    press(Qt::Key_Right);
    EXPECT_FALSE(hand.box());
    EXPECT_EQ(hand.picked().parts.size(), 1U);
}

// One corner under a part's body cost the whole wire.
TEST_F(DrawHandTest, ARefusedWireLosesItsLastCornerAlone) {
    put('R', "1k", {10, 4});
    QSignalSpy refused(&document, &JobDocument::refused);
    hand.setCaret({5, 2});
    press(Qt::Key_Space);
    hand.setCaret({11, 2});
    press(Qt::Key_Space);
    hand.setCaret({11, 6});
    press(Qt::Key_Return);
    EXPECT_EQ(refused.count(), 1);
    EXPECT_EQ(hand.pen(), (std::vector<GridPoint>{{5, 2}, {11, 2}}));
    hand.setCaret({16, 6});
    press(Qt::Key_Return);
    EXPECT_TRUE(hand.pen().empty());
    EXPECT_EQ(drawn().drawing.wires.size(), 1U);
}

TEST_F(DrawHandTest, EscDropsACornerThenTheWire) {
    hand.setCaret({5, 2});
    press(Qt::Key_Space);
    for (const GridPoint corner : {GridPoint{8, 2}, GridPoint{8, 6}}) {
        hand.setCaret(corner);
        press(Qt::Key_Space);
    }
    ASSERT_EQ(hand.pen().size(), 3U);
    press(Qt::Key_Escape);
    EXPECT_EQ(hand.pen().size(), 2U);
    hand.setCaret({12, 2});
    press(Qt::Key_Space);
    EXPECT_EQ(hand.pen().size(), 3U) << "it goes on";
    press(Qt::Key_Escape);
    press(Qt::Key_Escape);
    EXPECT_TRUE(hand.pen().empty());
    EXPECT_FALSE(press(Qt::Key_Escape)) << "with nothing in hand, Esc is the window's";
}

// "resistor" stood at the cross and 33k, the last value, came down.
TEST_F(DrawHandTest, WhatStandsInTheHandIsWhatComesDown) {
    type("r");
    EXPECT_EQ(hand.heldWords(), "resistor 10k");
    press(Qt::Key_Escape);
    put('R', "33k", {10, 4});
    type("r");
    EXPECT_EQ(hand.heldWords(), "resistor 33k");
    type("4k7");
    EXPECT_EQ(hand.heldWords(), "resistor 4k7");
    press(Qt::Key_Backspace);
    press(Qt::Key_Backspace);
    press(Qt::Key_Backspace);
    hand.setCaret({10, 8});
    press(Qt::Key_Return);
    EXPECT_DOUBLE_EQ(part("R2").value, 33e3);
    type("u");
    EXPECT_EQ(hand.heldWords(), "op-amp TL072");
}

// "33k." was an error, where "." had turned the resistor a moment before.
TEST_F(DrawHandTest, PointAndCommaTurnUnlessTheyStandBetweenDigits) {
    type("r33k.,");
    ASSERT_TRUE(hand.held());
    EXPECT_EQ(hand.held()->typed, "33k");
    EXPECT_EQ(hand.held()->turns, 1);
    EXPECT_TRUE(hand.held()->mirrored);
    press(Qt::Key_Escape);
    type("r4.7k");
    EXPECT_EQ(hand.held()->typed, "4.7k");
    EXPECT_EQ(hand.held()->turns, 0);
    press(Qt::Key_Escape);
    type("r470..");
    EXPECT_EQ(hand.held()->typed, "470");
    EXPECT_EQ(hand.held()->turns, 2);
    press(Qt::Key_Escape);
    put('R', "22.", {10, 4});
    EXPECT_DOUBLE_EQ(part("R1").value, 22.0);
    put('V', "4.5 V", {20, 4});
    EXPECT_EQ(drawn().drawing.flags.front().text, "4.5 V");
}

TEST_F(DrawHandTest, StepsOfOneMoveAreTakenBackTogether) {
    put('R', "1k", {10, 4});
    put('C', "10n", {10, 8});
    hand.setCaret({11, 4});
    press(Qt::Key_Return);
    const int before = steps();
    for (const int key : {Qt::Key_Right, Qt::Key_Right, Qt::Key_Down}) {
        press(key, Qt::AltModifier);
    }
    EXPECT_EQ(steps(), before + 1);
    EXPECT_EQ(pinPoint(part("R1"), 0), (GridPoint{12, 5}));
    hand.setCaret({10, 8});
    press(Qt::Key_Return);
    press(Qt::Key_Down, Qt::AltModifier);
    EXPECT_EQ(steps(), before + 2) << "another part, another move";
    document.undoStack().undo();
    document.undoStack().undo();
    EXPECT_EQ(pinPoint(part("R1"), 0), (GridPoint{10, 4}));
}

TEST_F(DrawHandTest, WhatWasCopiedIsSaidAndNotRefused) {
    put('R', "1k", {10, 4});
    QSignalSpy said(&hand, &DrawHand::said);
    QSignalSpy refused(&hand, &DrawHand::refused);
    press(Qt::Key_A, Qt::ControlModifier);
    press(Qt::Key_C, Qt::ControlModifier);
    EXPECT_EQ(said.count(), 1);
    EXPECT_EQ(refused.count(), 0);
    hand.setCaret({10, 10});
    press(Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(drawn().parts.size(), 2U);
}

// Ctrl+Shift+V, which the File menu gives to netlists, put down the copied parts.
TEST_F(DrawHandTest, NetlistsArePastedByTheWindow) {
    put('R', "1k", {10, 4});
    press(Qt::Key_A, Qt::ControlModifier);
    press(Qt::Key_C, Qt::ControlModifier);
    press(Qt::Key_V, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_EQ(drawn().parts.size(), 1U);

    DrawHand other(document);
    QSignalSpy refused(&other, &DrawHand::refused);
    QGuiApplication::clipboard()->setText("A divider\nR1 in out 1k\n.end\n");
    other.pasteCopy();
    ASSERT_EQ(refused.count(), 1);
    EXPECT_TRUE(refused.front().front().toString().contains("Ctrl Shift V"));
}

TEST_F(DrawHandTest, EveryKeyIsAnotherThing) {
    std::set<char> keys{'N', 'Z', 'F'};  // name, stage, area
    for (const DrawThing& thing : drawThings()) {
        EXPECT_TRUE(keys.insert(thing.key).second) << thing.key;
    }
}

}  // namespace
}  // namespace ohmwright::test
