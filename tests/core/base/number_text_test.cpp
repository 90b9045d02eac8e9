// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>

namespace ohmwright {
namespace {

TEST(NumberText, FiguresHaveThreeSignificantDigits) {
    EXPECT_EQ(formatFigure(5.774), "5.77");
    EXPECT_EQ(formatFigure(13.34), "13.3");
    EXPECT_EQ(formatFigure(728.7), "729");
    EXPECT_EQ(formatFigure(1052.6), "1053");
    EXPECT_EQ(formatFigure(0.0), "0.00");
    EXPECT_EQ(formatFigure(-28.32), "−28.3");
    EXPECT_EQ(formatFigure(-0.09), "−0.09");
}

TEST(NumberText, RoundingUpIntoTheNextDecadeDropsADecimal) {
    EXPECT_EQ(formatFigure(9.994), "9.99");
    EXPECT_EQ(formatFigure(9.996), "10.0");
    EXPECT_EQ(formatFigure(99.94), "99.9");
    EXPECT_EQ(formatFigure(99.96), "100");
}

TEST(NumberText, ChangesCarryTheirSignAndZeroHasNone) {
    EXPECT_EQ(formatFigure(5.774, Sign::always), "+5.77");
    EXPECT_EQ(formatFigure(-1.35, Sign::always), "−1.35");
    EXPECT_EQ(formatFigure(-0.001, Sign::always), "0.00");
    EXPECT_EQ(formatFigure(0.001, Sign::always), "0.00");
    EXPECT_EQ(formatFigure(-0.004), "0.00");
}

TEST(NumberText, WhatIsNoFiniteNumberIsAWord) {
    // The level of a circuit that lets nothing through is minus infinity; its change is no number at all.
    EXPECT_EQ(formatFigure(-std::numeric_limits<double>::infinity(), Sign::always), "none");
    EXPECT_EQ(formatFixed(std::numeric_limits<double>::quiet_NaN(), 2), "none");
}

TEST(NumberText, TheMinusIsTheTrueOne) {
    EXPECT_EQ(formatFixed(-1.0, 1), "\u22121.0");
    EXPECT_EQ(formatFixed(-1.0, 1).find('-'), std::string::npos);
}

TEST(NumberText, FixedDecimalsAreKept) {
    EXPECT_EQ(formatFixed(4.456, 2), "4.46");
    EXPECT_EQ(formatFixed(9.0, 2), "9.00");
    EXPECT_EQ(formatFixed(-0.0, 2), "0.00");
    EXPECT_EQ(formatFixed(-0.004, 2, Sign::always), "0.00");
    EXPECT_EQ(formatFixed(3.0, 0, Sign::always), "+3");
    EXPECT_EQ(formatFixed(1e300, 0).size(), 301U);
}

TEST(NumberText, FrequenciesUseThePrefixOfTheirSize) {
    EXPECT_EQ(formatFrequency(82.4), "82.4 Hz");
    EXPECT_EQ(formatFrequency(728.7), "729 Hz");
    EXPECT_EQ(formatFrequency(1052.6), "1.05 kHz");
    EXPECT_EQ(formatFrequency(18500), "18.5 kHz");
    EXPECT_EQ(formatFrequency(999.6), "1.00 kHz");
    EXPECT_EQ(formatFrequency(999.4), "999 Hz");
    EXPECT_EQ(formatFrequency(3e6), "3.00 MHz");
    EXPECT_EQ(formatFrequency(7.1335), "7.13 Hz");
    EXPECT_EQ(formatFrequency(0.5), "500 mHz");
    EXPECT_EQ(formatFrequency(0.0), "0.00 Hz");
}

TEST(NumberText, VoltPairsAreOneFigureWhereBothRoundAlike) {
    EXPECT_EQ(formatVoltPair(0.241, -0.239), "±0.24");
    EXPECT_EQ(formatVoltPair(0.53, -0.23), "+0.53 / −0.23");
    EXPECT_EQ(formatVoltPair(0.73, -0.44), "+0.73 / −0.44");
    EXPECT_EQ(formatVoltPair(0.0, 0.0), "±0.00");
    EXPECT_EQ(formatVoltPair(0.1, 0.1), "+0.10 / +0.10");
}

}  // namespace
}  // namespace ohmwright
