// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/look_style.h"

#include "app/look/icons.h"
#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QScrollBar>
#include <QSlider>
#include <QSpinBox>
#include <QTabBar>
#include <QTest>
#include <QToolButton>

#include <algorithm>
#include <map>

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
        const QImage image = grabbedPicture("style-spin", spin);
        EXPECT_GT(pixelsOf(image.copy(0, 0, 100, 40), coloursOf(kind).ink), 2) << "the number, " << themeName(kind);
        EXPECT_GT(pixelsOf(image.copy(116, 0, 44, 40), coloursOf(kind).ink), 2) << "plus and minus";
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

/// Colours that fill more than `least` pixels.
int largeColours(const QImage& image, int least) {
    std::map<QRgb, int> counts;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            ++counts[image.pixel(x, y)];
        }
    }
    return static_cast<int>(
        std::count_if(counts.begin(), counts.end(), [&](const auto& c) { return c.second > least; }));
}

TEST(LookStyle, ControlsAreFlatInBothThemes) {
    const ThemeGuard guard;
    QWidget window;
    auto* layout = new QGridLayout(&window);
    int cell = 0;
    const auto add = [&](QWidget* widget) { layout->addWidget(widget, cell / 3, cell % 3), ++cell; };
    const auto button = [&](const char* text) {
        auto* result = new QPushButton(text);
        add(result);
        return result;
    };
    button("Add mod")->setIcon(icon(IconName::plus));
    auto* primary = button("Bench sheet");
    primary->setProperty("primary", true);
    primary->setIcon(icon(IconName::print, IconGround::ink));
    button("not now")->setEnabled(false);
    auto* latched = button("Hold for stock");
    latched->setCheckable(true);
    latched->setChecked(true);
    auto* undo = new QToolButton;
    undo->setIcon(icon(IconName::undo));
    add(undo);
    auto* redo = new QToolButton;
    redo->setIcon(icon(IconName::redo));
    redo->setEnabled(false);
    add(redo);
    auto* combo = new QComboBox;
    combo->addItems({"1N4148", "1N4001"});
    add(combo);
    add(new QLineEdit("4k7"));
    auto* slider = new QSlider(Qt::Horizontal);
    slider->setValue(40);
    add(slider);
    auto* radio = new QRadioButton("one half-wave");
    radio->setChecked(true);
    add(radio);
    add(new QCheckBox("quiet"));
    auto* spin = new QSpinBox;
    spin->setValue(47);
    add(spin);
    EXPECT_GE(combo->sizeHint().height(), 36) << "large enough to hit";
    EXPECT_GE(spin->sizeHint().height(), 36);
    window.resize(560, 240);
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const QImage image = grabbedPicture("style-gallery", window);
        EXPECT_GT(pixelsOf(image, coloursOf(kind).panel), 20000) << themeName(kind);
        // Panel, raised, ink and the lines; a gradient would add a shade for every row.
        EXPECT_LE(largeColours(image, 400), 6) << themeName(kind);
        EXPECT_EQ(pixelsOf(image, coloursOf(kind).now), 0) << "no violet in plain controls";
    }
}

}  // namespace
}  // namespace ohmwright
