// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_board.h"

#include "app/map/draw_hand.h"
#include "tests/support/open_job.h"

#include <QAbstractButton>
#include <QKeyEvent>
#include <QSignalSpy>

#include <algorithm>

namespace ohmwright::test {
namespace {

class DrawBoardTest : public testing::Test {
protected:
    DrawBoardTest() {
        board.resize(1600, 700);
        board.show();
        QCoreApplication::processEvents();
    }
    void press(int key, Qt::KeyboardModifiers modifiers = Qt::NoModifier, const QString& text = {}) {
        board.hand().key(QKeyEvent(QEvent::KeyPress, key, modifiers, text));
        QCoreApplication::processEvents();
    }

    OpenJob open;
    DrawBoard board{open.document, open.selection, open.solver};
};

// "Copied R2" stood in the band of what was refused.
TEST_F(DrawBoardTest, WhatWasDoneIsSaidInTheLineUnderTheDrawing) {
    QSignalSpy said(&board, &DrawBoard::said);
    QSignalSpy refused(&board, &DrawBoard::refused);
    press(Qt::Key_A, Qt::ControlModifier);
    press(Qt::Key_C, Qt::ControlModifier);
    ASSERT_EQ(said.count(), 1);
    EXPECT_EQ(refused.count(), 0);
    EXPECT_TRUE(shownWords(board).contains(said.front().front().toString()));
    press(Qt::Key_Right);
    EXPECT_FALSE(shownWords(board).contains(said.front().front().toString())) << "the keys' words are back";
}

// Curves over an empty sheet were stamped "solving" for ever.
TEST_F(DrawBoardTest, WhyThereIsNothingToSolveIsAnnounced) {
    QSignalSpy lack(&board, &DrawBoard::nothingToSolve);
    open.document.setJob({}, {});
    QCoreApplication::processEvents();
    ASSERT_GE(lack.count(), 1);
    EXPECT_TRUE(lack.back().front().toString().contains("A signal source: S takes one."));
    open.document.setJob(harbourLamp(), {});
    QCoreApplication::processEvents();
    EXPECT_EQ(lack.back().front().toString(), QString());
}

TEST_F(DrawBoardTest, AnAcceptedEditIsAnnounced) {
    QSignalSpy accepted(&board, &DrawBoard::accepted);
    board.hand().setCaret({70, 20});
    press(Qt::Key_R, Qt::NoModifier, "r");
    EXPECT_EQ(accepted.count(), 0);
    press(Qt::Key_Return);
    EXPECT_EQ(accepted.count(), 1);
}

// The columns beside the drawing took half of a small window, and the words of the keys were cut without a sign.
TEST_F(DrawBoardTest, ANarrowWindowFoldsThePaletteAndCutsWordsWithASign) {
    const auto widthOfRow = [this] {
        for (const auto* row : board.findChildren<QAbstractButton*>()) {
            if (row->text() == "resistor") {
                return row->width();
            }
        }
        return 0;
    };
    const int wide = widthOfRow();
    board.resize(1000, 700);
    QCoreApplication::processEvents();
    EXPECT_LT(widthOfRow(), wide * 2 / 3);
    const QStringList words = shownWords(board);
    const auto isKeys = [](const QString& text) { return text.startsWith("a letter takes a part"); };
    const auto keys = std::find_if(words.begin(), words.end(), isKeys);
    ASSERT_NE(keys, words.end());
    EXPECT_TRUE(keys->endsWith(QChar(0x2026))) << keys->toStdString();
}

}  // namespace
}  // namespace ohmwright::test
