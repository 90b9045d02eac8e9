// Reference: tests/reference/harbour-lamp-figures.csv, mod A (gain cap 120n): response at 82.41 Hz 5.77 dB above stock.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/compare_curves.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

const double none = std::numeric_limits<double>::quiet_NaN();

CurveTable against(std::vector<double> axis, std::vector<double> values) {
    CurveTable table;
    table.columns = {{"frequency_hz", "frequency", "Hz", std::move(axis)},
                     {"gain_db", "gain", "dB", std::move(values)}};
    return table;
}

TEST(CompareCurves, ChangeIsNowLessStockOnTheSameAxis) {
    const CurveTable both = sideBySide({against({10, 20}, {1, 2}), against({10, 20}, {1.5, 5})});
    ASSERT_EQ(both.columns.size(), 4U);
    EXPECT_EQ(both.columns[1].id, "stock_gain_db");
    EXPECT_EQ(both.columns[2].name, "gain, now");
    EXPECT_EQ(both.columns[3].values, (std::vector<double>{0.5, 3}));
}

TEST(CompareCurves, AMissingValueHasNoChange) {
    const CurveTable both = sideBySide({against({10}, {none}), against({10}, {4})});
    EXPECT_TRUE(std::isnan(both.columns[1].values[0]));
    EXPECT_EQ(both.columns[2].values[0], 4);
    EXPECT_TRUE(std::isnan(both.columns[3].values[0]));
}

// A fuzz needs finer steps than its stock: the two waves have samples of their own.
TEST(CompareCurves, RowsThatOneOfThemHasStandAfterTheOthers) {
    const CurveTable both = sideBySide({against({10, 20}, {1, 2}), against({10, 15, 20}, {4, 5, 6})});
    EXPECT_EQ(both.columns[0].values, (std::vector<double>{10, 20, 15}));
    EXPECT_EQ(both.columns[2].values, (std::vector<double>{4, 6, 5}));
    EXPECT_TRUE(std::isnan(both.columns[1].values[2]));
}

TEST(CompareCurves, NetsArePairedByName) {
    ComparedCurve curve;
    curve.stock.rows = {"a", "b"};
    curve.stock.columns = {{"bias_v", "no signal", "V", {1, 2}}};
    curve.now.rows = {"b", "new"};
    curve.now.columns = {{"bias_v", "no signal", "V", {2.5, 7}}};
    const CurveTable both = sideBySide(curve);
    EXPECT_EQ(both.rows, (std::vector<std::string>{"a", "b", "new"}));
    EXPECT_EQ(both.columns[2].values[1], 0.5);
    EXPECT_TRUE(std::isnan(both.columns[1].values[0]));
    EXPECT_EQ(both.columns[1].values[2], 7);
}

TEST(CompareCurves, HarbourLampWithItsGainCapacitor) {
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = mod.letter == "A";
    }
    const Result<ComparedCurve> compared = compareCurve(job, CurveKind::response);
    ASSERT_TRUE(compared) << compared.error().message;
    const CurveTable both = sideBySide(*compared);
    const std::vector<double>& hertz = both.columns[0].values;
    const auto above = std::lower_bound(hertz.begin(), hertz.end(), 82.41);
    // Points are 2.3 % apart there: within 0.05 dB of the figure at 82.41 Hz.
    EXPECT_NEAR(both.columns[3].values[std::size_t(above - hertz.begin())], 5.77, 0.15);
}

TEST(CompareCurves, APlanThatMakesNoCircuitNamesTheState) {
    Job job = test::harbourLamp();
    job.stock.parts.clear();
    const Result<ComparedCurve> compared = compareCurve(job, CurveKind::noise);
    ASSERT_FALSE(compared);
    EXPECT_FALSE(compared.error().message.empty());
}

}  // namespace
}  // namespace ohmwright
