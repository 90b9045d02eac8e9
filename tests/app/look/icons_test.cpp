// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/icons.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

constexpr std::array allIcons{IconName::undo, IconName::redo, IconName::print, IconName::plus, IconName::minus,
                              IconName::open, IconName::save, IconName::sun,   IconName::moon};

TEST(Icons, EveryIconStaysOnItsGridAndIsNoOther) {
    // Half the stroke of 1.8 px counts too.
    const QRectF grid(0, 0, 20, 20);
    for (const IconName name : allIcons) {
        EXPECT_TRUE(grid.contains(iconPath(name).boundingRect().adjusted(-0.9, -0.9, 0.9, 0.9)))
            << static_cast<int>(name);
        for (const IconName other : allIcons) {
            EXPECT_EQ(iconPath(name) == iconPath(other), name == other);
        }
    }
}

TEST(Icons, RedoIsUndoInTheMirror) {
    const QRectF undo = iconPath(IconName::undo).boundingRect();
    const QRectF redo = iconPath(IconName::redo).boundingRect();
    EXPECT_DOUBLE_EQ(undo.left(), 20.0 - redo.right());
    EXPECT_DOUBLE_EQ(undo.top(), redo.top());
}

TEST(Icons, FollowTheThemeAndTheirGround) {
    const ThemeGuard guard;
    const QIcon plain = icon(IconName::print);
    const QIcon onInk = icon(IconName::print, IconGround::ink);
    const auto painted = [](const QIcon& what, QIcon::Mode mode, const QColor& ground) {
        QImage image(20, 20, QImage::Format_RGB32);
        image.fill(ground);
        QPainter painter(&image);
        what.paint(&painter, QRect(0, 0, 20, 20), Qt::AlignCenter, mode);
        return image;
    };
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        EXPECT_GT(pixelsOf(painted(plain, QIcon::Normal, c.panel), c.ink), 15) << themeName(kind);
        EXPECT_EQ(pixelsOf(painted(plain, QIcon::Disabled, c.panel), c.ink), 0) << themeName(kind);
        EXPECT_GT(pixelsOf(painted(onInk, QIcon::Normal, c.ink), c.panel), 15) << themeName(kind);
    }
}

TEST(Icons, SheetOfAllIconsForLookingAt) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const QImage sheet = paintedPicture("icons-sheet", {300, 90}, [](QPainter& painter) {
            int cell = 0;
            for (const IconName name : allIcons) {
                paintIcon(painter, QRectF(8 + 32 * cell, 8, 20, 20), name, Theme::current().colours().ink);
                ++cell;
            }
            paintMark(painter, {8, 44, 32, 32});
            paintMark(painter, {60, 50, 20, 20});
        });
        EXPECT_GT(pixelsOf(sheet, coloursOf(kind).ink), 600);
        EXPECT_GT(pixelsOf(sheet, coloursOf(kind).now), 20) << "one foot of the mark is planned";
    }
}

TEST(Icons, MarkIsAWindowIconInEverySize) {
    const QIcon mark = markIcon();
    for (const int side : {16, 32, 48, 256}) {
        EXPECT_EQ(mark.actualSize(QSize(side, side)), QSize(side, side));
    }
}

}  // namespace
}  // namespace ohmwright
