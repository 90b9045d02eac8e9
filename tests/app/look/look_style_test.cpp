// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/look_style.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QCheckBox>
#include <QScrollBar>
#include <QSpinBox>
#include <QTabBar>
#include <QTest>
#include <QVBoxLayout>

namespace ohmwright {
namespace {

TEST(LookStyle, CheckBoxIsInkWhenOnAndNeverViolet) {
    const ThemeGuard guard;
    QCheckBox box("dark");
    box.resize(120, 30);
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        box.setChecked(false);
        const int off = pixelsOf(grabbedPicture("style-check-off", box), c.ink);
        box.setChecked(true);
        const QImage on = grabbedPicture("style-check-on", box);
        EXPECT_GT(pixelsOf(on, c.ink), off + 80) << themeName(kind);
        EXPECT_EQ(pixelsOf(on, c.now), 0) << "violet is the mod's alone";
    }
}

TEST(LookStyle, ScrollBarIsTwelveWideWithoutArrowsAndDrags) {
    QScrollBar bar(Qt::Vertical);
    bar.setRange(0, 100);
    bar.setPageStep(50);
    EXPECT_EQ(bar.sizeHint().width(), 12);
    bar.resize(12, 300);
    bar.show();
    EXPECT_GT(pixelsOf(grabbedPicture("style-scroll", bar), Theme::current().colours().edge), 300);
    // The handle is a third of 300 px: 50 shown of 150 in all.
    QTest::mousePress(&bar, Qt::LeftButton, {}, QPoint(6, 50));
    QTest::mouseMove(&bar, QPoint(6, 100));
    QTest::mouseMove(&bar, QPoint(6, 150));
    QTest::mouseRelease(&bar, Qt::LeftButton, {}, QPoint(6, 150));
    EXPECT_NEAR(bar.value(), 50, 1);
    QTest::mouseClick(&bar, Qt::LeftButton, {}, QPoint(6, 2));
    EXPECT_LT(bar.value(), 10) << "a press above the handle pages";
}

TEST(LookStyle, SpinBoxHasTwoHalvesAtTheRightThatStep) {
    const ThemeGuard guard;
    QSpinBox spin;
    spin.setRange(0, 10);
    spin.setValue(5);
    spin.resize(160, 40);
    spin.show();
    QTest::mouseClick(&spin, Qt::LeftButton, {}, QPoint(140, 8));
    EXPECT_EQ(spin.value(), 6);
    QTest::mouseClick(&spin, Qt::LeftButton, {}, QPoint(140, 32));
    QTest::mouseClick(&spin, Qt::LeftButton, {}, QPoint(140, 32));
    EXPECT_EQ(spin.value(), 4);
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        EXPECT_GT(pixelsOf(grabbedPicture("style-spin", spin), coloursOf(kind).ink), 10);
    }
}

TEST(LookStyle, SelectedTabHasAnInkMarkUnderIt) {
    const ThemeGuard guard;
    QTabBar tabs;
    tabs.addTab("Response 1");
    tabs.addTab("Clip 2");
    tabs.resize(tabs.sizeHint());
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        tabs.setCurrentIndex(0);
        const QImage image = grabbedPicture("style-tabs", tabs);
        const int bottom = tabs.tabRect(0).bottom();
        EXPECT_EQ(image.pixelColor(tabs.tabRect(0).center().x(), bottom - 1), coloursOf(kind).ink);
        EXPECT_NE(image.pixelColor(tabs.tabRect(1).center().x(), bottom - 1), coloursOf(kind).ink);
    }
}

}  // namespace
}  // namespace ohmwright
