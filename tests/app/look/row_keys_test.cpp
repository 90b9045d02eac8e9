// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/row_keys.h"

#include <QtCore/qnamespace.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(RowKeys, ArrowsWalkAndStopAtTheEnds) {
    EXPECT_EQ(rowStep(Qt::Key_Down, 0, 3)->row, 1);
    EXPECT_EQ(rowStep(Qt::Key_Down, 2, 3)->row, 2);
    EXPECT_EQ(rowStep(Qt::Key_Up, 1, 3)->row, 0);
    EXPECT_EQ(rowStep(Qt::Key_Up, 0, 3)->row, 0);
    EXPECT_FALSE(rowStep(Qt::Key_Up, 1, 3)->isPressed);
}

TEST(RowKeys, EnterSpaceAndTheSignOfTheSumPress) {
    for (const int key : {Qt::Key_Return, Qt::Key_Enter, Qt::Key_Space, Qt::Key_Equal}) {
        const auto step = rowStep(key, 1, 3);
        ASSERT_TRUE(step) << key;
        EXPECT_EQ(step->row, 1) << key;
        EXPECT_TRUE(step->isPressed) << key;
    }
}

TEST(RowKeys, AnyOtherKeyAndATableWithoutRowsAreNotMeant) {
    EXPECT_FALSE(rowStep(Qt::Key_A, 1, 3));
    EXPECT_FALSE(rowStep(Qt::Key_Left, 1, 3));
    EXPECT_FALSE(rowStep(Qt::Key_Down, 0, 0));
    EXPECT_FALSE(rowStep(Qt::Key_Space, 0, 0));
}

}  // namespace
}  // namespace ohmwright
