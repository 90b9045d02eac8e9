// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/focus_outline.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QApplication>
#include <QFocusFrame>
#include <QLabel>
#include <QPushButton>
#include <QTest>

#include <memory>

namespace ohmwright {
namespace {

TEST(FocusOutline, StandsOutsideTheFocusedButtonInInkAndMovesWithTheFocus) {
    const ThemeGuard guard;
    QWidget window;
    window.resize(240, 80);
    auto* first = new QPushButton("first", &window);
    auto* second = new QPushButton("second", &window);
    first->setGeometry(20, 20, 80, 36);
    second->setGeometry(130, 20, 80, 36);
    window.show();
    QApplication::setActiveWindow(&window);
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const QColor ink = coloursOf(kind).focus;
        first->setFocus(Qt::TabFocusReason);
        QApplication::processEvents();
        const QImage onFirst = grabbedPicture("focus-outline", window);
        // 2 px of ink, 2 px outside: 3 px left of the button is ink, 1 px left of it is panel.
        EXPECT_EQ(onFirst.pixelColor(17, 38), ink) << themeName(kind);
        EXPECT_EQ(onFirst.pixelColor(19, 38), coloursOf(kind).panel) << themeName(kind);
        EXPECT_NE(onFirst.pixelColor(127, 38), ink);
        QTest::keyClick(&window, Qt::Key_Tab);
        QApplication::processEvents();
        const QImage onSecond = grabbedPicture("focus-outline-second", window);
        EXPECT_TRUE(second->hasFocus());
        EXPECT_EQ(onSecond.pixelColor(127, 38), ink) << themeName(kind);
        EXPECT_NE(onSecond.pixelColor(17, 38), ink);
    }
    Theme::current().setKind(ThemeKind::light);
    EXPECT_EQ(grabbedPicture("focus-outline-kept", window).pixelColor(127, 38), coloursOf(ThemeKind::light).focus)
        << "a change of theme keeps the outline";
}

TEST(FocusOutline, CustomWidgetsAskForItAndControlsMayRefuse) {
    const QPushButton button;
    const QLabel label;
    EXPECT_TRUE(FocusOutline::isWantedBy(button));
    EXPECT_FALSE(FocusOutline::isWantedBy(label));
    QLabel asking;
    asking.setProperty("focusOutline", true);
    EXPECT_TRUE(FocusOutline::isWantedBy(asking));
    QPushButton refusing;
    refusing.setProperty("focusOutline", false);
    EXPECT_FALSE(FocusOutline::isWantedBy(refusing));
}

TEST(FocusOutline, OutlivesTheWindowItWasShownIn) {
    for (int window = 0; window < 3; ++window) {
        auto shown = std::make_unique<QWidget>();
        auto* button = new QPushButton("press", shown.get());
        shown->show();
        QApplication::setActiveWindow(shown.get());
        ASSERT_TRUE(QTest::qWaitForWindowActive(shown.get()));
        button->setFocus();
        QApplication::processEvents();
        EXPECT_EQ(shown->findChildren<QFocusFrame*>().size(), 1);
    }
}

}  // namespace
}  // namespace ohmwright
