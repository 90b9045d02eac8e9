// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/help_pages.h"

#include "app/look/action_table.h"

#include <gtest/gtest.h>
#include <QPointer>
#include <QTest>
#include <QTextBrowser>

namespace ohmwright {
namespace {

TEST(HelpPages, EveryKeyAndGestureIsListed) {
    const QString page = keysPage();
    for (const ActionEntry& entry : actionEntries()) {
        if (*entry.keys != '\0') {
            EXPECT_TRUE(page.contains(QString::fromUtf8(entry.hint).toHtmlEscaped())) << entry.id;
        }
    }
    for (const Gesture& gesture : gestures()) {
        EXPECT_TRUE(page.contains(QString::fromUtf8(gesture.hint).toHtmlEscaped())) << gesture.keys;
    }
}

TEST(HelpPages, AboutNamesVersionAndLicences) {
    const QString page = aboutPage();
    for (const char* words : {"Ohmwright 0.", "GNU General Public License", "SIL Open Font License", "QCustomPlot"}) {
        EXPECT_TRUE(page.contains(words)) << words;
    }
}

TEST(HelpPages, NewsNamesItsVersionAndThatNothingLeavesTheMachine) {
    const QString page = newsPage();
    for (const char* words : {"What is new in 0.", "Papers: bench sheet", "Nothing leaves this machine."}) {
        EXPECT_TRUE(page.contains(words)) << words;
    }
}

TEST(HelpPages, APageIsNotModalAndEscapeClosesIt) {
    QWidget window;
    QPointer<QWidget> page = showPage("Keys", keysPage(), &window);
    EXPECT_FALSE(page->isModal());
    EXPECT_FALSE(page->findChild<QTextBrowser*>()->toPlainText().isEmpty());
    QTest::keyClick(page, Qt::Key_Escape);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    EXPECT_TRUE(page.isNull());
}

}  // namespace
}  // namespace ohmwright
