// The least-squares fit is held against an independent one: the same overdetermined system solved by Eigen's column-
// pivoting Householder QR, which knows no normal equations.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/affine_map.h"

#include <gtest/gtest.h>
#include <Eigen/Dense>

#include <cmath>
#include <random>
#include <vector>

namespace ohmwright {
namespace {

/// Rows of the map out of QR: [xx xy x0] and [yx yy y0].
Eigen::MatrixXd solvedByQr(const std::vector<PointPair>& pairs) {
    const auto count = static_cast<Eigen::Index>(pairs.size());
    Eigen::MatrixXd design(count, 3), wanted(count, 2);
    for (Eigen::Index k = 0; k < count; ++k) {
        const PointPair& pair = pairs[static_cast<std::size_t>(k)];
        design.row(k) << pair.from.x, pair.from.y, 1.0;
        wanted.row(k) << pair.to.x, pair.to.y;
    }
    return design.colPivHouseholderQr().solve(wanted).transpose();
}

TEST(AffineMap, FitsAsAnIndependentSolutionOfTheSameLeastSquares) {
    std::mt19937 generator(7);
    std::uniform_real_distribution<double> place(0.0, 6000.0);
    std::normal_distribution<double> hand(0.0, 4.0);
    for (int trial = 0; trial < 20; ++trial) {
        std::vector<PointPair> pairs;
        for (int k = 0; k < 3 + trial; ++k) {
            const BoardPoint from{place(generator), place(generator)};
            pairs.push_back({from,
                             {-0.97 * from.x + 0.05 * from.y + 5900.0 + hand(generator),
                              0.04 * from.x + 1.03 * from.y - 80.0 + hand(generator)}});
        }
        const auto fitted = fitAffine(pairs);
        ASSERT_TRUE(fitted);
        const Eigen::MatrixXd rows = solvedByQr(pairs);
        EXPECT_NEAR(fitted->map.xx, rows(0, 0), 1e-9);
        EXPECT_NEAR(fitted->map.xy, rows(0, 1), 1e-9);
        EXPECT_NEAR(fitted->map.x0, rows(0, 2), 1e-6);
        EXPECT_NEAR(fitted->map.yx, rows(1, 0), 1e-9);
        EXPECT_NEAR(fitted->map.yy, rows(1, 1), 1e-9);
        EXPECT_NEAR(fitted->map.y0, rows(1, 2), 1e-6);
        EXPECT_TRUE(fitted->map.isMirror());
    }
}

// By hand: a square onto a square with one corner 4 px off. Affine maps keep the sums of opposite corners equal, so a
// quarter of the fault stays at each corner: 1 px.
TEST(AffineMap, SaysWhatIsLeft) {
    const std::vector<PointPair> pairs{
        {{0, 0}, {0, 0}}, {{100, 0}, {100, 0}}, {{100, 100}, {104, 100}}, {{0, 100}, {0, 100}}};
    const auto fitted = fitAffine(pairs);
    ASSERT_TRUE(fitted);
    EXPECT_NEAR(fitted->residual, 1.0, 1e-9);
}

TEST(AffineMap, ThreePairsAreMetExactlyAndLeadBack) {
    const std::vector<PointPair> pairs{{{10, 20}, {900, 35}}, {{400, 30}, {510, 50}}, {{200, 310}, {700, 330}}};
    const auto fitted = fitAffine(pairs);
    ASSERT_TRUE(fitted);
    EXPECT_NEAR(fitted->residual, 0.0, 1e-9);
    for (const PointPair& pair : pairs) {
        const BoardPoint back = fitted->map.inverse().at(pair.to);
        EXPECT_NEAR(back.x, pair.from.x, 1e-9);
        EXPECT_NEAR(back.y, pair.from.y, 1e-9);
    }
}

TEST(AffineMap, APointOrALineIsNotEnough) {
    EXPECT_FALSE(fitAffine(std::vector<PointPair>{{{0, 0}, {1, 1}}, {{5, 5}, {6, 6}}}));
    EXPECT_FALSE(fitAffine(std::vector<PointPair>{{{0, 0}, {9, 0}}, {{50, 50}, {6, 6}}, {{90, 90}, {2, 12}}}));
    EXPECT_FALSE(fitMirrored(std::vector<PointPair>{{{0, 0}, {1, 1}}}));
    EXPECT_FALSE(fitMirrored(std::vector<PointPair>{{{3, 3}, {1, 1}}, {{3, 3}, {2, 2}}}));
}

// A board turned over about its upright edge: left and right changed, here also twice as near and shifted.
TEST(AffineMap, TwoPairsGiveTheMirror) {
    const auto fitted = fitMirrored(std::vector<PointPair>{{{100, 100}, {1800, 210}}, {{300, 150}, {1400, 310}}});
    ASSERT_TRUE(fitted);
    EXPECT_TRUE(fitted->map.isMirror());
    EXPECT_NEAR(fitted->residual, 0.0, 1e-9);
    const BoardPoint there = fitted->map.at({500, 400});
    EXPECT_NEAR(there.x, 2000.0 - 2.0 * 500.0, 1e-9);
    EXPECT_NEAR(there.y, 10.0 + 2.0 * 400.0, 1e-9);
}

}  // namespace
}  // namespace ohmwright
