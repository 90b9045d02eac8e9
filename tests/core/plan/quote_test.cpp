// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/quote.h"

#include "core/files/drawer_file.h"
#include "tests/support/demo_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;

Drawer demoDrawer() {
    return *loadDrawer(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json");
}

// By hand with 60 an hour: fee 10; A 8 min = 8.00 and 120n 0.12 x 1.5 = 0.18; B 14 min = 14.00 and a diode 0.03 x 1.5 =
// 0.05 (rounded): 32.23.
TEST(Quote, IsTheSumOfItsLines) {
    ShopRates rates;
    rates.perHour = 60;
    rates.benchFee = 10;
    const auto quote = makeQuote(test::demoJob("harbour-lamp", "AB"), demoDrawer(), rates);
    ASSERT_TRUE(quote) << quote.error().message;
    ASSERT_EQ(quote->lines.size(), 5U);
    EXPECT_DOUBLE_EQ(quote->total, 32.23);
    EXPECT_DOUBLE_EQ(quote->minutes, 22);
    EXPECT_EQ(quote->lines[1].what, "Gain cap: 56n → 120n");
    EXPECT_TRUE(quote->toOrder.empty());
    rates.riskShare = 0.25;  // 5.5 minutes
    const auto risky = makeQuote(test::demoJob("harbour-lamp", "AB"), demoDrawer(), rates);
    EXPECT_DOUBLE_EQ(risky->total, 37.73);
    EXPECT_EQ(risky->lines.back().kind, QuoteLineKind::risk);
}

TEST(Quote, FollowsThePlanAndTheDrawer) {
    const auto none = makeQuote(test::demoJob("harbour-lamp"), demoDrawer());
    ASSERT_TRUE(none);
    EXPECT_DOUBLE_EQ(none->total, ShopRates().benchFee);
    const auto empty = makeQuote(test::demoJob("harbour-lamp", "A"), {});
    ASSERT_EQ(empty->toOrder.size(), 1U);
    EXPECT_THAT(empty->toOrder[0], HasSubstr("order 1"));
}

// "Not in the drawer" stands on no quote for which no drawer was looked into.
TEST(Quote, WithoutADrawerNothingIsSaidOfStock) {
    const auto quote = makeQuote(test::demoJob("harbour-lamp", "AB"), {});
    ASSERT_TRUE(quote);
    EXPECT_EQ(quote->lines[2].what, "C4: 120n");
    EXPECT_EQ(quote->lines[4].what, "D3: 1N4148");
}

TEST(Quote, WhatTheCustomerMustKnowIsASentence) {
    const auto quote = makeQuote(test::demoJob("harbour-lamp", "AB"), demoDrawer());
    ASSERT_TRUE(quote);
    ASSERT_EQ(quote->consents.size(), 2U);
    EXPECT_THAT(quote->consents[0], HasSubstr("A: C4 Cg comes off"));
    EXPECT_THAT(quote->consents[1], HasSubstr("a leg of D2"));
}

TEST(Quote, ARateThatIsNoneIsRefused) {
    ShopRates rates;
    rates.perHour = -1;
    EXPECT_FALSE(makeQuote(test::demoJob("harbour-lamp"), {}, rates));
}

}  // namespace
}  // namespace ohmwright
