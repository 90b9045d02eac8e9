// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/frequency_grid.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

TEST(FrequencyGrid, UnaskedIsTheAudioRange) {
    const auto grid = frequenciesOf(Request());
    ASSERT_TRUE(grid);
    ASSERT_EQ(grid->size(), 301U) << "three decades of 100 points and the last";
    for (std::size_t k = 0; k < grid->size(); ++k) {
        const double exact = 20.0 * std::pow(10.0, static_cast<double>(k) / 100.0);
        EXPECT_NEAR((*grid)[k], exact, 1e-12 * exact);
    }
}

TEST(FrequencyGrid, ListedFrequenciesStayAsTheyStand) {
    Request request;
    request.at = "1k,100,82.41,100";
    EXPECT_THAT(*frequenciesOf(request), ElementsAre(1000.0, 100.0, 82.41, 100.0));
}

TEST(FrequencyGrid, EndsAboutTheLastPointStayBelowTo) {
    Request request;
    request.from = "100";
    request.to = "999";
    request.perDecade = "2";
    const auto grid = frequenciesOf(request);
    ASSERT_TRUE(grid);
    ASSERT_EQ(grid->size(), 2U);
    EXPECT_NEAR(grid->back(), 100.0 * std::sqrt(10.0), 1e-9);
    request.to = "100";
    EXPECT_THAT(*frequenciesOf(request), ElementsAre(100.0));
}

TEST(FrequencyGrid, TooManyPointsAreRefusedBeforeTheyAreMade) {
    Request request;
    request.from = "1e-6";
    request.to = "1e12";
    request.perDecade = "100000";
    const auto grid = frequenciesOf(request);
    ASSERT_FALSE(grid);
    EXPECT_THAT(grid.error().message, HasSubstr("200000"));
}

}  // namespace
}  // namespace ohmwright
