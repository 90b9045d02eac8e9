// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_palette.h"

#include "app/look/theme.h"
#include "tests/app/map/hand_on_sheet.h"

#include <QAbstractButton>

namespace ohmwright::test {
namespace {

class DrawPaletteTest : public HandOnSheet {
protected:
    DrawPaletteTest() { palette.show(); }
    QAbstractButton* row(const QString& name) {
        for (auto* one : palette.findChildren<QAbstractButton*>()) {
            if (one->text() == name) {
                return one;
            }
        }
        ADD_FAILURE() << name.toStdString();
        return nullptr;
    }

    DrawPalette palette{hand};
};

TEST_F(DrawPaletteTest, ARowTakesItsThing) {
    QSignalSpy taken(&palette, &DrawPalette::taken);
    QTest::mouseClick(row("signal source"), Qt::LeftButton);
    ASSERT_TRUE(hand.held());
    EXPECT_TRUE(hand.held()->thing->isSignalSource());
    QTest::mouseClick(row("wire"), Qt::LeftButton);
    EXPECT_FALSE(hand.held());
    EXPECT_TRUE(hand.takesWire());
    EXPECT_TRUE(hand.pen().empty()) << "the pen comes down where the sheet is clicked";
    EXPECT_EQ(taken.count(), 2);
    EXPECT_EQ(row("ground")->accessibleName(), "ground, key E");
}

// The rows kept the height of the text setting that the window had begun with.
TEST_F(DrawPaletteTest, RowsFollowTheTextSetting) {
    const int before = row("wire")->height();
    Theme::current().setTextScale(1.3);
    EXPECT_EQ(row("wire")->height(), qRound(before * 1.3));
    Theme::current().setTextScale(1.0);
    EXPECT_EQ(row("wire")->height(), before);
}

/// Columns of a row where something is drawn, up to `end`.
int rightmostInk(const QImage& picture, int end) {
    const QColor ground = picture.pixelColor(0, 0);
    int last = -1;
    for (int x = 0; x < end; ++x) {
        for (int y = 2; y < picture.height() - 2; ++y) {
            last = picture.pixelColor(x, y) != ground ? x : last;
        }
    }
    return last;
}

// The symbols of the two field-effect transistors ran into their names and into one another.
TEST_F(DrawPaletteTest, SymbolsStayInTheirRoom) {
    palette.resize(220, 800);
    palette.setFolded(true);  // without names
    constexpr int room = 14 + 52 + 2;
    for (auto* one : palette.findChildren<QAbstractButton*>()) {
        const QImage picture = one->grab().toImage();
        EXPECT_LE(rightmostInk(picture, 150), room) << one->text().toStdString();
        EXPECT_GT(rightmostInk(picture, 150), 20) << one->text().toStdString();
    }
}

}  // namespace
}  // namespace ohmwright::test
