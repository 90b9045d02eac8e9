// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/value_text.h"

#include "core/base/preferred_numbers.h"
#include "tests/support/csv_rows.h"
#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

namespace ohmwright {
namespace {

using testing::HasSubstr;

struct Written {
    const char* text;
    Unit unit;
    double si;
};

TEST(ValueText, ARefusalIsAskedForWholeInAnotherLanguage) {
    const test::Spoken german({{"%1 cannot be read as %2: write it like %3.", "%2 wie %3, nicht %1"},
                               {"a resistance", "Ein Widerstand"},
                               {"%1 can be %2: write which one is meant.", "%1: %2?"},
                               {"%1 or %2", "%1 oder %2"},
                               {"capacitor code, %1 and %2 zeros, in pF", "Code %1, %2 Nullen"},
                               {"printed in pF", "in pF"}});
    EXPECT_EQ(parsePartValue("abc", Unit::ohm).error().message, "Ein Widerstand wie 4k7, 470R or 1M, nicht “abc”");
    EXPECT_EQ(parsePartValue("330", Unit::farad).error().message,
              "“330”: 33.0 pF (Code 33, 0 Nullen) oder 330 pF (in pF)?");
}

TEST(ValueText, EveryWayOfTheBenchIsOneReading) {
    const Written cases[] = {
        // resistors
        {"4k7", Unit::ohm, 4.7e3},
        {"4.7k", Unit::ohm, 4.7e3},
        {"4,7k", Unit::ohm, 4.7e3},
        {"4,7 kΩ", Unit::ohm, 4.7e3},
        {"4.7 k\u2126", Unit::ohm, 4.7e3},
        {"4700", Unit::ohm, 4.7e3},
        {"4K7", Unit::ohm, 4.7e3},
        {" 4k7 ", Unit::ohm, 4.7e3},
        {"470", Unit::ohm, 470},
        {"100", Unit::ohm, 100},
        {"470R", Unit::ohm, 470},
        {"470 ohms", Unit::ohm, 470},
        {"R47", Unit::ohm, 0.47},
        {"0R47", Unit::ohm, 0.47},
        {"2R2", Unit::ohm, 2.2},
        {"1M", Unit::ohm, 1e6},
        {"1 MΩ", Unit::ohm, 1e6},
        {"1Meg", Unit::ohm, 1e6},
        {"1meg", Unit::ohm, 1e6},
        {"2M2", Unit::ohm, 2.2e6},
        {"37k5", Unit::ohm, 37.5e3},
        // capacitors
        {"47n", Unit::farad, 47e-9},
        {"4n7", Unit::farad, 4.7e-9},
        {".047", Unit::farad, 47e-9},
        {",047", Unit::farad, 47e-9},
        {"0.1", Unit::farad, 100e-9},
        {"0.047u", Unit::farad, 47e-9},
        {"47000p", Unit::farad, 47e-9},
        {"473", Unit::farad, 47e-9},
        {"563", Unit::farad, 56e-9},
        {"2µ2", Unit::farad, 2.2e-6},
        {"2\u03BC2", Unit::farad, 2.2e-6},
        {"2u2", Unit::farad, 2.2e-6},
        {"22mfd", Unit::farad, 22e-6},
        {"22 MFD", Unit::farad, 22e-6},
        {"250mmfd", Unit::farad, 250e-12},
        {"100 nF", Unit::farad, 100e-9},
        {"0.1uF", Unit::farad, 100e-9},
        {"47N", Unit::farad, 47e-9},
        {"47", Unit::farad, 47e-12},
        {"4700", Unit::farad, 4.7e-9},
        {"4R7", Unit::farad, 4.7e-12},
        {"1F", Unit::farad, 1.0},
        // the rest
        {"2.8H", Unit::henry, 2.8},
        {"2H8", Unit::henry, 2.8},
        {"100m", Unit::henry, 0.1},
        {"100mH", Unit::henry, 0.1},
        {"9 V", Unit::volt, 9},
        {"4V7", Unit::volt, 4.7},
        {"100 mV", Unit::volt, 0.1},
        {"1m", Unit::ampere, 1e-3},
        {"220 Hz", Unit::hertz, 220},
        {"1.05 kHz", Unit::hertz, 1050},
        {"-3 dB", Unit::decibel, -3},
        {"−3 dB", Unit::decibel, -3},
        {"12.5", Unit::none, 12.5},
        {"20 %", Unit::percent, 20},
    };
    for (const Written& each : cases) {
        const auto readings = readValue(each.text, each.unit);
        ASSERT_TRUE(readings) << each.text << ": " << readings.error().message;
        ASSERT_EQ(readings->size(), 1U) << each.text;
        EXPECT_EQ(readings->front().value, (Quantity{each.si, each.unit})) << each.text;
        EXPECT_FALSE(readings->front().because.empty());
        EXPECT_EQ(parsePartValue(each.text, each.unit)->si, each.si) << each.text;
    }
}

TEST(ValueText, ABareMarkingThatCanMeanTwoThingsGivesBoth) {
    struct Ambiguous {
        const char* text;
        Unit unit;
        double first;
        double second;
    };
    const Ambiguous cases[] = {
        {"470", Unit::farad, 47e-12, 470e-12}, {"100", Unit::farad, 10e-12, 100e-12},
        {"220", Unit::farad, 22e-12, 220e-12}, {"470J", Unit::farad, 47e-12, 470e-12},
        {"4.7", Unit::farad, 4.7e-6, 4.7e-12}, {"22m", Unit::farad, 22e-3, 22e-6},
        {"22mF", Unit::farad, 22e-3, 22e-6},   {"4,700", Unit::ohm, 4.7, 4700},
    };
    for (const Ambiguous& each : cases) {
        const auto readings = readValue(each.text, each.unit);
        ASSERT_TRUE(readings) << each.text;
        ASSERT_EQ(readings->size(), 2U) << each.text;
        EXPECT_EQ((*readings)[0].value.si, each.first) << each.text;
        EXPECT_EQ((*readings)[1].value.si, each.second) << each.text;
        EXPECT_NE((*readings)[0].because, (*readings)[1].because);
    }
    const auto single = parsePartValue("470", Unit::farad);
    ASSERT_FALSE(single);
    EXPECT_THAT(single.error().message, HasSubstr("47.0 pF"));
    EXPECT_THAT(single.error().message, HasSubstr("470 pF"));
}

TEST(ValueText, ReadingsSayWhyTheyAreRead) {
    EXPECT_EQ(readValue("473", Unit::farad)->front().because, "capacitor code, 47 and 3 zeros, in pF");
    EXPECT_EQ((*readValue("470", Unit::farad))[1].because, "printed in pF");
    EXPECT_EQ(readValue(".047", Unit::farad)->front().because, "a bare decimal is µF by custom");
}

TEST(ValueText, WhatIsNoValueIsRefusedInWords) {
    struct Refused {
        const char* text;
        Unit unit;
        const char* says;
    };
    const Refused cases[] = {
        {"", Unit::ohm, "Nothing is written"},
        {"   ", Unit::farad, "Nothing is written"},
        {"1m", Unit::ohm, "milliohm or megohm"},
        {"1 mΩ", Unit::ohm, "milliohm or megohm"},
        {"4k7n", Unit::ohm, "“4k7n”"},
        {"4k7k", Unit::ohm, "“4k7k”"},
        {"4.7k7", Unit::ohm, "“4.7k7”"},
        {"4..7", Unit::ohm, "“4..7”"},
        {"4 7k", Unit::ohm, "“4 7k”"},
        {"k", Unit::ohm, "“k”"},
        {".", Unit::ohm, "“.”"},
        {"abc", Unit::ohm, "“abc”"},
        {"100nF", Unit::ohm, "is a capacitance"},
        {"2u2", Unit::ohm, "is a capacitance"},
        {"4k7", Unit::farad, "is a resistance"},
        {"470 Ω", Unit::farad, "is a resistance"},
        {"47R", Unit::farad, "“47R”"},
        {"0", Unit::ohm, "is zero"},
        {"0R", Unit::ohm, "is zero"},
        {"000", Unit::farad, "is zero"},
        {"-4k7", Unit::ohm, "is negative"},
        {"−4k7", Unit::ohm, "is negative"},
        {"2L2", Unit::ohm, "is outside 0.01 Ω to 100 GΩ"},
        {"470G", Unit::ohm, "is outside"},
        {"1000F", Unit::farad, "is outside 0.1 pF to 1 F"},
        {"R05", Unit::farad, "is outside"},
        {"047", Unit::farad, "begins with a zero"},
        {"4e7", Unit::ohm, "power of ten"},
        {"1e30", Unit::ohm, "power of ten"},
        {"9A", Unit::volt, "“9A”"},
        {"4V", Unit::ampere, "“4V”"},
        {"2.8HH", Unit::henry, "“2.8HH”"},
        {"NaN", Unit::ohm, "“NaN”"},
        {"inf", Unit::volt, "“inf”"},
        {"４k7", Unit::ohm, "cannot be read"},
    };
    for (const Refused& each : cases) {
        const auto readings = readValue(each.text, each.unit);
        ASSERT_FALSE(readings) << each.text << " read as " << formatQuantity(readings->front().value);
        EXPECT_EQ(readings.error().code, ErrorCode::invalidInput);
        EXPECT_THAT(readings.error().message, HasSubstr(each.says)) << each.text;
        EXPECT_FALSE(parsePartValue(each.text, each.unit)) << each.text;
    }
}

TEST(ValueText, ToleranceLettersFollowTheStandard) {
    // N and P differ between lists and are refused; letters from memory alone are not read at all.
    int tested = 0;
    for (const test::CsvRow& row : test::referenceTable("tolerance_letters.csv")) {
        const std::string& letter = row.at("letter");
        if (row.at("confidence") != "high" || letter == "N") continue;
        const auto marked = readValue("104" + letter, Unit::farad);
        ASSERT_TRUE(marked) << letter;
        EXPECT_EQ(marked->front().value.si, 100e-9);
        if (letter == "Z") {
            EXPECT_FALSE(marked->front().toleranceFraction) << "lopsided: no single figure";
            EXPECT_THAT(marked->front().because, HasSubstr("80 % over"));
            continue;
        }
        ASSERT_TRUE(marked->front().toleranceFraction) << letter;
        EXPECT_DOUBLE_EQ(*marked->front().toleranceFraction, std::stod(row.at("percent_plus")) / 100.0) << letter;
        const std::string& absolute = row.at("below_10pF_absolute_pF");
        if (!absolute.empty()) {
            const auto small = readValue("4R7" + letter, Unit::farad);
            ASSERT_TRUE(small) << letter;
            EXPECT_NEAR(small->front().toleranceFraction.value_or(0.0), std::stod(absolute) / 4.7, 1e-9) << letter;
        }
        ++tested;
    }
    EXPECT_EQ(tested, 8);
    EXPECT_DOUBLE_EQ(*readValue("4k7J", Unit::ohm)->front().toleranceFraction, 0.05);
    EXPECT_DOUBLE_EQ(*readValue("4K7K", Unit::ohm)->front().toleranceFraction, 0.10);
    EXPECT_DOUBLE_EQ(*readValue("2n2M", Unit::farad)->front().toleranceFraction, 0.20);
    EXPECT_FALSE(readValue("4k7", Unit::ohm)->front().toleranceFraction);
    EXPECT_EQ(readValue("47K", Unit::ohm)->front().value.si, 47e3) << "after a bare number K is kilo";
}

TEST(ValueText, EveryMarkingOfTheTableIsRead) {
    for (const test::CsvRow& row : test::referenceTable("marking_codes.csv")) {
        const std::string& code = row.at("code");
        const std::string& kind = row.at("kind");
        const double value = std::stod(row.at("value_SI"));
        if (kind == "R3" || kind == "R4" || kind == "EIA96") {
            const auto chip = readChipResistor(code);
            if (value == 0.0) {
                ASSERT_FALSE(chip) << code;
                EXPECT_THAT(chip.error().message, HasSubstr("link"));
                continue;
            }
            ASSERT_TRUE(chip) << code;
            EXPECT_DOUBLE_EQ(chip->value.si, value) << code;
            continue;
        }
        const auto readings = readValue(code, kind.front() == 'R' ? Unit::ohm : Unit::farad);
        if (value == 0.0 || code == "2L2") {
            // A link and 2.2 milliohms are read, and then refused as no resistor of a pedal.
            ASSERT_FALSE(readings) << code;
            EXPECT_THAT(readings.error().message, value == 0.0 ? HasSubstr("is zero") : HasSubstr("is outside"));
            continue;
        }
        ASSERT_TRUE(readings) << code << ": " << readings.error().message;
        EXPECT_DOUBLE_EQ(readings->front().value.si, value) << code;
    }
}

TEST(ValueText, ChipMarkingsThatAreNoneAreRefused) {
    for (const char* marking : {"", "00C", "97A", "47", "47000", "4k7", "01Z", "999999999", "ab", "RRRR"})
        EXPECT_FALSE(readChipResistor(marking)) << marking;
    EXPECT_DOUBLE_EQ(readChipResistor("4R7")->value.si, 4.7);
    EXPECT_DOUBLE_EQ(readChipResistor("0R22")->value.si, 0.22);
}

TEST(ValueText, TheHouseWritesShopNotation) {
    const std::pair<Quantity, const char*> cases[] = {
        {ohms(3900), "3k9"},       {ohms(0.68), "R68"},          {ohms(0.047), "R047"},      {ohms(1.7), "1R7"},
        {ohms(470), "470R"},       {ohms(22.5), "22R5"},         {ohms(1e6), "1M"},          {ohms(2.2e6), "2M2"},
        {ohms(37500), "37k5"},     {ohms(250e3), "250k"},        {ohms(2730), "2k73"},       {ohms(12345), "12k345"},
        {ohms(2730.3367), "2k73"}, {ohms(283333.3), "283k"},     {ohms(999.96e3), "999k96"}, {ohms(999999.7), "1M"},
        {ohms(10e9), "10G"},       {farads(120e-9), "120n"},     {farads(2.2e-6), "2µ2"},    {farads(100e-12), "100p"},
        {farads(4.7e-12), "4p7"},  {farads(0.5e-12), "p5"},      {farads(4.7e-3), "4700µ"},  {farads(1.0), "1F"},
        {henries(2.8), "2.8 H"},   {henries(0.1), "100 mH"},     {volts(9), "9 V"},          {volts(0.1), "100 mV"},
        {hertz(82.4), "82.4 Hz"},  {amperes(3.91e-3), "3.91 mA"}};
    for (const auto& [quantity, text] : cases) EXPECT_EQ(formatPartValue(quantity), text);
}

/// SI Brochure, 9th edition, 5.4.3: number, space, prefix and unit; the unit's letter is left out behind a prefix.
TEST(ValueText, ValuesCanBeWrittenWithTheirLetterBehind) {
    constexpr ValueStyle behind = ValueStyle::letterBehind;
    const std::pair<Quantity, const char*> cases[] = {
        {ohms(4700), "4.7 k"}, {ohms(470), "470 Ω"},         {ohms(0.68), "0.68 Ω"},    {ohms(1e6), "1 M"},
        {ohms(0.0), "0 Ω"},    {farads(120e-9), "120 n"},    {farads(2.2e-6), "2.2 µ"}, {farads(4.7e-3), "4700 µ"},
        {farads(1.0), "1 F"},  {{2.8, Unit::henry}, "2.8 H"}};
    for (const auto& [quantity, text] : cases) {
        EXPECT_EQ(formatPartValue(quantity, behind), text);
        const auto back = parsePartValue(text, quantity.unit);
        EXPECT_TRUE(quantity.si == 0.0 || (back && std::abs(back->si / quantity.si - 1.0) < 1e-12)) << text;
    }
}

TEST(ValueText, TheStyleOfTheProcessIsChosenOnce) {
    setValueStyle(ValueStyle::letterBehind);
    EXPECT_EQ(formatPartValue(ohms(4700)), "4.7 k");
    setValueStyle(ValueStyle::letterAsPoint);
    EXPECT_EQ(formatPartValue(ohms(4700)), "4k7");
}

TEST(ValueText, AnEchoHasThreeDigitsAndItsUnit) {
    EXPECT_EQ(formatQuantity(farads(120e-9)), "120 nF");
    EXPECT_EQ(formatQuantity(ohms(4700)), "4.70 kΩ");
    EXPECT_EQ(formatQuantity(ohms(1.7)), "1.70 Ω");
    EXPECT_EQ(formatQuantity(farads(12.36e-9)), "12.36 nF");
    EXPECT_EQ(formatQuantity(ohms(2730.3367)), "2.73 kΩ");
    EXPECT_EQ(formatQuantity(ohms(0.68)), "0.680 Ω");
    EXPECT_EQ(formatQuantity({-3.0, Unit::decibel}), "−3.00 dB");
    EXPECT_EQ(formatQuantity({5.0, Unit::percent}), "5.00 %");
    EXPECT_EQ(formatQuantity({0.0, Unit::volt}), "0 V");
    EXPECT_EQ(formatQuantity({12.0, Unit::none}), "12.0");
}

TEST(ValueText, NumbersThatAreNoneAreWordsNotCrashes) {
    for (double odd : {std::nan(""), static_cast<double>(INFINITY), static_cast<double>(-INFINITY)}) {
        EXPECT_EQ(formatPartValue(ohms(odd)), "none");
        EXPECT_EQ(formatQuantity(farads(odd)), "none");
    }
    EXPECT_EQ(formatPartValue(ohms(0.0)), "0R");
}

void expectRoundTrip(Quantity value) {
    const std::string text = formatPartValue(value);
    const auto back = parsePartValue(text, value.unit);
    ASSERT_TRUE(back) << text << ": " << back.error().message;
    EXPECT_NEAR(back->si / value.si, 1.0, 1e-12) << text;
    EXPECT_EQ(formatPartValue(*back), text);
}

TEST(ValueText, EveryValueOfTheSeriesComesBackFromItsText) {
    for (Series series : {Series::e24, Series::e192})
        for (double member : decadeOf(series)) {
            for (int decade = -1; decade <= 9; ++decade) expectRoundTrip(ohms(member * std::pow(10.0, decade)));
            for (int decade = -13; decade <= -1; ++decade) expectRoundTrip(farads(member * std::pow(10.0, decade)));
            for (int decade = -9; decade <= 3; ++decade) expectRoundTrip(henries(member * std::pow(10.0, decade)));
        }
}

TEST(ValueText, ValuesOfUpToFiveDigitsComeBackFromTheirText) {
    std::mt19937 random(20260101);
    std::uniform_int_distribution<int> mantissa(1, 99999);
    std::uniform_int_distribution<int> decade(0, 5);
    for (int n = 0; n < 20000; ++n) {
        const double number = mantissa(random);
        expectRoundTrip(ohms(number * std::pow(10.0, decade(random)) / 100.0));
        expectRoundTrip(farads(number / std::pow(10.0, 13 - decade(random))));
        expectRoundTrip(henries(number / std::pow(10.0, 9 - decade(random))));
        expectRoundTrip(volts(number / std::pow(10.0, decade(random))));
        expectRoundTrip(hertz(number / std::pow(10.0, decade(random) - 2)));
    }
}

bool isSoundUtf8(const std::string& text) {
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::size_t length = lead < 0x80   ? 1
                                   : lead < 0xC2 ? 0
                                   : lead < 0xE0 ? 2
                                   : lead < 0xF0 ? 3
                                   : lead < 0xF5 ? 4
                                                 : 0;
        if (length == 0 || i + length > text.size()) return false;
        for (std::size_t k = 1; k < length; ++k)
            if ((static_cast<unsigned char>(text[i + k]) & 0xC0) != 0x80) return false;
        i += length;
    }
    return true;
}

void expectSaneAnswer(const std::string& text) {
    for (Unit unit :
         {Unit::ohm, Unit::farad, Unit::henry, Unit::volt, Unit::ampere, Unit::hertz, Unit::decibel, Unit::none}) {
        const auto readings = readValue(text, unit);
        if (!readings) {
            EXPECT_FALSE(readings.error().message.empty());
            EXPECT_TRUE(isSoundUtf8(readings.error().message));
            EXPECT_LT(readings.error().message.size(), 400U);
            continue;
        }
        ASSERT_FALSE(readings->empty());
        for (const ValueReading& reading : *readings) {
            EXPECT_TRUE(std::isfinite(reading.value.si)) << text;
            EXPECT_EQ(reading.value.unit, unit);
            if (unit != Unit::decibel && unit != Unit::none) {
                EXPECT_GT(reading.value.si, 0.0) << text;
            }
        }
    }
    const auto chip = readChipResistor(text);
    if (chip) {
        EXPECT_GT(chip->value.si, 0.0) << text;
    }
}

TEST(ValueText, RandomBytesNeverCrashOrGiveANonsenseValue) {
    std::mt19937 random(7);
    std::uniform_int_distribution<int> byte(0, 255);
    std::uniform_int_distribution<int> length(0, 60);
    for (int n = 0; n < 20000; ++n) {
        std::string text;
        for (int k = length(random); k > 0; --k) text += static_cast<char>(byte(random));
        expectSaneAnswer(text);
    }
}

TEST(ValueText, RandomMarkingsNeverCrashOrGiveANonsenseValue) {
    const std::string pieces[] = {"0", "1", "4", "7", "9", ".", ",",   "k",   "K", "M",  "m", "n",
                                  "p", "u", "µ", "R", "F", "f", "H",   "V",   "A", "Hz", "Ω", "J",
                                  "Z", "e", "E", "-", "+", " ", "Meg", "mfd", "L", "G"};
    std::mt19937 random(11);
    std::uniform_int_distribution<std::size_t> piece(0, std::size(pieces) - 1);
    std::uniform_int_distribution<int> length(1, 7);
    for (int n = 0; n < 60000; ++n) {
        std::string text;
        for (int k = length(random); k > 0; --k) text += pieces[piece(random)];
        expectSaneAnswer(text);
    }
}

TEST(ValueText, APageOfTextIsRefusedWithoutBeingRepeated) {
    const std::string page(1000000, '4');
    const auto readings = readValue(page, Unit::ohm);
    ASSERT_FALSE(readings);
    EXPECT_LT(readings.error().message.size(), 200U);
}

// "abc" as a tolerance was taken as 0 %, and -300 as it stood.
TEST(ParseShare, ReadsPercentAndNothingElse) {
    for (const auto& [typed, share] :
         {std::pair{"5", 0.05}, {"5 %", 0.05}, {" 0,5% ", 0.005}, {"0", 0.0}, {"100 %", 1.0}, {"12.5", 0.125}}) {
        const Result<double> read = parseShare(typed);
        ASSERT_TRUE(read) << typed;
        EXPECT_DOUBLE_EQ(*read, share) << typed;
    }
    for (const char* typed : {"", " ", "%", "abc", "-300", "101", "5 %%", "5 x", "nan", "inf", "1e1", "5.5.5"}) {
        const Result<double> read = parseShare(typed);
        ASSERT_FALSE(read) << typed;
        EXPECT_EQ(read.error().code, ErrorCode::invalidInput) << typed;
        EXPECT_NE(read.error().message.find(std::string("\"") + typed + "\""), std::string::npos) << typed;
    }
}

}  // namespace
}  // namespace ohmwright
