// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/typed_reading.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

BenchStep stepOf(Unit unit, double nominal) {
    BenchStep step;
    step.unit = unit;
    step.nominal = nominal;
    return step;
}

struct Typed {
    const char* text;
    Unit unit;
    double nominal;
    const char* shownUnit;
    double reading;
};

TEST(TypedReading, BareFiguresCountInTheUnitBesideTheEntryAndLettersAsTheyAre) {
    const Typed cases[] = {
        {"1.17", Unit::volt, 1.17, "V", 1.17},      {"1,17", Unit::volt, 1.17, "V", 1.17},
        {"580m", Unit::volt, 0.58, "V", 0.58},      {"-3.2", Unit::decibel, 2.0, "dB", -3.2},
        {"118", Unit::farad, 120e-9, "nF", 118e-9}, {"118n", Unit::farad, 120e-9, "nF", 118e-9},
        {"2.71", Unit::ohm, 2700.0, "kΩ", 2710.0},  {"2k71", Unit::ohm, 2700.0, "kΩ", 2710.0},
        {"270", Unit::ohm, 270.0, "Ω", 270.0},      {"3.91", Unit::ampere, 3.9e-3, "mA", 3.91e-3},
    };
    for (const Typed& each : cases) {
        const BenchStep step = stepOf(each.unit, each.nominal);
        EXPECT_EQ(entryUnit(step).toStdString(), each.shownUnit) << each.text;
        const Result<double> reading = typedReading(each.text, step);
        ASSERT_TRUE(reading) << each.text;
        EXPECT_NEAR(*reading, each.reading, 1e-9 * std::abs(each.reading)) << each.text;
    }
}

TEST(TypedReading, WhatIsNoFigureIsQuoted) {
    for (const char* typed : {"", "..", "4k7k", "1n"}) {
        const Result<double> reading = typedReading(typed, stepOf(Unit::ohm, 2700.0));
        ASSERT_FALSE(reading) << typed;
        EXPECT_THAT(reading.error().message,
                    testing::HasSubstr(QString("\"%1\" is no reading").arg(typed).toStdString()));
    }
}

}  // namespace
}  // namespace ohmwright
