// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/part_words.h"

#include "tests/support/demo_job.h"

#include <gmock/gmock.h>

namespace ohmwright::test {
namespace {

TEST(PartWords, ThePlaceIsTheBoardNoteAndTheBuild) {
    const Job job = harbourLamp();
    EXPECT_EQ(placeText(*findPart(job.stock, "c4")), "U1 pin 2 to top of Rg; film, 5 mm, 63 V");
}

TEST(PartWords, WithoutANoteTheNetsAreNamed) {
    const Job job = harbourLamp();
    EXPECT_EQ(placeText(*findPart(job.stock, "ccable")), "between in and ground");
    EXPECT_EQ(placeText(*findPart(job.stock, "vg")), "top on pu, wiper on in, bottom on ground");
}

TEST(PartWords, AMeasuredPartSaysWhatItIsUntilItIsChanged) {
    const Job job = harbourLamp();
    const Part& stock = *findPart(job.stock, "r10");
    Part now = stock;
    EXPECT_EQ(valueNote(stock, now), "100 kΩ ±5 %, this one 99.1 kΩ");
    now.value = 47e3;
    EXPECT_EQ(valueNote(stock, now), "47.0 kΩ ±5 %") << "the new part is not the one that was measured";
}

TEST(PartWords, ParametersHaveSiSuffixes) {
    const Model model{
        "D",
        PartKind::diode,
        {{"CJO", 4e-12}, {"IS", 2.52e-9}, {"N", 1.752}, {"VAF", 416.4}, {"MJE", 0.2593}, {"X", 0.0}, {"VTO", -1.5}},
        "card"};
    EXPECT_THAT(parameterTexts(model),
                testing::ElementsAre(std::pair("CJO", "4p"), std::pair("IS", "2.52n"), std::pair("MJE", "0.2593"),
                                     std::pair("N", "1.752"), std::pair("VAF", "416.4"), std::pair("VTO", "−1.5"),
                                     std::pair("X", "0")));
}

TEST(PartWords, WhatTheKnobRowSetsIsNotChangedHere) {
    const Job job = harbourLamp();
    EXPECT_EQ(setElsewhere(job.stock, *findPart(job.stock, "vbat")), "The battery is set in the knob row.");
    EXPECT_EQ(setElsewhere(job.stock, *findPart(job.stock, "c4")), "");
}

}  // namespace
}  // namespace ohmwright::test
