// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/preferred_numbers.h"

#include "tests/support/csv_rows.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace ohmwright {
namespace {

constexpr Series allSeries[] = {Series::e3,  Series::e6,  Series::e12, Series::e24,
                                Series::e48, Series::e96, Series::e192};

Series seriesNamed(const std::string& name) {
    return static_cast<Series>(std::stoi(name.substr(1)));
}

TEST(PreferredNumbers, EveryValueOfTheStandardStandsAtItsPlace) {
    int rows = 0;
    for (const test::CsvRow& row : test::referenceTable("preferred_values.csv")) {
        const auto decade = decadeOf(seriesNamed(row.at("series")));
        const auto index = static_cast<std::size_t>(std::stoi(row.at("index")));
        ASSERT_LT(index, decade.size()) << row.at("series");
        EXPECT_DOUBLE_EQ(decade[index], std::stod(row.at("value"))) << row.at("series") << " " << index;
        ++rows;
    }
    EXPECT_EQ(rows, 3 + 6 + 12 + 24 + 48 + 96 + 192);
}

TEST(PreferredNumbers, ADecadeHasAsManyValuesAsItsName) {
    for (Series series : allSeries) EXPECT_EQ(decadeOf(series).size(), static_cast<std::size_t>(series));
}

TEST(PreferredNumbers, NearestIsByRatioAndLooksAcrossTheDecadeEdge) {
    struct Case {
        double value;
        Series series;
        double nearest;
    };
    // Computed apart from this project by log distance over the tables of IEC 60063.
    const Case cases[] = {
        {720.5, Series::e12, 680},        {720.5, Series::e24, 750},      {720.5, Series::e96, 715},
        {720.5, Series::e192, 723},       {482.3, Series::e24, 470},      {482.3, Series::e96, 487},
        {482.3, Series::e192, 481},       {5000, Series::e12, 4700},      {5000, Series::e24, 5100},
        {5000, Series::e96, 4990},        {98765, Series::e96, 97.6e3},   {98765, Series::e192, 98.8e3},
        {98765, Series::e48, 100e3},      {12.34e-9, Series::e12, 12e-9}, {12.34e-9, Series::e96, 12.4e-9},
        {12.34e-9, Series::e192, 12.3e-9}};
    for (const Case& each : cases)
        EXPECT_DOUBLE_EQ(nearestPreferred(each.value, each.series), each.nearest)
            << each.value << " in E" << static_cast<int>(each.series);
}

TEST(PreferredNumbers, NextAndPreviousAreStrictlyBesideTheValue) {
    EXPECT_DOUBLE_EQ(nextPreferred(3900, Series::e12), 4700);
    EXPECT_DOUBLE_EQ(previousPreferred(3900, Series::e12), 3300);
    EXPECT_DOUBLE_EQ(nextPreferred(3900 * (1 + 5e-10), Series::e12), 4700);
    EXPECT_DOUBLE_EQ(previousPreferred(3900 * (1 - 5e-10), Series::e12), 3300);
    EXPECT_DOUBLE_EQ(nextPreferred(4000, Series::e12), 4700);
    EXPECT_DOUBLE_EQ(previousPreferred(4000, Series::e12), 3900);
    EXPECT_DOUBLE_EQ(nextPreferred(82e-9, Series::e12), 100e-9);
    EXPECT_DOUBLE_EQ(nextPreferred(9.1, Series::e24), 10.0);
    EXPECT_DOUBLE_EQ(previousPreferred(100e3, Series::e24), 91e3);
    EXPECT_DOUBLE_EQ(previousPreferred(1e-12, Series::e3), 0.47e-12);
}

TEST(PreferredNumbers, SteppingUpAndDownWalksEveryMemberAndReturns) {
    for (Series series : allSeries) {
        double value = 1e-9;
        for (int step = 0; step < 3 * static_cast<int>(series); ++step) {
            const double up = nextPreferred(value, series);
            EXPECT_TRUE(isPreferred(up, series)) << up;
            EXPECT_DOUBLE_EQ(previousPreferred(up, series), value);
            value = up;
        }
        EXPECT_DOUBLE_EQ(value, 1e-6) << "three decades are three times the count";
    }
}

TEST(PreferredNumbers, MembersEqualTheNumberAsWritten) {
    // Not 4.699999e-9: a stepped value must compare equal to a typed one.
    EXPECT_EQ(nearestPreferred(4.71e-9, Series::e12), 4.7e-9);
    EXPECT_EQ(nearestPreferred(5.59e-12, Series::e12), 5.6e-12);
    EXPECT_EQ(nextPreferred(100e-9, Series::e12), 120e-9);
    EXPECT_EQ(nextPreferred(2.2e6, Series::e12), 2.7e6);
}

TEST(PreferredNumbers, MembershipIsExact) {
    EXPECT_TRUE(isPreferred(47e-9, Series::e12));
    EXPECT_FALSE(isPreferred(47.3e-9, Series::e12));
    EXPECT_FALSE(isPreferred(4700, Series::e96));  // 4.64 and 4.75 are
    EXPECT_TRUE(isPreferred(4700, Series::e192));
    EXPECT_TRUE(isPreferred(9.20, Series::e192));
    EXPECT_FALSE(isPreferred(9.19, Series::e192));
    EXPECT_FALSE(isPreferred(9.20, Series::e96));
}

}  // namespace
}  // namespace ohmwright
