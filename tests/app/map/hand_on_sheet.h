/// An empty sheet with the hand that draws on it, and what a person does with keys and pointer.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/document/job_document.h"
#include "app/map/draw_hand.h"

#include <gtest/gtest.h>
#include <QKeyEvent>
#include <QSignalSpy>
#include <QTest>

namespace ohmwright::test {

class HandOnSheet : public testing::Test {
protected:
    HandOnSheet() {
        Model opamp;
        opamp.kind = PartKind::opamp;
        opamp.name = "TL072";
        Model bipolar;
        bipolar.kind = PartKind::bipolar;
        bipolar.name = "2N3904";
        hand.setModels({opamp, bipolar});
    }

    [[nodiscard]] const Circuit& drawn() const { return document.job()->stock; }
    [[nodiscard]] const Part& part(const char* reference) const {
        const Part* found = findPartByReference(drawn(), reference);
        EXPECT_NE(found, nullptr) << reference;
        static const Part none;
        return found ? *found : none;
    }
    /// Whether the key was the hand's.
    bool press(int key, Qt::KeyboardModifiers modifiers = Qt::NoModifier, const QString& text = {}) {
        return hand.key(QKeyEvent(QEvent::KeyPress, key, modifiers, text));
    }
    void type(const QString& text) {
        for (const QChar letter : text) {
            press(letter.toUpper().unicode(), Qt::NoModifier, letter);
        }
    }
    /// Puts a thing down by its key.
    void put(char key, const QString& typed, GridPoint at) {
        hand.setCaret(at);
        type(QString(QLatin1Char(key)));
        type(typed);
        press(Qt::Key_Return);
        EXPECT_FALSE(hand.held()) << key << typed.toStdString();
        press(Qt::Key_Escape);
    }
    void wire(const std::vector<GridPoint>& points) {
        hand.setCaret(points.front());
        press(Qt::Key_Space);
        for (std::size_t i = 1; i < points.size(); ++i) {
            hand.setCaret(points[i]);
            press(i + 1 < points.size() ? Qt::Key_Space : Qt::Key_Return);
        }
        EXPECT_TRUE(hand.pen().empty());
    }
    void click(QPointF at, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        hand.moveTo(at);
        hand.press(at, modifiers);
        hand.release();
    }
    [[nodiscard]] int steps() { return document.undoStack().count(); }

    JobDocument document;
    DrawHand hand{document};
};

}  // namespace ohmwright::test
