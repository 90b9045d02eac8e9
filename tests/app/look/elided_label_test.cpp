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

}  // namespace
}  // namespace ohmwright
