// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/table_plot.h"

#include <gtest/gtest.h>

#include <limits>

namespace ohmwright {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

ComparedCurve curveOf(CurveKind kind, std::vector<double> x, std::vector<double> stock, std::vector<double> now) {
    ComparedCurve curve;
    curve.stock.kind = curve.now.kind = kind;
    curve.stock.columns = {{"x", "x", "", x}, {"y", "y", "", std::move(stock)}};
    curve.now.columns = {{"x", "x", "", x}, {"y", "y", "", std::move(now)}};
    return curve;
}

TEST(TablePlot, TheLevelsAxisHoldsBothStates) {
    const TableAxes axes = tableAxes(curveOf(CurveKind::ladder, {0.002, 1.0}, {-72, -18}, {-50, 3}), Setting());
    EXPECT_LE(axes.y.low, -72);
    EXPECT_GE(axes.y.high, 3);
    EXPECT_EQ(axes.x, (PlotRange{2.0, 1000.0})) << "mVpk";
    EXPECT_EQ(axes.horizontal, "pick level, mVpk, 220 Hz");
}

TEST(TablePlot, AWaveIsShownAboutItsZeroOverOnePeriod) {
    Setting setting;
    setting.toneHz = 110.0;
    const TableAxes axes = tableAxes(curveOf(CurveKind::wave, {1, 2}, {-0.5, 0.2}, {-0.1, 0.3}), setting);
    EXPECT_DOUBLE_EQ(axes.y.high, -axes.y.low);
    EXPECT_GT(axes.y.high, 0.5);
    EXPECT_DOUBLE_EQ(axes.x.high, 1000.0 / 110.0);
}

TEST(TablePlot, NoiseStandsInWholeDecades) {
    const TableAxes axes = tableAxes(curveOf(CurveKind::noise, {20, 20000}, {30, 70}, {35, 120}), Setting());
    EXPECT_EQ(axes.y, (PlotRange{10, 1000}));
    EXPECT_TRUE(axes.isLogX && axes.isLogY);
}

TEST(TablePlot, NothingAtAllLeavesTheAxesWhereTheyRest) {
    const TableAxes axes = tableAxes(curveOf(CurveKind::ladder, {0.002}, {none}, {none}), Setting());
    EXPECT_TRUE(axes.y.low < axes.y.high);
    const TableAxes noise = tableAxes(curveOf(CurveKind::noise, {20}, {none}, {0.0}), Setting());
    EXPECT_TRUE(noise.y.low < noise.y.high);
}

TEST(TablePlot, HoldingStockLeavesStockAlone) {
    TablePlot plot;
    plot.resize(500, 300);
    EXPECT_TRUE(plot.curvesShown().isEmpty());
    const ComparedCurve curve = curveOf(CurveKind::ladder, {0.002, 1.0}, {-60, -18}, {-50, -10});
    plot.setCurve(&curve, Setting());
    EXPECT_EQ(plot.curvesShown(), (QStringList{"stock", "now"}));
    plot.setHoldsStock(true);
    EXPECT_EQ(plot.curvesShown(), QStringList{"stock"});
    plot.setCurve(nullptr, Setting());
    EXPECT_TRUE(plot.curvesShown().isEmpty());
}

}  // namespace
}  // namespace ohmwright
