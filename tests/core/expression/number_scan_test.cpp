// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/number_scan.h"

#include <gtest/gtest.h>

#include <string>

namespace ohmwright {
namespace {

TEST(NetlistNumber, SuffixesAndUnitsAreRead) {
    const struct {
        const char* text;
        double value;
    } rows[] = {
        {"0", 0.0},
        {"1", 1.0},
        {"-1", -1.0},
        {"+1", 1.0},
        {".5", 0.5},
        {"1.", 1.0},
        {"4.7k", 4.7e3},
        {"4.7K", 4.7e3},
        {"10u", 10e-6},
        {"1meg", 1e6},
        {"1MEG", 1e6},
        {"1Megohm", 1e6},
        {"2.2MegOhm", 2.2e6},
        {"100nF", 100e-9},
        {"100n", 100e-9},
        {"10kohm", 10e3},
        {"10V", 10.0},
        {"10 ", 10.0},
        {" 10\t", 10.0},
        {"1e3", 1e3},
        {"1E-3", 1e-3},
        {"1e+3", 1e3},
        {"1e3k", 1e6},
        {"2.5e-3meg", 2500.0},
        {"3p", 3e-12},
        {"3pF", 3e-12},
        {"1f", 1e-15},
        {"1g", 1e9},
        {"1t", 1e12},
        {"1m", 1e-3},
        {"1ms", 1e-3},
        {"5ohm", 5.0},
        {"1.11eV", 1.11},
        {"47\xC2\xB5", 47e-6},
        {"47\xCE\xBC"
         "F",
         47e-6},
        {"10\xCE\xA9", 10.0},
        {"4.7k\xE2\x84\xA6", 4.7e3},
        {"12A", 12.0},
        {"0.1", 0.1},
        {"1e-320", 1e-320},
        {"1e-400", 0.0},
        {"0.0000001e-330", 0.0},
        {"007", 7.0},
        {"1.7976931348623157e308", 1.7976931348623157e308},
    };
    for (const auto& row : rows) {
        const Result<double> number = readNetlistNumber(row.text);
        ASSERT_TRUE(number) << row.text << ": " << number.error().message;
        EXPECT_EQ(*number, row.value) << row.text;  // Rounded once, as the compiler rounds.
    }
}

TEST(NetlistNumber, WhatCanBeReadTwoWaysIsRefusedWithBoth) {
    const struct {
        const char* text;
        const char* message;
    } rows[] = {
        {"4k7", "4k7 could mean 4.7k or 4k: write 4.7k."},
        // Once read as 1 and as 1k without a word.
        {"1e", "1e could mean 1 or 1e3 with its exponent left out: write the exponent's digits, or no e."},
        {"1ek", "1ek could mean 1k or 1e3k with its exponent left out: write the exponent's digits, or no e."},
        {"2E-", "2E could mean 2 or 2e3 with its exponent left out: write the exponent's digits, or no e."},
        {"-4k7", "4k7 could mean 4.7k or 4k: write 4.7k."},
        {"2M2", "2M2 could mean 2.2M or 2M: write 2.2M."},
        {"1meg5", "1meg5 could mean 1.5meg or 1meg: write 1.5meg."},
        {"4R7", "4R7 could mean 4.7R or 4R: write 4.7R."},
        {"5V1", "5V1 could mean 5.1V or 5V: write 5.1V."},
        {"4,7k", "4,7k could mean 4.7k or 4 and then 7k: write 4.7k."},
        {"4,7", "4,7 could mean 4.7 or 4 and then 7: write 4.7."},
        {"4,700", "4,700 could mean 4.700 or 4700: write 4.700."},
        {"0x10", "0x10 could mean 16 or 0: write the number in tens."},
        {"0XFF", "0XFF could mean 255 or 0: write the number in tens."},
        {"25mil", "25mil could mean 25m or 25 thousandths of an inch: write 25m or the length in metres."},
        {"2pi", "2pi could mean 2*pi or 2p: write 2*pi or 2p."},
    };
    for (const auto& row : rows) {
        const Result<double> number = readNetlistNumber(row.text);
        ASSERT_FALSE(number) << row.text;
        EXPECT_EQ(number.error().code, ErrorCode::invalidInput);
        EXPECT_EQ(number.error().message, row.message);
    }
}

TEST(NetlistNumber, WhatIsNoNumberIsRefused) {
    for (const char* text : {"",
                             " ",
                             "k",
                             "-",
                             "+-1",
                             "--1",
                             ".",
                             "e3",
                             "1.2.3",
                             "1.2k3",
                             "1e3e4",
                             "10%",
                             "1k+1",
                             "1 2",
                             "abc",
                             "1_000",
                             "1e999",
                             "1e308k",
                             "99999999999999999999e99999999999",
                             "(1)",
                             "nan",
                             "inf",
                             "1..2"}) {
        const Result<double> number = readNetlistNumber(text);
        ASSERT_FALSE(number) << text;
        EXPECT_TRUE(number.error().message.ends_with('.')) << number.error().message;
    }
    EXPECT_EQ(readNetlistNumber("abc").error().message, "'abc' is no number: write one such as 4.7k or 100n.");
    EXPECT_EQ(readNetlistNumber("").error().message, "A number is missing: write one such as 4.7k or 100n.");
    EXPECT_EQ(readNetlistNumber("1e999").error().message,
              "1 with its exponent is too large a number: write a smaller one.");
    EXPECT_TRUE(readNetlistNumber("1" + std::string(400, '0') + "e-300"));
    EXPECT_FALSE(readNetlistNumber("1" + std::string(400, '0')));
}

TEST(NetlistNumber, CapitalsThatMayMeanMoreAreDoubted) {
    const auto doubt = [](const std::string& text) {
        const Result<NetlistNumber> number = readDoubtfulNumber(text);
        return number ? number->doubt : number.error().message;
    };
    EXPECT_EQ(doubt("1M"), "1M is read as 1 milli: write 1meg where a million is meant.");
    EXPECT_EQ(doubt("2.2MOhm"), "2.2MOhm is read as 2.2 milli: write 2.2meg where a million is meant.");
    EXPECT_EQ(doubt("100F"), "100F is read as 100 femto: leave the F away where farads are meant.");
    for (const char* clear : {"1m", "1meg", "1MEG", "1Meg", "1mF", "100nF", "1f", "10", "1k"}) {
        EXPECT_EQ(doubt(clear), "") << clear;
    }
    EXPECT_EQ(readDoubtfulNumber("-1M")->value, -0.001);
}

}  // namespace
}  // namespace ohmwright
