// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/score_grid.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

// A cubic through four knots is the cubic itself, wherever it is asked.
TEST(ScoreGrid, CubicsAreInterpolatedExactly) {
    const Axis axis = Axis::over(-1.0, 3.0, 9);
    const auto cubic = [](double x) { return 2.0 + x * (0.5 - x * (1.5 - 0.25 * x)); };
    std::vector<double> slice;
    for (std::size_t knot = 0; knot < axis.knots; ++knot) slice.push_back(cubic(axis.at(knot)));
    for (double x = -1.0; x <= 3.0; x += 0.07) {
        EXPECT_NEAR(scoreOn(slice, axis, 1, x), std::abs(cubic(x)), 1e-12) << x;
    }
}

TEST(ScoreGrid, ASliceIsTheGridAtAPlaceOfTheFirstAxis) {
    Grid grid{Axis::over(0.0, 1.0, 5), Axis::over(0.0, 2.0, 5), 2, {}};
    for (std::size_t a = 0; a < 5; ++a) {
        for (std::size_t b = 0; b < 5; ++b) {
            grid.misses.push_back(grid.first.at(a) * grid.second.at(b));
            grid.misses.push_back(grid.first.at(a) - grid.second.at(b));
        }
    }
    std::vector<double> slice;
    grid.sliceAt(0.3, slice);
    EXPECT_NEAR(scoreOn(slice, grid.second, 2, 1.1), std::hypot(0.3 * 1.1, 0.3 - 1.1), 1e-12);
}

TEST(ScoreGrid, AnAxisWithoutLengthIsAPoint) {
    const Axis axis = Axis::over(2.0, 2.0, 25);
    EXPECT_EQ(axis.knots, 1U);
    EXPECT_DOUBLE_EQ(scoreOn({3.0, 4.0}, axis, 2, 2.0), 5.0);
}

}  // namespace
}  // namespace ohmwright
