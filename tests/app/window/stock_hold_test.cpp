// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/stock_hold.h"

#include "app/document/selection.h"

#include <gtest/gtest.h>
#include <QApplication>
#include <QTest>

namespace ohmwright {
namespace {

struct Held {
    Selection selection;
    StockHold hold{selection};
};

TEST(StockHold, ShowsStockOnlyWhileItIsDown) {
    Held held;
    held.hold.press();
    EXPECT_TRUE(held.selection.holdsStock());
    held.hold.release();
    EXPECT_FALSE(held.selection.holdsStock());
}

TEST(StockHold, TwoQuickPressesLatch) {
    Held held;
    held.hold.press();
    held.hold.release();
    held.hold.press();
    held.hold.release();
    EXPECT_TRUE(held.selection.holdsStock());
    EXPECT_TRUE(held.hold.isLatched());
    held.hold.press();
    held.hold.release();
    EXPECT_FALSE(held.selection.holdsStock());
}

TEST(StockHold, TwoSlowPressesDoNot) {
    Held held;
    held.hold.press();
    held.hold.release();
    QTest::qWait(QApplication::doubleClickInterval() + 30);
    held.hold.press();
    held.hold.release();
    EXPECT_FALSE(held.selection.holdsStock());
}

TEST(StockHold, ARepeatedPressIsOne) {
    Held held;
    held.hold.press();
    held.hold.press();
    EXPECT_FALSE(held.hold.isLatched());
    held.hold.release();
    EXPECT_FALSE(held.selection.holdsStock());
}

TEST(StockHold, LettingGoEndsALatch) {
    Held held;
    held.hold.latch();
    EXPECT_TRUE(held.selection.holdsStock());
    held.hold.letGo();
    EXPECT_FALSE(held.selection.holdsStock());
    EXPECT_FALSE(held.hold.isLatched());
}

}  // namespace
}  // namespace ohmwright
