// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::answered;
using test::numberIn;
using test::rowsOf;
using testing::HasSubstr;

const std::string job = test::harbourLampPath();

TEST(TransferVerb, OfADividerIsALine) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("divider.cir", test::netlists::divider);
    const auto rows = rowsOf(answered({"transfer", file, "--from", "-5", "--to", "5", "--points", "11"}));
    ASSERT_EQ(rows.size(), 11U);
    for (std::size_t k = 0; k < rows.size(); ++k) {
        EXPECT_NEAR(numberIn(rows[k], "input_v"), static_cast<double>(k) - 5.0, 1e-12);
        EXPECT_NEAR(numberIn(rows[k], "output_v"), 0.4 * numberIn(rows[k], "input_v"), 1e-9);
    }
}

TEST(TransferVerb, UnaskedItSweepsAVoltEitherWayOfTheSourcesOwnValue) {
    const test::ScratchFolder folder;
    const auto rows = rowsOf(answered({"transfer", folder.write("divider.cir", test::netlists::divider)}));
    ASSERT_EQ(rows.size(), 401U);
    EXPECT_DOUBLE_EQ(numberIn(rows.front(), "input_v"), 9.0);
    EXPECT_DOUBLE_EQ(numberIn(rows.back(), "input_v"), 11.0);
}

TEST(TransferVerb, OfAClipperAgreesWithThePublishedPoints) {
    const test::ScratchFolder folder;
    const std::string file = folder.write(
        "clipper.cir", "clipper\nVIN in 0 AC 1\nR1 in out 1000\nD1 out 0 DX\n.model DX D(IS=2.52n N=1.752)\n.end\n");
    const auto rows = rowsOf(answered({"transfer", file, "--from", "-1", "--to", "10", "--points", "111"}));
    int tested = 0;
    for (const test::CsvRow& point : test::referenceTable("diode_clipper_points.csv")) {
        if (point.at("circuit") != "single" || point.at("R_ohm") != "1000.0" || point.at("N") != "1.752") continue;
        for (const test::CsvRow& row : rows)
            if (std::abs(numberIn(row, "input_v") - std::stod(point.at("V_source"))) < 1e-9) {
                EXPECT_NEAR(numberIn(row, "output_v"), std::stod(point.at("v_out")), 3e-9) << point.at("V_source");
                ++tested;
            }
    }
    EXPECT_GE(tested, 5);
}

TEST(LadderVerb, OfALinearCircuitHasTheSlopeOne) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("divider.cir", test::netlists::divider);
    const auto rows = rowsOf(answered({"ladder", file, "--tone", "1k", "--from", "10m", "--to", "1", "--points", "3"}));
    ASSERT_EQ(rows.size(), 3U);
    const double levels[] = {0.01, 0.1, 1.0};
    for (std::size_t k = 0; k < rows.size(); ++k) {
        const double peak = 0.4 * levels[k];
        EXPECT_NEAR(numberIn(rows[k], "input_v_peak"), levels[k], 1e-12);
        EXPECT_NEAR(numberIn(rows[k], "output_v_rms"), peak / std::numbers::sqrt2, 1e-6 * peak);
        EXPECT_NEAR(numberIn(rows[k], "fundamental_v_peak"), peak, 1e-6 * peak);
        EXPECT_NEAR(numberIn(rows[k], "peak_pos_v"), peak, 1e-4 * peak);
        EXPECT_NEAR(numberIn(rows[k], "peak_neg_v"), -peak, 1e-4 * peak);
        EXPECT_NEAR(numberIn(rows[k], "slope_db_per_db"), 1.0, 1e-6);
    }
}

TEST(LadderVerb, OfTheDemoHasItsLevelAndSlope) {
    const auto rows =
        rowsOf(answered({"ladder", job, "--tone", "220", "--from", "50m", "--to", "0.2", "--points", "3"}));
    ASSERT_EQ(rows.size(), 3U);
    const double dbv = 20.0 * std::log10(numberIn(rows[1], "output_v_rms"));
    EXPECT_NEAR(dbv, test::expectedFigure("stock", "level", "out", "hz=220;mvpk=100"), 0.05);
    EXPECT_NEAR(numberIn(rows[1], "slope_db_per_db"),
                test::expectedFigure("stock", "level_slope", "out", "hz=220;mvpk=100"), 0.005);
}

// v + v^2/10 of two tones of 1 V: v^2/10 gives 0.1 V at the sum and the difference, 0.05 V at twice either.
TEST(TwoToneVerb, OfASquarerAreTheProductsOfAlgebra) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("squarer.cir", test::netlists::squarer);
    const auto rows = rowsOf(answered({"two-tone", file, "--tones", "400,600", "--level", "1"}));
    const auto levelAt = [&rows](double hertz) {
        for (const test::CsvRow& row : rows)
            if (std::abs(numberIn(row, "frequency_hz") - hertz) < 1e-6) return numberIn(row, "level_db_re_first_tone");
        ADD_FAILURE() << "no line at " << hertz;
        return 0.0;
    };
    EXPECT_NEAR(levelAt(400.0), 0.0, 1e-9);
    EXPECT_NEAR(levelAt(600.0), 0.0, 0.001);
    for (double hertz : {200.0, 1000.0}) EXPECT_NEAR(levelAt(hertz), -20.0, 0.002) << hertz;
    for (double hertz : {800.0, 1200.0}) EXPECT_NEAR(levelAt(hertz), 20.0 * std::log10(0.05), 0.002) << hertz;
}

TEST(TwoToneVerb, TonesWithoutACommonPeriodAreRefused) {
    // It showed them as 100 Hz and 141 Hz, which have one.
    const std::string said =
        test::refused({"two-tone", job, "--tones", "100,141.4213562", "--level", "0.1"}, ExitStatus::callWrong);
    EXPECT_THAT(said, HasSubstr("--tones"));
    EXPECT_THAT(said, HasSubstr("141.4213562 Hz"));
    EXPECT_THAT(said, HasSubstr("such as 140 Hz"));
}

}  // namespace
}  // namespace ohmwright
