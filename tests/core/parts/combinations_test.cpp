// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/combinations.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace ohmwright {
namespace {

std::vector<ValueOnHand> hand(std::initializer_list<double> values, int quantity = 2) {
    std::vector<ValueOnHand> onHand;
    for (const double value : values) {
        onHand.push_back({value, "lot " + std::to_string(onHand.size()), quantity});
    }
    return onHand;
}

std::vector<Combination> found(PartKind kind, double target, const std::vector<ValueOnHand>& onHand,
                               const CombinationOptions& options = {}) {
    const auto result = findCombinations(kind, target, onHand, options);
    EXPECT_TRUE(result) << (result ? "" : result.error().message);
    return result ? *result : std::vector<Combination>();
}

// By hand: 1k8 + 820R = 2620, 2k2 + 470R = 2670, 10k across 3k9 = 2805.8.
TEST(Combinations, SeriesAddsAndAcrossDivides) {
    EXPECT_DOUBLE_EQ(seriesValue(PartKind::resistor, 1800, 820), 2620);
    EXPECT_NEAR(parallelValue(PartKind::resistor, 3900, 10000), 2805.755, 1e-3);
    EXPECT_DOUBLE_EQ(parallelValue(PartKind::capacitor, 56e-9, 68e-9), 124e-9);
    EXPECT_NEAR(seriesValue(PartKind::capacitor, 100e-9, 100e-9), 50e-9, 1e-18);
    EXPECT_NEAR(parallelValue(PartKind::inductor, 1.0, 1.0), 0.5, 1e-12);
}

TEST(Combinations, AnExactSinglePartComesFirst) {
    const auto list = found(PartKind::resistor, 2700, hand({1800, 900, 2700, 5400}));
    EXPECT_EQ(list[0].joint, Joint::single);
    EXPECT_DOUBLE_EQ(list[0].value, 2700);
    // Then the pairs that make it exactly: 1k8 + 900R and 5k4 across 5k4.
    EXPECT_DOUBLE_EQ(list[1].value, 2700);
    EXPECT_DOUBLE_EQ(list[2].value, 2700);
    EXPECT_EQ(list[1].members.size(), 2U);
}

TEST(Combinations, ALotWithOnePartIsNotUsedTwice) {
    const auto once = allCombinations(PartKind::resistor, hand({1000}, 1));
    EXPECT_EQ(once.size(), 1U);
    const auto twice = allCombinations(PartKind::resistor, hand({1000}, 2));
    EXPECT_EQ(twice.size(), 3U);  // 1k, 2k, 500R
    EXPECT_TRUE(allCombinations(PartKind::resistor, hand({1000}, 0)).empty());
}

TEST(Combinations, PotsAreNotPaired) {
    EXPECT_EQ(allCombinations(PartKind::potentiometer, hand({50e3, 100e3, 250e3})).size(), 3U);
}

TEST(Combinations, WhatCannotBeHadIsRefusedInASentence) {
    EXPECT_FALSE(findCombinations(PartKind::diode, 1.0, {}));
    const auto none = findCombinations(PartKind::resistor, -5.0, hand({1000}));
    ASSERT_FALSE(none);
    EXPECT_THAT(none.error().message, testing::HasSubstr("0.01 Ω to 100 GΩ"));
    EXPECT_TRUE(found(PartKind::resistor, 1000, {}).empty());
}

TEST(Combinations, AssumedStockIsThePreferredSeries) {
    const auto e12 = assumedValues(Series::e12, 1000, 10000);
    ASSERT_EQ(e12.size(), 13U);
    EXPECT_NEAR(e12.front().value, 1000, 1e-6);
    EXPECT_NEAR(e12[1].value, 1200, 1e-6);
    EXPECT_NEAR(e12.back().value, 10000, 1e-6);
    EXPECT_EQ(assumedValues(Series::e24, 1, 9.9).size(), 24U);
}

TEST(Combinations, DescribesAsOneWouldSayIt) {
    const auto list = allCombinations(PartKind::resistor, hand({820, 1800}, 1));
    ASSERT_EQ(list.size(), 4U);
    EXPECT_EQ(describeCombination(PartKind::resistor, list[0]), "820R");
    EXPECT_EQ(describeCombination(PartKind::resistor, list[2]), "1k8 + 820R in series");
    EXPECT_EQ(describeCombination(PartKind::resistor, list[3]), "820R with 1k8 across");
}

// The list against a search written here: random drawers and targets; every value is recomputed from its members.
TEST(Combinations, TheListIsTheBestOfAllThereAre) {
    std::mt19937 random(20261129);
    std::uniform_real_distribution<double> decades(2.0, 6.0);
    for (int round = 0; round < 50; ++round) {
        std::vector<ValueOnHand> onHand;
        for (int k = 0; k < 12; ++k) {
            onHand.push_back({std::pow(10.0, decades(random)), "lot " + std::to_string(k), 1 + k % 2});
        }
        const double target = std::pow(10.0, decades(random));
        double nearest = 1e300;
        for (std::size_t a = 0; a < onHand.size(); ++a) {
            nearest = std::min(nearest, std::abs(onHand[a].value / target - 1.0));
            for (std::size_t b = 0; b < onHand.size(); ++b) {
                if (a == b && onHand[a].quantity < 2) continue;
                const double x = onHand[a].value;
                const double y = onHand[b].value;
                nearest = std::min(nearest, std::abs((x + y) / target - 1.0));
                nearest = std::min(nearest, std::abs(1.0 / (1.0 / x + 1.0 / y) / target - 1.0));
            }
        }
        const auto list = found(PartKind::resistor, target, onHand);
        ASSERT_EQ(list.size(), 12U);
        EXPECT_LE(std::abs(shareOff(list[0], target)), nearest + 1e-3);
        double last = 0.0;
        for (const Combination& combination : list) {
            double value = combination.members[0].value;
            if (combination.joint == Joint::series) value += combination.members[1].value;
            if (combination.joint == Joint::parallel) value = 1.0 / (1.0 / value + 1.0 / combination.members[1].value);
            EXPECT_NEAR(combination.value / value, 1.0, 1e-12);
            const double step = std::round(std::abs(shareOff(combination, target)) / 1e-3);
            EXPECT_GE(step, last);
            last = step;
        }
    }
}

TEST(Combinations, ReservedPartsAreNotOnHand) {
    Drawer drawer;
    DrawerLot lot;
    lot.id = "r-1k";
    lot.value = 1000;
    lot.measured = 1012;
    lot.quantity = 3;
    lot.reserved["other"] = 1;
    drawer.lots = {lot};
    const auto onHand = valuesOnHand(drawer, PartKind::resistor, "mine");
    ASSERT_EQ(onHand.size(), 1U);
    EXPECT_EQ(onHand[0], (ValueOnHand{1012, "r-1k", 2}));
    drawer.lots[0].reserved["other"] = 3;
    EXPECT_TRUE(valuesOnHand(drawer, PartKind::resistor, "mine").empty());
}

}  // namespace
}  // namespace ohmwright
