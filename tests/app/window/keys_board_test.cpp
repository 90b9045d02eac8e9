// The place Board by the keyboard alone.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/keys_alone.h"

#include "app/board/board_place.h"
#include "app/board/board_view.h"

namespace ohmwright::test {
namespace {

class KeysBoard : public KeysAlone {
protected:
    void SetUp() override {
        ASSERT_TRUE(panelTo("StageMap"));
        key(Qt::Key_B);
        ASSERT_EQ(window->place(), Place::board);
        ASSERT_TRUE(panelTo("BoardView"));
    }
    [[nodiscard]] BoardPlace& board() { return window->boardPlace(); }
    [[nodiscard]] bool isOnBoard() { return QApplication::focusWidget() == &board().view(); }
};

// As on the map: every pane once round, and back the other way.
TEST_F(KeysBoard, F6GoesFromTheBoardToTheTabsToTheToolsAndBack) {
    key(Qt::Key_F6);
    EXPECT_EQ(focusName(), "Places");
    key(Qt::Key_F6);
    EXPECT_TRUE(board().isAncestorOf(QApplication::focusWidget()));
    EXPECT_FALSE(isOnBoard());
    key(Qt::Key_F6);
    EXPECT_TRUE(isOnBoard()) << focusName().toStdString();
    key(Qt::Key_F6, Qt::ShiftModifier);
    EXPECT_FALSE(isOnBoard());
    EXPECT_TRUE(board().isAncestorOf(QApplication::focusWidget()));
}

TEST_F(KeysBoard, EscLeavesAHalfTypedNameAndThenTheChosenLeg) {
    write("C4 2");
    EXPECT_EQ(focusName(), "Go to a part and leg");
    key(Qt::Key_Return);
    ASSERT_TRUE(isOnBoard()) << focusName().toStdString();
    EXPECT_EQ(board().leg(), (Leg{idOf("C4"), 1}));
    write("R");
    EXPECT_FALSE(isOnBoard());
    key(Qt::Key_Escape);
    EXPECT_TRUE(isOnBoard()) << focusName().toStdString();
    EXPECT_EQ(board().leg(), (Leg{idOf("C4"), 1}));
    key(Qt::Key_Escape);
    EXPECT_FALSE(board().leg());
    EXPECT_TRUE(board().words().contains("no leg chosen"));
    EXPECT_EQ(window->place(), Place::board);
    key(Qt::Key_Right);
    EXPECT_TRUE(board().leg());
}

}  // namespace
}  // namespace ohmwright::test
