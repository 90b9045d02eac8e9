// Sums as entries of a card.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/sum_notes.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Sum corner(const char* values, double hertz, double solved) {
    Sum sum;
    sum.figure = "gain_leg_corner";
    sum.name = "gain-leg corner";
    sum.formula = "1/(2π·Rg·Cg)";
    sum.withValues = values;
    sum.result = hertz;
    sum.unit = "Hz";
    sum.solved = solved;
    sum.difference = 100.0 * (solved - hertz) / solved;
    sum.approximation = "A tag.";
    sum.parts = {"r5", "c4"};
    return sum;
}

TEST(SumNotes, StockAndNowStandUnderEachOther) {
    const auto notes = sumNotes({corner("1/(2π·3k9·56n)", 728.7, 679.2)}, {corner("1/(2π·3k9·120n)", 340.1, 328.3)},
                                QStringList{"gain_leg_corner"});
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_EQ(notes.front().title, "gain-leg corner: 728.7 Hz → 340.1 Hz");
    EXPECT_EQ(notes.front().words, "1/(2π·Rg·Cg)\nstock: 1/(2π·3k9·56n) = 728.7 Hz\nnow: 1/(2π·3k9·120n) = 340.1 Hz");
    EXPECT_EQ(notes.front().smallPrint,
              "stock: solved 679.2 Hz: the sum is 7.3 % high\nnow: solved 328.3 Hz: the sum is 3.6 % high\nA tag.");
}

TEST(SumNotes, WhatDidNotChangeStandsOnce) {
    const Sum same = corner("1/(2π·3k9·56n)", 728.7, 679.2);
    const auto notes = sumNotes({same}, {same}, QStringList{"gain_leg*"});
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_EQ(notes.front().title, "gain-leg corner: 728.7 Hz");
    EXPECT_EQ(notes.front().words, "1/(2π·Rg·Cg)\n1/(2π·3k9·56n) = 728.7 Hz");
    EXPECT_EQ(notes.front().smallPrint, "solved 679.2 Hz: the sum is 7.3 % high\nA tag.");
}

/// A feedback that a mod loads differently: the same sum, another solved figure.
TEST(SumNotes, ASolvedFigureThatChangedIsSaidForBoth) {
    const auto notes =
        sumNotes({corner("x", 728.7, 679.2)}, {corner("x", 728.7, 700.0)}, QStringList{"gain_leg_corner"});
    EXPECT_EQ(notes.front().smallPrint,
              "stock: solved 679.2 Hz: the sum is 7.3 % high\nnow: solved 700.0 Hz: the sum is 4.1 % high\nA tag.");
}

TEST(SumNotes, OfAPartAndOfWhatAModTookAway) {
    const Sum one = corner("x", 728.7, 679.2);
    EXPECT_EQ(sumNotesOfPart({one}, {}, "c4").size(), 1U);
    EXPECT_TRUE(sumNotesOfPart({one}, {one}, "c5").empty());
    EXPECT_EQ(sumNotes({one}, {one}).size(), 1U);
    EXPECT_TRUE(sumNotes({one}, {one}, QStringList{"pot_drive"}).empty());
}

}  // namespace
}  // namespace ohmwright
