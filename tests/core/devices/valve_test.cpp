// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/valve.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

TEST(Valve, SoftplusIsTheLogarithmOfOnePlusExp) {
    for (const double x : {-700.0, -30.0, -1.0, 0.0, 0.3, 5.0, 30.0}) {
        EXPECT_NEAR(softplus(x).value, std::log1p(std::exp(x)), 1e-14 * softplus(x).value) << x;
        EXPECT_NEAR(softplus(x).slope, 1.0 / (1.0 + std::exp(-x)), 1e-14 * softplus(x).slope) << x;
    }
    EXPECT_EQ(softplus(1e6).value, 1e6);
    EXPECT_EQ(softplus(1e6).slope, 1.0);
    EXPECT_EQ(softplus(-1e6).value, 0.0);
}

TEST(Valve, ThePowerHasNoNegativeSide) {
    EXPECT_DOUBLE_EQ(positivePower(4.0, 1.5).value, 8.0);
    EXPECT_DOUBLE_EQ(positivePower(4.0, 1.5).slope, 3.0);
    EXPECT_NEAR(positivePower(2.0, 1.4).value, std::exp(1.4 * std::log(2.0)), 1e-14);
    EXPECT_EQ(positivePower(-1.0, 1.4).value, 0.0);
    EXPECT_EQ(positivePower(0.0, 1.4).slope, 0.0);
}

}  // namespace
}  // namespace ohmwright
