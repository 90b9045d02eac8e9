// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/value_drag.h"

#include "core/plan/apply.h"
#include "tests/support/open_job.h"

#include <QSignalSpy>
#include <QUndoStack>

namespace ohmwright::test {
namespace {

class ValueDragTest : public testing::Test {
protected:
    [[nodiscard]] double valueOf(const PartId& part) const {
        return findPart(nowCircuit(open.job()).value(), part)->value;
    }
    [[nodiscard]] QString lastSentence() const { return ended.isEmpty() ? QString() : ended.last()[0].toString(); }

    OpenJob open;
    ValueDrag drag{open.document, open.shop};
    QSignalSpy ended{&drag, &ValueDrag::ended};
};

TEST_F(ValueDragTest, FollowsTheHandAndSnapsWhenItIsLetGo) {
    QSignalSpy moved(&drag, &ValueDrag::moved);
    drag.begin("r5");
    drag.to(-0.1);
    drag.to(-0.155);
    // 3k9 * 10^-0.155 = 2729.5, three digits.
    EXPECT_DOUBLE_EQ(valueOf("r5"), 2730.0);
    EXPECT_EQ(moved.last()[0].toString(), "2k73");
    drag.drop(false);
    EXPECT_DOUBLE_EQ(valueOf("r5"), 2700.0);
    EXPECT_EQ(lastSentence(), QString::fromUtf8("R5 snapped 2k73 → 2k7 of E24, assumed stock"));
    EXPECT_FALSE(drag.isActive());
}

TEST_F(ValueDragTest, IsOneUndoStep) {
    const Job before = open.job();
    const int steps = open.document.undoStack().count();
    drag.begin("r5");
    for (int i = 1; i <= 20; ++i) {
        drag.to(-0.01 * i);
    }
    drag.drop(false);
    EXPECT_EQ(open.document.undoStack().count(), steps + 1);
    drag.begin("r5");
    drag.to(0.2);
    drag.drop(false);
    EXPECT_EQ(open.document.undoStack().count(), steps + 2) << "the next drag is a step of its own";
    open.document.undoStack().undo();
    open.document.undoStack().undo();
    EXPECT_EQ(open.job(), before);
}

/// Story: Esc in the middle of a drag left a mod of the stock value in the plan.
TEST_F(ValueDragTest, CancelLeavesNothing) {
    const Job before = open.job();
    const int steps = open.document.undoStack().count();
    drag.begin("r7");
    drag.to(0.4);
    EXPECT_NE(open.job(), before);
    drag.cancel();
    EXPECT_EQ(open.job(), before);
    EXPECT_EQ(open.document.undoStack().count(), steps);
    EXPECT_EQ(lastSentence(), "R7 is back at 1k5");
    drag.to(1.0);
    EXPECT_EQ(open.job(), before) << "the button is still down, but the drag is over";
}

TEST_F(ValueDragTest, AltLeavesTheValueFree) {
    drag.begin("r5");
    drag.to(-0.155);
    drag.drop(true);
    EXPECT_DOUBLE_EQ(valueOf("r5"), 2730.0);
    EXPECT_EQ(lastSentence(), "R5 is 2k73");
}

TEST_F(ValueDragTest, WhatHasNoValueOfItsOwnStays) {
    const Job before = open.job();
    for (const PartId& part : {PartId("q1"), PartId("d1"), open.job().stock.ports.battery, PartId("none")}) {
        drag.begin(part);
        EXPECT_FALSE(drag.isActive()) << part;
        drag.to(1.0);
        drag.drop(false);
    }
    EXPECT_EQ(open.job(), before);
    EXPECT_EQ(ended.size(), 0);
}

TEST_F(ValueDragTest, AHundredTimesIsTheFarthest) {
    drag.begin("r5");
    drag.to(9.0);
    EXPECT_DOUBLE_EQ(valueOf("r5"), 390e3);
    drag.to(-9.0);
    EXPECT_DOUBLE_EQ(valueOf("r5"), 39.0);
    drag.cancel();
}

}  // namespace
}  // namespace ohmwright::test
