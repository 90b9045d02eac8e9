// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_thinning.h"

#include "tests/app/curves/sample_answers.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

double furthestFromChords(const std::vector<double>& x, const std::vector<double>& y,
                          const std::vector<std::size_t>& kept) {
    double furthest = 0.0;
    for (std::size_t k = 1; k < kept.size(); ++k) {
        const std::size_t a = kept[k - 1];
        const std::size_t b = kept[k];
        for (std::size_t i = a + 1; i < b; ++i) {
            const double chord = y[a] + (y[b] - y[a]) * (x[i] - x[a]) / (x[b] - x[a]);
            furthest = std::max(furthest, std::abs(chord - y[i]));
        }
    }
    return furthest;
}

TEST(CurveThinning, NoPointLeftOutLiesFurtherThanTheToleranceFromTheLineDrawn) {
    const ResponseCurve curve = test::sampleLinear(340.1).response;
    std::vector<double> x;
    for (const double hz : curve.hz) {
        x.push_back(std::log10(hz));
    }
    for (const double tolerance : {0.001, 0.02, 0.5}) {
        const auto kept = pointsToDraw(x, curve.gainDb, tolerance);
        EXPECT_LE(furthestFromChords(x, curve.gainDb, kept), tolerance * 1.000001) << tolerance;
        EXPECT_EQ(kept.front(), 0U);
        EXPECT_EQ(kept.back(), x.size() - 1);
    }
    EXPECT_LT(pointsToDraw(x, curve.gainDb, 0.02).size(), x.size() / 3);
}

TEST(CurveThinning, AStraightLineIsItsTwoEnds) {
    const std::vector<double> x{0, 1, 2, 3};
    EXPECT_EQ(pointsToDraw(x, std::vector<double>{0, 2, 4, 6}, 0.01), (std::vector<std::size_t>{0, 3}));
}

TEST(CurveThinning, AGapStaysAGap) {
    const double none = std::numeric_limits<double>::quiet_NaN();
    const std::vector<double> x{0, 1, 2, 3, 4, 5, 6};
    EXPECT_EQ(pointsToDraw(x, std::vector<double>{0, 0, 0, none, 0, 0, 0}, 0.01),
              (std::vector<std::size_t>{0, 2, 3, 4, 6}));
}

TEST(CurveThinning, TakesCurvesOfNoAndOfOnePoint) {
    EXPECT_TRUE(pointsToDraw({}, {}, 0.01).empty());
    const std::vector<double> one{1.0};
    EXPECT_EQ(pointsToDraw(one, one, 0.01), std::vector<std::size_t>{0});
}

}  // namespace
}  // namespace ohmwright
