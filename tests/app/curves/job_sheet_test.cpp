// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/job_sheet.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

CurveTable table(CurveKind kind, std::vector<double> x, std::vector<double> y, const char* unit) {
    CurveTable made;
    made.kind = kind;
    made.columns = {{"x", "x", "", std::move(x)}, {"y", "y", unit, std::move(y)}};
    return made;
}

TEST(JobSheet, TheHeadNamesTheUnitTheCurveAndWhatItHoldsFor) {
    const CurveSheet sheet = headOfSheet(CurveKind::clip, test::harbourLamp());
    EXPECT_EQ(sheet.title.toStdString(), "Harbour Lamp, HL-0231: Clip");
    EXPECT_TRUE(sheet.conditions.contains("plan ")) << sheet.conditions.toStdString();
    EXPECT_TRUE(sheet.conditions.endsWith("no crossover and no common-mode limit.")) << sheet.conditions.toStdString();
    EXPECT_FALSE(headOfSheet(CurveKind::response, test::harbourLamp()).conditions.contains("crossover"));
}

TEST(JobSheet, TheAxisHoldsBothStates) {
    const ComparedCurve curve{table(CurveKind::response, {20.0, 200.0, 20000.0}, {-12.0, 0.0, -20.0}, "dB"),
                              table(CurveKind::response, {20.0, 200.0, 20000.0}, {-12.0, 31.0, -41.0}, "dB")};
    const CurveSheet sheet = sheetOfJob(CurveKind::response, test::harbourLamp(), curve, {});
    EXPECT_LE(sheet.axes.y.low, -41.0);
    EXPECT_GE(sheet.axes.y.high, 31.0);
    EXPECT_EQ(sheet.axes.x, wholeHz);
}

TEST(JobSheet, AWaveUnderAVoltIsInMillivoltsAndSoIsWhatIsPinned) {
    const CurveTable wave = table(CurveKind::wave, {0.0, 1.0}, {-0.25, 0.25}, "V");
    const CurveSheet sheet = sheetOfJob(CurveKind::wave, test::harbourLamp(), {wave, wave}, {{"W", 0, wave}});
    EXPECT_DOUBLE_EQ(sheet.curve.now.columns[1].values[1], 250.0);
    ASSERT_EQ(sheet.pins.size(), 1u);
    EXPECT_DOUBLE_EQ(sheet.pins[0].table.columns[1].values[1], 250.0);
    EXPECT_TRUE(sheet.axes.vertical.contains("mV")) << sheet.axes.vertical.toStdString();
}

}  // namespace
}  // namespace ohmwright
