// A meter's reading of a part, typed.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/measured_entry.h"

#include "app/look/text_link.h"

#include <gtest/gtest.h>
#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

namespace ohmwright {
namespace {

class MeasuredEntryTest : public testing::Test {
protected:
    MeasuredEntryTest() {
        Part part;
        part.kind = PartKind::potentiometer;
        part.value = 250e3;
        entry.show(part);
        entry.QWidget::show();
        entry.activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&entry));
        QObject::connect(&entry, &MeasuredEntry::entered,
                         [this](std::optional<double> value) { told.push_back(value); });
    }
    TextLink& link() { return *entry.findChild<TextLink*>(); }
    QLineEdit& field() { return *entry.findChild<QLineEdit*>(); }

    MeasuredEntry entry;
    std::vector<std::optional<double>> told;
};

TEST_F(MeasuredEntryTest, AReadingIsTypedAndEnterTakesIt) {
    EXPECT_EQ(link().text(), "Enter the measured whole track");
    QTest::keyClick(&link(), Qt::Key_Space);
    ASSERT_TRUE(field().isVisible());
    QTest::keyClicks(&field(), "262k");
    QTest::keyClick(&field(), Qt::Key_Return);
    ASSERT_EQ(told.size(), 1U);
    EXPECT_EQ(told.front(), 262e3);
}

TEST_F(MeasuredEntryTest, NothingTakesItBackAndEscLeavesIt) {
    Part part;
    part.value = 3.9e3;
    part.measured = 3.92e3;
    entry.show(part);
    EXPECT_EQ(link().text(), "measured 3k92");
    link().click();
    field().clear();
    QTest::keyClick(&field(), Qt::Key_Escape);
    EXPECT_TRUE(told.empty());
    EXPECT_TRUE(link().isVisible());
    link().click();
    field().clear();
    QTest::keyClick(&field(), Qt::Key_Return);
    ASSERT_EQ(told.size(), 1U);
    EXPECT_FALSE(told.front());
}

TEST_F(MeasuredEntryTest, WhatCannotBeReadIsSaidAndStays) {
    link().click();
    QTest::keyClicks(&field(), "1m");
    QTest::keyClick(&field(), Qt::Key_Return);
    EXPECT_TRUE(told.empty());
    EXPECT_TRUE(field().isVisible());
    EXPECT_TRUE(entry.findChild<QLabel*>()->isVisible());
    EXPECT_FALSE(entry.findChild<QLabel*>()->text().isEmpty());
}

}  // namespace
}  // namespace ohmwright
