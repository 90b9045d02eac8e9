// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/colour_bands.h"

#include "core/base/preferred_numbers.h"
#include "tests/support/csv_rows.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::string joined(const std::vector<std::string>& bands) {
    std::string text;
    for (const std::string& band : bands) text += (text.empty() ? "" : "-") + band;
    return text;
}

bool isConflicting(const test::CsvRow& row) {
    return row.at("confidence").find("CONFLICT") != std::string::npos;
}

TEST(ColourBands, EveryDigitAndMultiplierOfTheTableIsRead) {
    for (const test::CsvRow& row : test::referenceTable("colour_code.csv")) {
        const std::string& colour = row.at("colour");
        if (!row.at("digit").empty()) {
            const auto reading = readColourBands("brown-" + colour + "-black");
            ASSERT_TRUE(reading) << colour;
            EXPECT_DOUBLE_EQ(reading->ohms, 10.0 + std::stod(row.at("digit"))) << colour;
        }
        if (!row.at("multiplier").empty()) {
            const auto reading = readColourBands("yellow-violet-" + colour);
            ASSERT_TRUE(reading) << colour;
            EXPECT_DOUBLE_EQ(reading->ohms, 47.0 * std::stod(row.at("multiplier"))) << colour;
            EXPECT_DOUBLE_EQ(reading->toleranceFraction, 0.2) << "no fourth band is 20 %";
        }
    }
}

TEST(ColourBands, EveryToleranceOfTheTableIsReadButTheDisputedGrey) {
    int tested = 0;
    for (const test::CsvRow& row : test::referenceTable("colour_code.csv")) {
        if (row.at("tolerance_percent").empty() || row.at("colour") == "none") continue;
        const auto reading = readColourBands("red-red-orange-" + row.at("colour"));
        if (isConflicting(row)) {
            // Editions of IEC 60062 disagree between 0.05 % and 0.01 %.
            ASSERT_FALSE(reading);
            EXPECT_THAT(reading.error().message, HasSubstr("Grey"));
            continue;
        }
        ASSERT_TRUE(reading) << row.at("colour");
        EXPECT_DOUBLE_EQ(reading->toleranceFraction, std::stod(row.at("tolerance_percent")) / 100.0)
            << row.at("colour");
        ++tested;
    }
    EXPECT_EQ(tested, 9);
}

TEST(ColourBands, PublishedExamplesRead) {
    EXPECT_EQ(*readColourBands("brown-black-red-gold"), (BandReading{1000.0, 0.05}));
    EXPECT_EQ(*readColourBands("yellow violet red gold"), (BandReading{4700.0, 0.05}));
    EXPECT_EQ(*readColourBands("Red,Red,Orange,Gold"), (BandReading{22000.0, 0.05}));
    EXPECT_EQ(*readColourBands("brown-black-black-gold-brown"), (BandReading{10.0, 0.01}));
    EXPECT_EQ(*readColourBands("gray-red-black"), (BandReading{82.0, 0.2}));
}

TEST(ColourBands, WhatCannotStandAtItsPlaceIsNamed) {
    struct Case {
        const char* bands;
        const char* named;
    };
    const Case cases[] = {{"gold-red-red-brown", "gold"},      {"black-red-red-brown", "black"},
                          {"red-red-red-white", "white"},      {"red-red-red-black", "black"},
                          {"red-mauve-red-gold", "mauve"},     {"", "0 were given"},
                          {"red-red", "2 were given"},         {"red-red-red-red-red-red", "6 were given"},
                          {"red-red-silver-red-red", "silver"}};
    for (const Case& each : cases) {
        const auto reading = readColourBands(each.bands);
        ASSERT_FALSE(reading) << each.bands;
        EXPECT_EQ(reading.error().code, ErrorCode::invalidInput);
        EXPECT_THAT(reading.error().message, HasSubstr(each.named)) << each.bands;
    }
}

TEST(ColourBands, AValueOfTwoDigitsHasFourBandsAndAPreciseOneFive) {
    EXPECT_THAT(*colourBandsOf(3900, 0.05), ElementsAre("orange", "white", "red", "gold"));
    EXPECT_THAT(*colourBandsOf(2700, 0.05), ElementsAre("red", "violet", "red", "gold"));
    EXPECT_THAT(*colourBandsOf(0.68, 0.1), ElementsAre("blue", "grey", "silver", "silver"));
    EXPECT_THAT(*colourBandsOf(10, 0.01), ElementsAre("brown", "black", "black", "gold", "brown"));
    EXPECT_THAT(*colourBandsOf(2730, 0.01), ElementsAre("red", "violet", "orange", "brown", "brown"));
    EXPECT_THAT(*colourBandsOf(2730, 0.05), ElementsAre("red", "violet", "orange", "brown", "gold"));
    EXPECT_THAT(*colourBandsOf(1e6, 0.2), ElementsAre("brown", "black", "green"));
}

TEST(ColourBands, WhatNoBandsSayIsRefused) {
    EXPECT_FALSE(colourBandsOf(2735, 0.01));
    EXPECT_FALSE(colourBandsOf(4700, 0.03));
    EXPECT_FALSE(colourBandsOf(0.0, 0.05));
    EXPECT_FALSE(colourBandsOf(-4700, 0.05));
    EXPECT_FALSE(colourBandsOf(1e15, 0.05));
    EXPECT_FALSE(colourBandsOf(273, 0.2));
}

TEST(ColourBands, EveryValueOfTheSeriesComesBackFromItsBands) {
    for (Series series : {Series::e24, Series::e96, Series::e192})
        for (double member : decadeOf(series))
            for (double decade : {1.0, 10.0, 100.0, 1e3, 1e4, 1e5, 1e6})
                for (double tolerance : {0.05, 0.01}) {
                    const auto bands = colourBandsOf(member * decade, tolerance);
                    ASSERT_TRUE(bands) << member * decade;
                    const auto reading = readColourBands(joined(*bands));
                    ASSERT_TRUE(reading) << joined(*bands);
                    EXPECT_NEAR(reading->ohms / (member * decade), 1.0, 1e-12);
                    EXPECT_DOUBLE_EQ(reading->toleranceFraction, tolerance);
                }
}

TEST(CapacitorCode, SaysTwoDigitsAndTheZerosInPicofarads) {
    EXPECT_EQ(capacitorCode(120e-9), "124");
    EXPECT_EQ(capacitorCode(56e-9), "563");
    EXPECT_EQ(capacitorCode(10e-12), "100");
    EXPECT_EQ(capacitorCode(100e-12), "101");
    EXPECT_EQ(capacitorCode(1e-6), "105");
    EXPECT_EQ(capacitorCode(4.7e-12), "4R7");
    EXPECT_EQ(capacitorCode(0.5e-12), "R50");
    EXPECT_EQ(capacitorCode(123e-9), "") << "three digits";
    EXPECT_EQ(capacitorCode(1.0), "") << "more zeros than the code has";
    EXPECT_EQ(capacitorCode(0.0), "");
}

}  // namespace
}  // namespace ohmwright
