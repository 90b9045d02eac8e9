// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/sheet_text.h"

#include <gtest/gtest.h>
#include <QFontMetricsF>

namespace ohmwright {
namespace {

TEST(SheetText, LineEndsAndControlsBecomeOneSpace) {
    EXPECT_EQ(paperText(QString("two\nlines\t and\u2028more\x01")).toStdString(), "two lines and more");
    EXPECT_EQ(paperText(std::string("  \u03A9 \u00B5 \u201Cquoted\u201D  ")).toStdString(),
              "\u03A9 \u00B5 \u201Cquoted\u201D");
}

TEST(SheetText, NothingIsSmallerThanNinePoints) {
    // 9 pt at 96 dpi
    EXPECT_GE(print::smallPixels, 12);
    EXPECT_EQ(paperFont(print::smallPixels).pixelSize(), 12);
}

TEST(SheetText, WrappedLinesFitAndTheLastIsElided) {
    const QFont font = paperFont(print::bodyPixels);
    const QString words = QString("low strings vanish in the band ").repeated(20);
    const QStringList lines = wrapText(words, font, 300.0, 3);
    ASSERT_EQ(lines.size(), 3);
    for (const QString& line : lines) {
        EXPECT_LE(QFontMetricsF(font).horizontalAdvance(line), 301.0);
    }
    EXPECT_TRUE(lines.last().endsWith(QChar(0x2026)));
}

TEST(SheetText, AWordWiderThanTheLineIsBroken) {
    const QFont font = paperFont(print::bodyPixels);
    for (const QString& line : wrapText(QString(500, 'W'), font, 200.0, 4)) {
        EXPECT_LE(QFontMetricsF(font).horizontalAdvance(line), 201.0);
    }
}

TEST(SheetText, ShortTextIsKeptWhole) {
    EXPECT_EQ(wrapText("both pads whole", paperFont(print::bodyPixels), 300.0, 3), QStringList("both pads whole"));
}

}  // namespace
}  // namespace ohmwright
