// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/before_and_after.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

/// A slope of 6.02 dB an octave through 0 dB at 1 kHz, at 100 points a decade.
ResponseCurve risingCurve() {
    ResponseCurve curve;
    for (int i = 0; i <= 300; ++i) {
        const double hz = 20.0 * std::pow(10.0, i / 100.0);
        curve.hz.push_back(hz);
        curve.gainDb.push_back(20.0 * std::log10(hz / 1000.0));
        curve.phaseDeg.push_back(90.0);
    }
    return curve;
}

TEST(BeforeAndAfter, ACurveIsReadBetweenItsPoints) {
    const ResponseCurve curve = risingCurve();
    for (const double hz : {20.0, 82.41, 110.0, 1000.0, 3000.0, 19999.0}) {
        const auto db = gainDbAt(curve, hz);
        ASSERT_TRUE(db) << hz;
        EXPECT_NEAR(*db, 20.0 * std::log10(hz / 1000.0), 1e-9) << hz;
    }
}

TEST(BeforeAndAfter, NothingIsReadOutsideTheCurve) {
    EXPECT_FALSE(gainDbAt(risingCurve(), 19.0));
    EXPECT_FALSE(gainDbAt(risingCurve(), 21000.0));
    EXPECT_FALSE(gainDbAt(ResponseCurve{}, 100.0));
}

TEST(BeforeAndAfter, TheRangeHoldsBothCurvesInStepsOfSixDecibels) {
    ResponseCurve low = risingCurve();
    ResponseCurve high = risingCurve();
    for (double& db : high.gainDb) {
        db += 20.0;
    }
    const DecibelRange range = rangeOf(low, high);
    EXPECT_EQ(std::fmod(range.lowest, 6.0), 0.0);
    EXPECT_EQ(std::fmod(range.highest, 6.0), 0.0);
    // 20 Hz of the low curve is -34.0 dB, 6 kHz of the high one 35.6 dB.
    EXPECT_LE(range.lowest, -34.0);
    EXPECT_GE(range.highest, 35.5);
}

TEST(BeforeAndAfter, AFlatCurveStillHasLinesToReadItBy) {
    ResponseCurve flat = risingCurve();
    for (double& db : flat.gainDb) {
        db = 3.0;
    }
    const DecibelRange range = rangeOf(flat, flat);
    EXPECT_GE(range.highest - range.lowest, 24.0);
}

}  // namespace
}  // namespace ohmwright
