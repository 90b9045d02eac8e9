// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/corner_labels.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

const QRectF plot(40, 30, 500, 150);
const QSizeF words(96, 16);

bool isClear(const std::vector<std::optional<PlacedCornerLabel>>& labels) {
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (labels[i] && !plot.contains(labels[i]->box)) {
            return false;
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (labels[i] && labels[j] && labels[i]->box.intersects(labels[j]->box)) {
                return false;
            }
        }
    }
    return true;
}

TEST(CornerLabels, NeverTouchEachOtherNorLeaveThePlotWhereverTheCornersAre) {
    int shown = 0;
    for (double x = 40; x <= 540; x += 25) {
        for (double y = 30; y <= 180; y += 15) {
            for (const double apart : {0.0, 3.0, 20.0, 60.0, 200.0}) {
                const auto labels = placeLabels(plot, {{{x, y}, words}, {{std::min(540.0, x + apart), y}, words}}, {});
                EXPECT_TRUE(isClear(labels)) << x << " " << y << " " << apart;
                shown += labels[0].has_value() + labels[1].has_value();
            }
        }
    }
    // 21 x 11 x 5 pairs: nearly all find a place.
    EXPECT_GT(shown, 21 * 11 * 5 * 2 * 95 / 100);
}

TEST(CornerLabels, StandBelowAndToTheRightOfTheDiamondWhenNothingIsThere) {
    const auto labels = placeLabels(plot, {{{200, 60}, words}}, {});
    ASSERT_TRUE(labels[0].has_value());
    EXPECT_GT(labels[0]->box.left(), 200);
    EXPECT_GT(labels[0]->box.top(), 60);
}

TEST(CornerLabels, TurnToTheLeftAtTheRightEdge) {
    const auto labels = placeLabels(plot, {{{520, 60}, words}}, {});
    ASSERT_TRUE(labels[0].has_value());
    EXPECT_LT(labels[0]->box.right(), 520);
}

TEST(CornerLabels, KeepOffTheCurves) {
    const QPolygonF line{{40, 100}, {540, 100}};
    const auto labels = placeLabels(plot, {{{200, 60}, words}}, {line});
    ASSERT_TRUE(labels[0].has_value());
    EXPECT_FALSE(labels[0]->box.intersects(QRectF(40, 99, 500, 2)));
}

TEST(CornerLabels, HaveNoPlaceInAPlotThatIsTooSmall) {
    const auto labels = placeLabels(QRectF(0, 0, 60, 12), {{{20, 6}, words}}, {});
    EXPECT_FALSE(labels[0].has_value());
}

}  // namespace
}  // namespace ohmwright
