// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/decibels.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

TEST(Decibels, FollowTheirDefinition) {
    EXPECT_NEAR(amplitudeDb(10.0), 20.0, 1e-12);
    EXPECT_NEAR(amplitudeDb(2.0), 6.020599913279624, 1e-12);  // 20 log10 2
    EXPECT_NEAR(amplitudeRatio(-20.0), 0.1, 1e-15);
    // 100 mV peak of a sine is 70.7 mV RMS, -23.0 dBV.
    EXPECT_NEAR(dbv(0.1 / std::sqrt(2.0)), -23.0103, 1e-4);
}

TEST(Decibels, AGainOfNothingIsMinusInfinityNotAFloor) {
    EXPECT_EQ(amplitudeDb(0.0), -INFINITY);
}

}  // namespace
}  // namespace ohmwright
