// Sums in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sum_text.h"

#include "tests/support/spoken.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Sum sum(const char* unit, const char* values, double result) {
    Sum one;
    one.figure = "f";
    one.unit = unit;
    one.withValues = values;
    one.result = result;
    return one;
}

TEST(SumText, OneDigitMoreThanElsewhere) {
    EXPECT_EQ(workedText(sum("Hz", "1/(2π·3k9·56n)", 728.737)), "1/(2π·3k9·56n) = 728.7 Hz");
    EXPECT_EQ(workedText(sum("Hz", "x", 3851.02)), "x = 3.851 kHz");
    EXPECT_EQ(workedText(sum("Hz", "x", 38.197)), "x = 38.20 Hz");
    EXPECT_EQ(workedText(sum("dB", "x", 23.804)), "x = 23.80 dB");
    EXPECT_EQ(workedText(sum("V", "x", -0.3591)), "x = −0.359 V");
    EXPECT_EQ(workedText(sum("Ω", "x", 37500.0)), "x = 37k5");
    EXPECT_EQ(workedText(sum("%", "x", 11.18)), "x = 11.2 %");
}

TEST(SumText, WhatExplainsAValueStandsBehindTheResult) {
    EXPECT_EQ(workedText(sum("V", "n·ln(i/Is), i = 93.0 mV/13k5", 0.359)), "n·ln(i/Is) = 0.359 V, i = 93.0 mV/13k5");
}

TEST(SumText, TheSolvedFigureSaysWhichWayTheSumIsOff) {
    Sum corner = sum("Hz", "x", 728.7);
    EXPECT_EQ(solvedText(corner), "");
    corner.solved = 679.2;
    corner.difference = -7.29;
    EXPECT_EQ(solvedText(corner), "solved 679.2 Hz: the sum is 7.3 % high");
    Sum gain = sum("dB", "x", 23.80);
    gain.solved = 23.804;
    gain.difference = 0.004;
    EXPECT_EQ(solvedText(gain), "solved 23.80 dB: the sum agrees");
    gain.solved = 24.0;
    gain.difference = 0.2;
    EXPECT_EQ(solvedText(gain), "solved 24.00 dB: the sum is 0.20 dB low");
}

TEST(SumText, WhichWayTheSumIsOffIsAskedForWhole) {
    const test::Spoken german{{"solved %1: the sum is %2 high", "Die Rechnung liegt %2 zu hoch (gelöst %1)"},
                              {"now − stock = %1 − %2 = %3", "jetzt − Werk = %1 − %2 = %3"},
                              {"%1; yes from %2, partly from %3", "%1; ja ab %2, teils ab %3"}};
    Sum corner = sum("Hz", "x", 728.7);
    corner.solved = 679.2;
    corner.difference = -7.29;
    EXPECT_EQ(solvedText(corner), "Die Rechnung liegt 7.3 % zu hoch (gelöst 679.2 Hz)");
    ClaimFigure figure;
    figure.unit = "dB";
    figure.stock = -10.49;
    figure.now = -4.71;
    figure.limitYes = 3.0;
    figure.limitPartly = 1.5;
    EXPECT_EQ(claimFigureText(figure), "jetzt − Werk = −4.71 − (−10.49) = +5.78 dB; ja ab +3.00 dB, teils ab +1.50 dB");
}

}  // namespace
}  // namespace ohmwright
