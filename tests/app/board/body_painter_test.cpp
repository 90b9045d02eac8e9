// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/body_painter.h"

#include "app/look/theme.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QFontMetricsF>
#include <QImage>
#include <QPainter>

#include <algorithm>

namespace ohmwright {
namespace {

/// Rows of a picture that hold the colour of names, around the middle of a label.
struct Rows {
    int top = 0;
    int bottom = -1;
    [[nodiscard]] int count() const { return bottom - top + 1; }
};

Rows lettersAbove(const QImage& picture, const QPointF& label) {
    constexpr int halfWidth = 12, above = 22, below = 3;
    const int words = qGray(boardColour("words").rgb()), mask = qGray(boardColour("mask").rgb());
    Rows rows{picture.height(), -1};
    for (int y = std::max(0, int(label.y()) - above); y <= std::min(picture.height() - 1, int(label.y()) + below);
         ++y) {
        for (int x = std::max(0, int(label.x()) - halfWidth); x <= int(label.x()) + halfWidth && x < picture.width();
             ++x) {
            if (std::abs(qGray(picture.pixel(x, y)) - words) < std::abs(words - mask) / 2) {
                rows.top = std::min(rows.top, y);
                rows.bottom = y;
            }
        }
    }
    return rows;
}

// A board on a small screen, and on a smaller one: letters keep their 12 px and are whole, at the upper edge too.
TEST(BodyPainter, NamesAreWholeWhereTheBoardIsShownSmall) {
    const Circuit circuit = test::harbourLamp().stock;
    const BoardSheet sheet = boardSheet({}, circuit, BoardSide::part);
    QFont font = Theme::current().font(TextRole::body);
    font.setPixelSize(12);
    const double capitals = QFontMetricsF(font).capHeight();
    for (const double scale : {0.9, 0.65, 0.5}) {
        QImage picture(int(scale * sheet.width), int(scale * sheet.height), QImage::Format_RGB32);
        picture.fill(boardColour("mask"));
        QPainter painter(&picture);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.scale(scale, scale);
        paintDrawnNames(painter, sheet, circuit);
        painter.end();
        for (const DrawnBody& body : sheet.drawn.bodies) {
            const Rows rows = lettersAbove(picture, {scale * body.label.x, scale * body.label.y});
            EXPECT_GE(rows.count(), int(capitals) - 1) << body.parts.front() << " at " << scale;
            EXPECT_GT(rows.top, 0) << body.parts.front() << " at " << scale;
        }
    }
}

// What runs where a name stands is cut off by the name's rim: the letters keep their contrast.
TEST(BodyPainter, ANameStandsOnItsOwnGround) {
    const Circuit circuit = test::harbourLamp().stock;
    const BoardSheet sheet = boardSheet({}, circuit, BoardSide::part);
    const DrawnBody& body = sheet.drawn.bodies.front();
    QImage picture(int(sheet.width), int(sheet.height), QImage::Format_RGB32);
    picture.fill(Qt::white);  // a net as broad as can be
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    paintDrawnNames(painter, sheet, circuit);
    painter.end();
    int own = 0;
    for (int y = int(body.label.y) - 14; y <= int(body.label.y); ++y) {
        for (int x = int(body.label.x) - 8; x <= int(body.label.x) + 8; ++x) {
            own += picture.pixelColor(x, y) == boardColour("mask") ? 1 : 0;
        }
    }
    EXPECT_GT(own, 40);
}

}  // namespace
}  // namespace ohmwright
