// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/pin_strip.h"

#include <gtest/gtest.h>

#include <QLineEdit>
#include <QMenu>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>

namespace ohmwright {
namespace {

class PinStripTest : public testing::Test {
protected:
    PinStripTest() {
        m_strip.resize(700, 30);
        m_strip.setEntries({{"W", "mod A", 0, {}}, {"X", "as built", 1, "R4: no such part."}});
    }
    QToolButton& button(const QString& letter) { return *m_strip.findChild<QToolButton*>("pin" + letter); }

    PinStrip m_strip;
};

TEST_F(PinStripTest, EachStateHasItsLetterAndNameAndWhyItHasNoCurve) {
    EXPECT_TRUE(m_strip.isVisible());
    EXPECT_EQ(button("W").text(), "W  mod A");
    EXPECT_EQ(button("W").accessibleName(), "Pinned state W, mod A");
    EXPECT_EQ(button("X").text(), "X  as built: cannot be solved");
    EXPECT_EQ(button("X").accessibleDescription(), "R4: no such part.");
    m_strip.setEntries({});
    EXPECT_FALSE(m_strip.isVisible());
}

TEST_F(PinStripTest, TheMenuMakesItThePlanAndTakesItAway) {
    QSignalSpy promote(&m_strip, &PinStrip::promoteAsked);
    QSignalSpy remove(&m_strip, &PinStrip::removeAsked);
    const QList<QAction*> actions = button("X").menu()->actions();
    ASSERT_EQ(actions.size(), 3);
    actions[0]->trigger();
    ASSERT_EQ(promote.count(), 1);
    EXPECT_EQ(promote[0][0].toString(), "X");
    actions[2]->trigger();
    EXPECT_EQ(remove.count(), 1);
    QTest::keyClick(&button("W"), Qt::Key_Delete);
    ASSERT_EQ(remove.count(), 2);
    EXPECT_EQ(remove[1][0].toString(), "W");
}

TEST_F(PinStripTest, ANameIsTypedOverAndEscLeavesTheOldOne) {
    QSignalSpy named(&m_strip, &PinStrip::named);
    QTest::keyClick(&button("W"), Qt::Key_F2);
    auto* field = m_strip.findChild<QLineEdit*>();
    ASSERT_NE(field, nullptr);
    EXPECT_EQ(field->selectedText(), "mod A");
    QTest::keyClick(field, Qt::Key_Escape);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    EXPECT_EQ(m_strip.findChild<QLineEdit*>(), nullptr);
    m_strip.beginNaming("W");
    field = m_strip.findChild<QLineEdit*>();
    ASSERT_NE(field, nullptr);
    QTest::keyClicks(field, "more low end");
    QTest::keyClick(field, Qt::Key_Return);
    ASSERT_EQ(named.count(), 1);
    EXPECT_EQ(named[0][0].toString(), "W");
    EXPECT_EQ(named[0][1].toString(), "more low end");
}

}  // namespace
}  // namespace ohmwright
