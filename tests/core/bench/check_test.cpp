// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/check.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(CheckBand, HoldsWhatLiesInItAndNoReadingWhereNoneIsExpected) {
    const CheckBand none{};
    EXPECT_TRUE(none.holds(std::nullopt));
    EXPECT_FALSE(none.holds(0.5));
    const CheckBand band{1.0, 2.0, 3.0};
    EXPECT_TRUE(band.holds(1.0));
    EXPECT_FALSE(band.holds(3.1));
    EXPECT_FALSE(band.holds(std::nullopt));
    const CheckBand upwards{1e6, 19e6, std::nullopt};
    EXPECT_TRUE(upwards.holds(std::nullopt));
    EXPECT_FALSE(upwards.holds(1.0));
}

}  // namespace
}  // namespace ohmwright
