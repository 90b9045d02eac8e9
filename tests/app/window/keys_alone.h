/// The window with the demo job open, and a user who has a keyboard and no mouse: keys go wherever the keyboard is, the
/// keyboard goes elsewhere by keys only, and nothing is called but what a key calls.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/app/window/open_window.h"

#include "app/curves/cursor_column.h"
#include "app/papers/papers_place.h"

#include <gmock/gmock.h>
#include <QAccessible>
#include <QMenu>
#include <QTabBar>

namespace ohmwright::test {

class KeysAlone : public OpenWindow {
protected:
    static constexpr int patience = 120'000;
    static constexpr int mostStops = 150;  ///< More than any place has.

    KeysAlone() { EXPECT_TRUE(waitForAnswers()); }

    /// One key, where the keyboard is: in an open menu or card, else at the control that has the focus.
    static void key(Qt::Key which, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(static_cast<QWidget*>(nullptr), which, modifiers);
        QCoreApplication::processEvents();
    }
    static void write(const QString& text) {
        for (const QChar letter : text) {
            QTest::keyClicks(nullptr, letter);
        }
        QCoreApplication::processEvents();
    }

    /// What a screen reader calls a control.
    [[nodiscard]] static QString nameOf(QWidget* widget) {
        QAccessibleInterface* spoken = widget ? QAccessible::queryAccessibleInterface(widget) : nullptr;
        return spoken ? spoken->text(QAccessible::Name).remove('&') : QString();
    }
    /// Of tabs the name of the whole row, not of the tab that is open.
    [[nodiscard]] static QString focusName() {
        QWidget* focus = QApplication::focusWidget();
        return qobject_cast<QTabBar*>(focus) ? focus->accessibleName() : nameOf(focus);
    }

    /// Tab until the control of this name has the keyboard.
    [[nodiscard]] static testing::AssertionResult tabTo(const QString& name, Qt::Key way = Qt::Key_Tab) {
        QStringList met;
        for (int stop = 0; stop < mostStops; ++stop) {
            if (focusName() == name) {
                return testing::AssertionSuccess();
            }
            met << focusName();
            key(way);
        }
        met.removeDuplicates();
        return testing::AssertionFailure()
               << "Tab does not reach " << name.toStdString() << "; it goes over " << met.join(" | ").toStdString();
    }

    /// F6 until the keyboard is in a panel of this class.
    [[nodiscard]] static testing::AssertionResult panelTo(const char* panel) {
        const QByteArray whole = QByteArray("ohmwright::") + panel;
        for (int turn = 0; turn < 10; ++turn) {
            for (const QWidget* at = QApplication::focusWidget(); at; at = at->parentWidget()) {
                if (whole == at->metaObject()->className()) {
                    return testing::AssertionSuccess();
                }
            }
            key(Qt::Key_F6);
        }
        return testing::AssertionFailure() << "F6 does not reach " << panel;
    }

    /// The arrows walk the map to a part; what is selected stands in the part panel.
    [[nodiscard]] testing::AssertionResult walkTo(const char* reference) {
        if (const testing::AssertionResult isThere = panelTo("StageMap"); !isThere) {
            return isThere;
        }
        for (const Qt::Key way : {Qt::Key_Right, Qt::Key_Left}) {
            for (int step = 0; step < mostStops; ++step) {
                if (window->selection().part() == idOf(reference)) {
                    return testing::AssertionSuccess();
                }
                const PartId before = window->selection().part();
                key(way);
                if (window->selection().part() == before) {
                    break;
                }
            }
        }
        return testing::AssertionFailure() << "the arrows do not reach " << reference;
    }

    /// Home, then Right, then finer steps back, until the cursor of the response is at most half a step from `hz`.
    void cursorTo(double hz) {
        ASSERT_TRUE(panelTo("CurvesPanel"));
        constexpr double semitone = 1.0594630943592953;  // the twelfth root of 2
        key(Qt::Key_Home);
        for (int step = 0; step < mostStops && window->selection().cursorHz() * std::sqrt(semitone) < hz; ++step) {
            key(Qt::Key_Right);
        }
        const bool isAbove = window->selection().cursorHz() > hz;
        for (int step = 0; step < 10 && std::abs(std::log2(window->selection().cursorHz() / hz)) > 0.1 / 24; ++step) {
            key(isAbove ? Qt::Key_Left : Qt::Key_Right, Qt::ShiftModifier);
        }
        ASSERT_TRUE(waitForAnswers());
    }

    /// Down in the open menu until an entry begins so, then Enter.
    [[nodiscard]] testing::AssertionResult choose(const QString& words) {
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QStringList met;
        for (int step = 0; menu && step < mostStops; ++step) {
            key(Qt::Key_Down);
            const QString entry = menu->activeAction() ? menu->activeAction()->text().remove('&') : QString();
            if (entry.startsWith(words)) {
                key(Qt::Key_Return);
                takeBack();
                return testing::AssertionSuccess();
            }
            met << entry;
        }
        met.removeDuplicates();
        return testing::AssertionFailure()
               << (menu ? "the menu holds " : "no menu is open ") << met.join(" | ").toStdString();
    }

    /// The papers, the way-back sheet among them, and that it takes the demo's four mods back.
    void openWayBackOfAllMods(std::string& sheet) {
        using testing::HasSubstr;
        key(Qt::Key_F8);
        ASSERT_EQ(focusName(), "Bench sheet");
        key(Qt::Key_Down);
        EXPECT_EQ(focusName(), "Way-back sheet");
        ASSERT_EQ(window->papers().chosen(), PaperKind::wayBack);
        ASSERT_TRUE(QTest::qWaitFor([this] { return window->papers().isReady(); }, patience));
        sheet = window->papers().words().toStdString();
        EXPECT_THAT(sheet, HasSubstr("D, C, B, A"));
        EXPECT_THAT(sheet, HasSubstr("Fit C7 Clp 47n, printed 473"));
        EXPECT_THAT(sheet, HasSubstr("Fit R5 Rg 3k9"));
        EXPECT_THAT(sheet, HasSubstr("Take D3 out, 1N4148"));
        EXPECT_THAT(sheet, HasSubstr("Fit C4 Cg 56n, printed 563"));
    }

    /// What a window manager does when a menu or card has closed; there is none here.
    void takeBack() {
        window->activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&*window));
    }

    /// The program started anew, with nothing open.
    void startAnew() {
        window.emplace();
        window->resize(1600, 1000);
        window->show();
        takeBack();
    }
};

}  // namespace ohmwright::test
