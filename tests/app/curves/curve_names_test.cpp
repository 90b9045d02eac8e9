// Names on thin curves.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_names.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

const QRectF plot(0.0, 0.0, 400.0, 200.0);
const QSizeF size(50.0, 16.0);

QPolygonF level(double y) {
    return {{0.0, y}, {400.0, y}};
}

TEST(CurveNames, StandFreeOfEveryCurve) {
    // Two curves that part to the right of the middle.
    const QPolygonF up{{0.0, 100.0}, {200.0, 100.0}, {400.0, 40.0}};
    const QPolygonF down{{0.0, 100.0}, {200.0, 100.0}, {400.0, 160.0}};
    const auto placed = placeNames(plot, {{up, size}, {down, size}}, {level(100.0)}, {});
    ASSERT_TRUE(placed[0] && placed[1]);
    EXPECT_GT(placed[0]->left(), 150.0);
    EXPECT_LT(placed[0]->bottom(), 100.0);
    EXPECT_GT(placed[1]->top(), 100.0);
    EXPECT_FALSE(placed[0]->intersects(*placed[1]));
    EXPECT_TRUE(plot.contains(*placed[0]));
}

TEST(CurveNames, KeepOffWhatStandsThere) {
    const QRectF taken(0.0, 60.0, 320.0, 80.0);
    const auto placed = placeNames(plot, {{level(100.0), size}}, {}, {taken});
    ASSERT_TRUE(placed[0]);
    EXPECT_FALSE(placed[0]->intersects(taken));
}

TEST(CurveNames, ACurveWithoutAFreePlaceHasNone) {
    EXPECT_FALSE(placeNames(plot, {{level(100.0), size}}, {}, {plot})[0]);
    // The same curve twice: no place is off the other.
    EXPECT_FALSE(placeNames(QRectF(0.0, 90.0, 400.0, 20.0), {{level(100.0), size}}, {}, {})[0]);
}

}  // namespace
}  // namespace ohmwright
