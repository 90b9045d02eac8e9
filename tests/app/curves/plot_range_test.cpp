// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/plot_range.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

TEST(PlotRange, StaysWhereTheValuesFit) {
    EXPECT_EQ(grownToHold({-30, 12}, {-19.5, 7.2}, 6), (PlotRange{-30, 12}));
}

TEST(PlotRange, GrowsInWholeStepsBothWays) {
    EXPECT_EQ(grownToHold({-30, 12}, {-31, 25}, 6), (PlotRange{-36, 30}));
}

TEST(PlotRange, LeavesRoomForTheLineAtTheEdge) {
    EXPECT_EQ(grownToHold({-30, 12}, {-30, 12}, 6), (PlotRange{-36, 18}));
}

TEST(PlotRange, NeverShrinks) {
    const PlotRange grown = gainRange(restingGainRange, {-50, 30}, {});
    EXPECT_EQ(gainRange(grown, {-10, 0}, {}), grown);
}

TEST(PlotRange, HoldsStockHoweverLowItLies) {
    EXPECT_LT(gainRange(restingGainRange, {-130, -80}, {}).low, -130);
}

TEST(PlotRange, ABrokenConnectionInNowDoesNotSqueezeStockFlat) {
    const std::vector<PlotRange> others{{-140, -120}};
    // 48 dB below stock's −20, then to the next step of the −30 .. 12 grid.
    EXPECT_EQ(gainRange(restingGainRange, {-20, 7}, others), (PlotRange{-72, 12}));
}

TEST(PlotRange, NowAboveStockIsHeld) {
    const std::vector<PlotRange> others{{-5, 20}};
    EXPECT_EQ(gainRange(restingGainRange, {-20, 7}, others), (PlotRange{-30, 24}));
}

// A stage that was off woke up by 68 dB, and its curve stood above the frame, unseen.
TEST(PlotRange, NowFarAboveStockIsHeldToo) {
    const std::vector<PlotRange> others{{50, 64}};
    EXPECT_EQ(gainRange(restingGainRange, {-14, -8}, others), (PlotRange{-30, 66}));
    EXPECT_EQ(differenceRange(restingDifferenceRange, {60, 72}), (PlotRange{-3, 75}));
}

TEST(PlotRange, DifferenceStripGrowsByThree) {
    EXPECT_EQ(differenceRange(restingDifferenceRange, {-0.1, 7.56}), (PlotRange{-3, 9}));
}

TEST(PlotRange, ClipAxisIsTheSameAboveAndBelow) {
    const PlotRange range = clipRange(restingClipRange, {-0.3, 0.57});
    EXPECT_NEAR(range.high, 0.6, 1e-12);
    EXPECT_NEAR(range.low, -0.6, 1e-12);
}

TEST(PlotRange, ExtentLooksOnlyWhereItIsTold) {
    const std::vector<double> hz{10, 20, 6000, 20000};
    const std::vector<double> gain{-90, -19, 7, -60};
    EXPECT_EQ(extentBetween(hz, gain, 20, 6000), (PlotRange{-19, 7}));
}

TEST(PlotRange, ExtentPassesOverWhatIsNoNumber) {
    const double infinite = std::numeric_limits<double>::infinity();
    const std::vector<double> hz{20, 30, 40};
    const std::vector<double> gain{-infinite, std::nan(""), 3};
    EXPECT_EQ(extentBetween(hz, gain, 20, 40), (PlotRange{3, 3}));
    EXPECT_FALSE(extentBetween(hz, gain, 20, 30).has_value());
}

TEST(PlotRange, LabelsThinOutWhenTheyWouldTouch) {
    const std::vector<double> steps{6, 12, 24};
    EXPECT_EQ(labelStep({-30, 12}, 147, 16, steps), 6);
    EXPECT_EQ(labelStep({-30, 12}, 60, 16, steps), 12);
    EXPECT_EQ(labelStep({-30, 12}, 10, 16, steps), 24);
}

TEST(PlotRange, MultiplesIncludeBothEnds) {
    EXPECT_EQ(multiplesIn({-30, 12}, 6), (std::vector<double>{-30, -24, -18, -12, -6, 0, 6, 12}));
    EXPECT_EQ(multiplesIn({-0.6, 0.6}, 0.2).size(), 7U);
}

}  // namespace
}  // namespace ohmwright
