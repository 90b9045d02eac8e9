// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/value_box.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QLineEdit>

namespace ohmwright {
namespace {

TEST(ValueBox, EntryStandsRightOfTheStruckStockAndLeftOfTheHalves) {
    ValueBox box;
    box.resize(276, 58);
    box.setTexts({}, "120n");
    const int alone = box.entry()->geometry().left();
    box.setTexts("56n", "120n");
    EXPECT_GT(box.entry()->geometry().left(), alone + 20);
    EXPECT_LE(box.entry()->geometry().right(), 276 - 44);
    EXPECT_EQ(box.struckText().toStdString(), "56n");
}

TEST(ValueBox, LooksTheSameAgainAfterThemeAndBack) {
    const ThemeGuard guard;
    ValueBox box;
    box.resize(276, 58);
    box.setTexts("56n", "120n");
    box.setPlanned(true);
    const QImage before = grabbedPicture("value-box", box);
    Theme::current().setKind(ThemeKind::dark);
    const QImage dark = grabbedPicture("value-box", box);
    EXPECT_GT(pixelsOf(dark, coloursOf(ThemeKind::dark).now), 100);
    EXPECT_EQ(pixelsOf(dark, coloursOf(ThemeKind::light).raised), 0);
    Theme::current().setKind(ThemeKind::light);
    EXPECT_EQ(grabbedPicture("value-box", box), before);
}

}  // namespace
}  // namespace ohmwright
