// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/header_bar.h"

#include "app/document/selection.h"
#include "app/look/action_table.h"
#include "app/window/stock_hold.h"

#include <gtest/gtest.h>
#include <QAction>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>

namespace ohmwright {
namespace {

class HeaderBarTest : public testing::Test {
protected:
    HeaderBarTest() {
        header.setJobOpen(true);
        header.resize(1600, 52);
        header.show();
    }

    QPushButton* button(const QString& name) {
        for (QPushButton* each : header.findChildren<QPushButton*>()) {
            if (each->accessibleName().startsWith(name)) {
                return each;
            }
        }
        return nullptr;
    }

    Selection selection;
    StockHold hold{selection};
    ActionTable actions;
    HeaderBar header{actions, hold};
};

TEST_F(HeaderBarTest, TheHoldButtonShowsStockWhileItIsDown) {
    QPushButton* stock = button("Hold for stock");
    ASSERT_NE(stock, nullptr);
    QTest::mousePress(stock, Qt::LeftButton);
    EXPECT_TRUE(selection.holdsStock());
    EXPECT_EQ(stock->text().toStdString(), "Showing stock");
    QTest::mouseRelease(stock, Qt::LeftButton);
    EXPECT_FALSE(selection.holdsStock());
    EXPECT_EQ(stock->text().toStdString(), "Hold for stock");
}

TEST_F(HeaderBarTest, HeldByItsKeyTheButtonSaysSoToo) {
    // The key once left the button as it was, so that nothing told why the curves had changed.
    QPushButton* stock = button("Hold for stock");
    ASSERT_NE(stock, nullptr);
    hold.press();
    EXPECT_EQ(stock->text().toStdString(), "Showing stock");
    hold.release();
    EXPECT_EQ(stock->text().toStdString(), "Hold for stock");
}

TEST_F(HeaderBarTest, PressedTwiceItStaysDownAndLooksIt) {
    QPushButton* stock = button("Hold for stock");
    ASSERT_NE(stock, nullptr);
    const QImage up = stock->grab().toImage();
    QTest::mouseClick(stock, Qt::LeftButton);
    QTest::mouseClick(stock, Qt::LeftButton);
    EXPECT_TRUE(selection.holdsStock());
    EXPECT_NE(stock->grab().toImage(), up);
    QTest::mouseClick(stock, Qt::LeftButton);
    EXPECT_FALSE(selection.holdsStock());
    EXPECT_EQ(stock->grab().toImage(), up);
}

TEST_F(HeaderBarTest, TheSheetButtonFollowsItsActionAndSaysWhyItIsOff) {
    QPushButton* sheet = button("Bench sheet");
    ASSERT_NE(sheet, nullptr);
    QAction* print = actions.action("paper.benchSheet");
    print->setEnabled(false);
    header.setSheetObstacle("solving");
    EXPECT_FALSE(sheet->isEnabled());
    print->setEnabled(true);
    EXPECT_TRUE(sheet->isEnabled());
    QSignalSpy asked(print, &QAction::triggered);
    sheet->click();
    EXPECT_EQ(asked.count(), 1);
}

TEST_F(HeaderBarTest, FoldedItIsLower) {
    const int whole = header.height();
    header.setFolded(true);
    EXPECT_LT(header.height(), whole);
    EXPECT_TRUE(button("Bench sheet")->text().contains("Sheet"));
}

}  // namespace
}  // namespace ohmwright
