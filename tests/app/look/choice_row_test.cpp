// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/choice_row.h"

#include <gtest/gtest.h>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>

namespace ohmwright {
namespace {

TEST(ChoiceRow, OneIsChosenByMouseOrKeys) {
    ChoiceRow row("values", {"4k7", "4.7 k"});
    row.show();
    row.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&row));
    QSignalSpy made(&row, &ChoiceRow::choiceMade);
    EXPECT_EQ(row.chosen(), 0);
    QTest::mouseClick(&row.button(1), Qt::LeftButton);
    EXPECT_EQ(row.chosen(), 1);
    ASSERT_EQ(made.count(), 1);
    EXPECT_EQ(made.at(0).at(0).toInt(), 1);
    row.button(1).setFocus();
    QTest::keyClick(&row.button(1), Qt::Key_Left);
    EXPECT_EQ(row.chosen(), 0);
    row.setChosen(1);
    EXPECT_FALSE(row.button(0).isChecked());
    EXPECT_EQ(row.button(1).accessibleName(), "values: 4.7 k");
}

}  // namespace
}  // namespace ohmwright
