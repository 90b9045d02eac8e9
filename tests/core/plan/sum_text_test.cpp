// Sums in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sum_text.h"

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

}  // namespace
}  // namespace ohmwright
