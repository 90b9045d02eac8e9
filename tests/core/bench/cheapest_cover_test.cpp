// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/cheapest_cover.h"

#include "tests/support/random_jobs.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

// Against every subset tried one by one.
TEST(Cover, IsTheCheapestThereIs) {
    test::Chance chance(7);
    for (int round = 0; round < 60; ++round) {
        const int rows = 1 + chance.below(9);
        const int columns = 1 + chance.below(8);
        std::vector<std::vector<bool>> covers(std::size_t(rows), std::vector<bool>(std::size_t(columns), false));
        std::vector<double> costs;
        for (int c = 0; c < columns; ++c) {
            costs.push_back(1.0 + chance.below(4));
        }
        for (auto& row : covers) {
            for (int c = 0; c < columns; ++c) {
                row[std::size_t(c)] = chance.oneIn(3);
            }
        }
        const auto coverable = [&](const std::vector<bool>& row) {
            return std::find(row.begin(), row.end(), true) != row.end();
        };
        double best = 1e9;
        for (int subset = 0; subset < (1 << columns); ++subset) {
            double cost = 0.0;
            for (int c = 0; c < columns; ++c) {
                cost += (subset >> c) % 2 == 1 ? costs[std::size_t(c)] : 0.0;
            }
            const bool covered = std::all_of(covers.begin(), covers.end(), [&](const std::vector<bool>& row) {
                if (!coverable(row)) {
                    return true;
                }
                for (int c = 0; c < columns; ++c) {
                    if ((subset >> c) % 2 == 1 && row[std::size_t(c)]) {
                        return true;
                    }
                }
                return false;
            });
            best = covered ? std::min(best, cost) : best;
        }
        const Cover cover = cheapestCover(covers, costs);
        double cost = 0.0;
        for (const std::size_t c : cover.columns) {
            cost += costs[c];
        }
        EXPECT_TRUE(cover.isExact);
        EXPECT_EQ(cost, best) << round;
    }
}

}  // namespace
}  // namespace ohmwright
