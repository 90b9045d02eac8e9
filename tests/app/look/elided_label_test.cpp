// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/elided_label.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(ElidedLabel, WhatHasNoRoomEndsInDotsAndStandsInTheToolTip) {
    ElidedLabel label(TextRole::caption, false, &ThemeColours::ink);
    label.setText("kept in a folder with a long name");
    label.resize(1000, 20);
    label.show();
    QCoreApplication::processEvents();
    EXPECT_EQ(label.shownText(), label.text());
    EXPECT_TRUE(label.toolTip().isEmpty());
    label.resize(80, 20);
    QCoreApplication::processEvents();
    EXPECT_TRUE(label.shownText().endsWith(QChar(0x2026))) << label.shownText().toStdString();
    EXPECT_EQ(label.toolTip(), label.text());
    EXPECT_LE(label.fontMetrics().horizontalAdvance(label.shownText()), 80);
}

// Words that came after the last change of size had no tip.
TEST(ElidedLabel, OtherWordsBringTheirOwnTip) {
    ElidedLabel label(TextRole::caption, false, &ThemeColours::ink);
    label.resize(80, 20);
    label.show();
    label.setText("short");
    label.grab();
    EXPECT_TRUE(label.toolTip().isEmpty());
    label.setText("kept in a folder with a long name");
    label.grab();
    EXPECT_EQ(label.toolTip(), label.text());
    label.setText("short");
    label.grab();
    EXPECT_TRUE(label.toolTip().isEmpty());
}

}  // namespace
}  // namespace ohmwright
