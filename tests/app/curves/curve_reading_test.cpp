// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_reading.h"

#include "tests/app/curves/sample_answers.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

TEST(CurveReading, LiesWithinAHundredthOfADecibelBetweenPoints) {
    const LinearState state = test::sampleLinear(728.7);
    for (const double hz : {20.0, 82.41, 110.0, 728.7, 3000.0, 19999.0, 20000.0}) {
        const auto gain = gainAt(state.response, hz);
        ASSERT_TRUE(gain.has_value()) << hz;
        EXPECT_NEAR(*gain, test::sampleGainDb(hz, 728.7), 0.01) << hz;
    }
}

TEST(CurveReading, SaysNothingOutsideTheCurve) {
    const LinearState state = test::sampleLinear(728.7);
    EXPECT_FALSE(gainAt(state.response, 19.0).has_value());
    EXPECT_FALSE(gainAt(state.response, 20100.0).has_value());
    EXPECT_FALSE(gainAt(ResponseCurve{}, 100.0).has_value());
}

TEST(CurveReading, SaysNothingWhereTheGainIsNone) {
    const ResponseCurve silent{{20, 20000}, {-std::numeric_limits<double>::infinity(), -20}, {0, 0}};
    EXPECT_FALSE(gainAt(silent, 20.0).has_value());
}

TEST(CurveReading, DifferenceIsNowLessStock) {
    const LinearState stock = test::sampleLinear(728.7);
    const LinearState now = test::sampleLinear(340.1);
    const std::vector<double> difference = differenceDb(now.response, stock.response);
    ASSERT_EQ(difference.size(), 301U);
    EXPECT_NEAR(difference[100], test::sampleGainDb(200.0, 340.1) - test::sampleGainDb(200.0, 728.7), 1e-9);
}

TEST(CurveReading, DifferenceOfUnequalGridsIsTakenAtTheCurvesOwnFrequencies) {
    const LinearState stock = test::sampleLinear(728.7);
    const ResponseCurve flat{{100, 1000}, {3, 3}, {0, 0}};
    const std::vector<double> difference = differenceDb(flat, stock.response);
    EXPECT_NEAR(difference[0], 3.0 - test::sampleGainDb(100.0, 728.7), 0.01);
    EXPECT_NEAR(difference[1], 3.0 - test::sampleGainDb(1000.0, 728.7), 0.01);
}

TEST(CurveReading, IsASentenceForAScreenReader) {
    CursorReading reading;
    reading.stockDb = -8.27;
    reading.nowDb = -2.38;
    EXPECT_EQ(readingSentence(reading).toStdString(), "open A, 110 Hz: stock −8.27 dB, now −2.38 dB, change +5.89 dB");
    reading.hz = 1000.0;
    reading.holdsStock = true;
    EXPECT_EQ(readingSentence(reading).toStdString(), "1.00 kHz: stock −8.27 dB");
}

TEST(CurveReading, ConditionsNameTheUnitsKnobs) {
    Job job = *test::sampleJob();
    job.setting.knobs["drive"] = 5.0;
    job.setting.knobs["level"] = 7.25;
    EXPECT_EQ(conditionsText(CurveKind::response, job).toStdString(),
              "dB, string to output, small signal, drive 5.0, level 7.2");
}

TEST(CurveReading, AnOpenGuitarVolumeIsNotWorthAWordAndAClosedOneIs) {
    Job job = *test::sampleJob();
    job.stock.stages = {{"Source", "", "in", {"RVG"}, 0}};
    job.stock.knobs.push_back({"guitar", "Guitar volume", "RVG"});
    job.setting.knobs["guitar"] = 10.0;
    EXPECT_FALSE(conditionsText(CurveKind::response, job).contains("guitar volume"));
    job.setting.knobs["guitar"] = 6.0;
    EXPECT_TRUE(conditionsText(CurveKind::response, job).contains("guitar volume 6.0"));
}

}  // namespace
}  // namespace ohmwright
