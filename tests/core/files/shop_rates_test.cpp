// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/shop_rates.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;

std::string messageOf(const std::string& members) {
    const auto rates = readShopRates("{\"format\": \"ohmwright-rates\", \"version\": 1,\n" + members + "}");
    return rates ? "no error" : rates.error().message;
}

TEST(ShopRates, ComeBackAsTheyWereWritten) {
    ShopRates rates;
    rates.currency = "£";
    rates.perHour = 52.5;
    rates.minutes["bridge"] = 2.25;
    rates.minutes["fit a switch"] = 45;
    rates.riskShare = 0.25;
    const auto back = readShopRates(writeShopRates(rates));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, rates);
}

TEST(ShopRates, WhatIsNotNamedIsTheHouses) {
    const auto rates =
        readShopRates(R"({"format": "ohmwright-rates", "version": 1, "perHour": 60, "minutes": {"lift": 3}})");
    ASSERT_TRUE(rates) << rates.error().message;
    EXPECT_EQ(rates->perHour, 60.0);
    EXPECT_EQ(rates->benchFee, ShopRates().benchFee);
    EXPECT_EQ(rates->minutes.at("lift"), 3.0);
    EXPECT_EQ(rates->minutes.at("swap value"), ShopRates().minutes.at("swap value"));
}

TEST(ShopRates, FaultsNameLineAndKey) {
    EXPECT_THAT(messageOf("\"perhour\": 60"), AllOf(HasSubstr("line 2"), HasSubstr("perhour"), HasSubstr("mistyped")));
    EXPECT_THAT(messageOf("\"perHour\": -1"), AllOf(HasSubstr("line 2"), HasSubstr("perHour"), HasSubstr("from 0 up")));
    EXPECT_THAT(messageOf("\"perHour\": \"much\""), AllOf(HasSubstr("line 2"), HasSubstr("perHour")));
    EXPECT_THAT(messageOf("\"minutes\": {\"lift\": -3}"), AllOf(HasSubstr("line 2"), HasSubstr("minutes/lift")));
}

TEST(ShopRates, AnotherKindOfFileAndANewerOneAreRefused) {
    EXPECT_EQ(readShopRates(R"({"format": "ohmwright-drawer", "version": 1})").error().code, ErrorCode::fileDamaged);
    EXPECT_EQ(readShopRates(R"({"format": "ohmwright-rates", "version": 2})").error().code, ErrorCode::fileNewer);
}

}  // namespace
}  // namespace ohmwright
