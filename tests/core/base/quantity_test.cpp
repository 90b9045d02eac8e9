// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/quantity.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(Quantity, ValuesOfDifferentUnitsAreNeverEqual) {
    EXPECT_EQ(ohms(1.0), (Quantity{1.0, Unit::ohm}));
    EXPECT_NE(ohms(1.0), farads(1.0));
    EXPECT_NE(henries(1.0), hertz(1.0));
    EXPECT_NE(volts(1.0), amperes(1.0));
}

TEST(Quantity, SymbolsAreThoseOfTheSi) {
    EXPECT_STREQ(unitSymbol(Unit::ohm), "Ω");
    EXPECT_STREQ(unitSymbol(Unit::farad), "F");
    EXPECT_STREQ(unitSymbol(Unit::henry), "H");
    EXPECT_STREQ(unitSymbol(Unit::volt), "V");
    EXPECT_STREQ(unitSymbol(Unit::ampere), "A");
    EXPECT_STREQ(unitSymbol(Unit::hertz), "Hz");
    EXPECT_STREQ(unitSymbol(Unit::decibel), "dB");
    EXPECT_STREQ(unitSymbol(Unit::percent), "%");
    EXPECT_STREQ(unitSymbol(Unit::none), "");
}

TEST(Quantity, PartsHaveTheRangeOfTheHouse) {
    EXPECT_EQ(valueRange(Unit::ohm).lowest, 0.01);
    EXPECT_EQ(valueRange(Unit::ohm).highest, 100e9);
    EXPECT_EQ(valueRange(Unit::farad).lowest, 0.1e-12);
    EXPECT_EQ(valueRange(Unit::farad).highest, 1.0);
    EXPECT_LT(valueRange(Unit::decibel).lowest, -1e300);
}

}  // namespace
}  // namespace ohmwright
