// SPDX-License-Identifier: GPL-3.0-or-later
// Expected values: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values, column 0.05.
#include "core/bench/chi_square.h"

#include <gtest/gtest.h>

#include <utility>

namespace ohmwright {
namespace {

TEST(ChiSquare, IsThePublishedTable) {
    for (const auto& [count, value] :
         {std::pair{1, 3.841}, std::pair{7, 14.067}, std::pair{20, 31.410}, std::pair{21, 32.671},
          std::pair{30, 43.773}, std::pair{50, 67.505}, std::pair{100, 124.342}}) {
        EXPECT_NEAR(chiSquare95(count), value, 1e-3 * value) << count;
    }
}

TEST(ChiSquare, GrowsWithEveryReading) {
    for (int count = 1; count < 60; ++count) {
        EXPECT_GT(chiSquare95(count + 1), chiSquare95(count));
    }
}

}  // namespace
}  // namespace ohmwright
