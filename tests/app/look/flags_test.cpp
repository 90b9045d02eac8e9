// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/flags.h"

#include <gtest/gtest.h>
#include <QImage>
#include <QPainter>

namespace ohmwright {
namespace {

/// What a sign at the middle of 60 x 60 px covers.
QRect inkOf(FlagKind kind) {
    QImage picture(60, 60, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    painter.setPen(QPen(Qt::black, 2));
    paintFlag(painter, kind, QPointF(30, 30));
    painter.end();
    QRect ink;
    for (int x = 0; x < picture.width(); ++x) {
        for (int y = 0; y < picture.height(); ++y) {
            ink = picture.pixelColor(x, y) == Qt::white ? ink : ink.united(QRect(x, y, 1, 1));
        }
    }
    return ink;
}

// LOOK.md 3: ground down, supply up; both as wide as 16 to 18 px, a jack 9 px wide, with a pen of 2 px.
TEST(PaintFlag, GroundHangsSupplyStandsAJackIsRoundItsPoint) {
    const QRect ground = inkOf(FlagKind::ground);
    EXPECT_GE(ground.top(), 28);
    EXPECT_NEAR(ground.bottom(), 30 + 14, 2);
    EXPECT_NEAR(ground.width(), 18, 2);
    const QRect supply = inkOf(FlagKind::supply);
    EXPECT_LE(supply.bottom(), 31);
    EXPECT_NEAR(supply.top(), 30 - 6, 2);
    EXPECT_NEAR(supply.width(), 16, 2);
    const QRect jack = inkOf(FlagKind::terminal);
    EXPECT_NEAR(jack.width(), 11, 2);
    EXPECT_EQ(jack.width(), jack.height());
    EXPECT_TRUE(inkOf(FlagKind::note).isEmpty());
}

}  // namespace
}  // namespace ohmwright
