// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/table_plot.h"

#include "app/look/level_units.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QTest>

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
    const TableAxes axes =
        tableAxes(curveOf(CurveKind::ladder, {0.002, 1.0}, {-72, -18}, {-50, 3}), Setting(), LevelUnit::millivoltsPeak);
    EXPECT_LE(axes.y.low, -72);
    EXPECT_GE(axes.y.high, 3);
    EXPECT_EQ(axes.x, (PlotRange{2.0, 1000.0})) << "mVpk";
    EXPECT_EQ(axes.horizontal, "pick level, mVpk, 220 Hz");
}

TEST(TablePlot, LabelsThatWouldTouchGiveWayToThoseOfTheDecades) {
    TableAxes axes;
    axes.x = {2.0, 1000.0};
    axes.isLogX = true;
    const AxisMarks wide = horizontalMarks(CurveKind::ladder, axes, 900.0);
    EXPECT_EQ(wide.labels, (std::vector<QString>{"2", "5", "10", "20", "50", "100", "200", "500", "1000"}));
    // 500 and 1000 are log 2 / log 500 = 0.11 of the axis apart: 18 px, less than half of both words.
    const AxisMarks narrow = horizontalMarks(CurveKind::ladder, axes, 160.0);
    EXPECT_EQ(narrow.at, wide.at) << "the lines of the grid stay";
    EXPECT_EQ(narrow.labels.back(), "1000");
    EXPECT_EQ(narrow.labels[7], "");
    EXPECT_EQ(narrow.labels[5], "100");
}

TEST(TablePlot, AWaveIsShownAboutItsZeroOverOnePeriod) {
    Setting setting;
    setting.toneHz = 110.0;
    const TableAxes axes =
        tableAxes(curveOf(CurveKind::wave, {1, 2}, {-0.5, 0.2}, {-0.1, 0.3}), setting, LevelUnit::millivoltsPeak);
    EXPECT_DOUBLE_EQ(axes.y.high, -axes.y.low);
    EXPECT_GT(axes.y.high, 0.5);
    EXPECT_DOUBLE_EQ(axes.x.high, 1000.0 / 110.0);
}

TEST(TablePlot, NoiseStandsInWholeDecades) {
    const TableAxes axes =
        tableAxes(curveOf(CurveKind::noise, {20, 20000}, {30, 70}, {35, 120}), Setting(), LevelUnit::millivoltsPeak);
    EXPECT_EQ(axes.y, (PlotRange{10, 1000}));
    EXPECT_TRUE(axes.isLogX && axes.isLogY);
}

TEST(TablePlot, NothingAtAllLeavesTheAxesWhereTheyRest) {
    const TableAxes axes =
        tableAxes(curveOf(CurveKind::ladder, {0.002}, {none}, {none}), Setting(), LevelUnit::millivoltsPeak);
    EXPECT_TRUE(axes.y.low < axes.y.high);
    const TableAxes noise =
        tableAxes(curveOf(CurveKind::noise, {20}, {none}, {0.0}), Setting(), LevelUnit::millivoltsPeak);
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

/// Puts the unit of levels back.
class LevelUnitGuard {
public:
    ~LevelUnitGuard() { LevelUnits::current().setUnit(LevelUnit::millivoltsPeak); }
};

std::vector<std::string> rowsOf(const CursorReadout& readout) {
    std::vector<std::string> lines;
    for (const ReadingRow& row : readout.rows) {
        lines.push_back((row.name + ' ' + row.figure).trimmed().toStdString());
    }
    return lines;
}

ComparedCurve ladder() {
    ComparedCurve curve = curveOf(CurveKind::ladder, {0.01, 0.1, 1.0}, {-40, -20, -10}, {-30, -14, -10});
    for (CurveTable* table : {&curve.stock, &curve.now}) {
        table->columns[0] = {"pick_v_peak", "pick level", "Vpk", table->columns[0].values};
        table->columns[1] = {"output_dbv", "output", "dBV", table->columns[1].values};
    }
    return curve;
}

// What the cursor reads of a ladder was solved there: it steps by rungs.
TEST(TablePlot, TheCursorOfLevelsStepsByRungsFromThePlayersOwn) {
    TablePlot plot;
    plot.resize(500, 300);
    const ComparedCurve curve = ladder();
    plot.setCurve(&curve, Setting());
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 0.1);
    EXPECT_EQ(plot.readout().lead, "100 mVpk");
    EXPECT_EQ(rowsOf(plot.readout()),
              (std::vector<std::string>{"output, dBV", "stock \u221220.0", "now \u221214.0", "change +6.00"}));
    QTest::keyClick(&plot, Qt::Key_Right);
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 1.0);
    QTest::keyClick(&plot, Qt::Key_Right);
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 1.0);
    QTest::keyClick(&plot, Qt::Key_Home);
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 0.01);
    plot.setHoldsStock(true);
    EXPECT_EQ(rowsOf(plot.readout()), (std::vector<std::string>{"output, dBV", "stock \u221240.0"}));
}

// 100 mVpk are -23.0 dBV and -20.8 dBu; -20 dBV are 100 mVrms and -17.8 dBu.
TEST(TablePlot, LevelsAreReadInTheUnitThatWasChosenAndTheAxesSayIt) {
    const LevelUnitGuard guard;
    TablePlot plot;
    plot.resize(500, 300);
    const ComparedCurve curve = ladder();
    plot.setCurve(&curve, Setting());
    LevelUnits::current().setUnit(LevelUnit::dbu);
    EXPECT_EQ(plot.axes().horizontal, "pick level, dBu, 220 Hz");
    EXPECT_EQ(plot.axes().vertical, "output, dBu");
    EXPECT_FALSE(plot.axes().isLogX);
    EXPECT_EQ(plot.readout().lead, "\u221220.8 dBu");
    EXPECT_EQ(rowsOf(plot.readout())[1], "stock \u221217.8");
    LevelUnits::current().setUnit(LevelUnit::millivoltsRms);
    EXPECT_EQ(plot.axes().vertical, "output, mVrms");
    EXPECT_TRUE(plot.axes().isLogY);
    EXPECT_EQ(plot.readout().lead, "71 mVrms");
    EXPECT_EQ(rowsOf(plot.readout())[1], "stock 100");
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 0.1) << "the place is the same in every unit";
}

TEST(TablePlot, PressingTheWordsOfALevelAxisTakesTheNextUnit) {
    const LevelUnitGuard guard;
    TablePlot plot;
    plot.resize(500, 300);
    plot.show();
    const ComparedCurve curve = ladder();
    plot.setCurve(&curve, Setting());
    plot.replotNow();
    QWidget& surface = *plot.findChild<QWidget*>(QString(), Qt::FindDirectChildrenOnly);
    QTest::mouseClick(&surface, Qt::LeftButton, Qt::NoModifier, QPoint(430, 295));
    EXPECT_EQ(LevelUnits::current().unit(), LevelUnit::millivoltsRms);
}

TEST(TablePlot, HarmonicsAreReadOneByOneAndTimeFinely) {
    TablePlot plot;
    plot.resize(500, 300);
    const ComparedCurve harmonics = curveOf(CurveKind::harmonics, {1, 2, 3}, {0, none, -19.6}, {0, -40, -22});
    plot.setCurve(&harmonics, Setting());
    EXPECT_EQ(plot.readout().caption, "Cursor, harmonic 2");
    EXPECT_EQ(plot.readout().lead, "440 Hz");
    EXPECT_TRUE(plot.readout().sentence.contains("stock none"));
    QTest::keyClick(&plot, Qt::Key_Right);
    EXPECT_TRUE(plot.readout().sentence.contains("stock \u221219.6")) << plot.readout().sentence.toStdString();
    Setting setting;
    setting.toneHz = 100.0;
    const ComparedCurve wave = curveOf(CurveKind::wave, {0, 5, 10}, {0.0, 0.5, 0.0}, {0.0, 0.2, 0.0});
    plot.setCurve(&wave, setting);
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 2.5);
    QTest::keyClick(&plot, Qt::Key_Right);
    EXPECT_NEAR(plot.cursorAt(), 2.5 + 10.0 / 64.0, 1e-12);
    QTest::keyClick(&plot, Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_NEAR(plot.cursorAt(), 2.5 + 10.0 / 64.0 * 1.25, 1e-12);
    QTest::keyClick(&plot, Qt::Key_End);
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 10.0);
}

// A wave of millivolts is read in millivolts, and what the pickup gives has no stock and now.
TEST(TablePlot, ASmallWaveIsReadInMillivolts) {
    TablePlot plot;
    plot.resize(500, 300);
    ComparedCurve wave = curveOf(CurveKind::wave, {0, 5, 10}, {0.0, 0.0331, 0.0}, {0.0, 0.0562, 0.0});
    for (CurveTable* table : {&wave.stock, &wave.now}) {
        table->columns[1] = {"output_v", "output", "V", table->columns[1].values};
        table->columns.push_back({"pickup_v", "pickup", "V", {0.0, 0.1, 0.0}});
    }
    Setting setting;
    setting.toneHz = 100.0;
    plot.setCurve(&wave, setting);
    plot.setCursorAt(5.0);
    EXPECT_EQ(plot.axes().vertical, "output, mV");
    EXPECT_EQ(rowsOf(plot.readout()),
              (std::vector<std::string>{"output, mV", "stock 33.1", "now 56.2", "change +23.1", "pickup, mV 100"}));
}

TEST(TablePlot, TheReadOutIsItsAccessibleValue) {
    TablePlot plot;
    const ComparedCurve curve = ladder();
    plot.setCurve(&curve, Setting());
    QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(&plot);
    ASSERT_NE(spoken, nullptr);
    EXPECT_EQ(spoken->role(), QAccessible::Chart);
    EXPECT_EQ(spoken->text(QAccessible::Value).toStdString(),
              "Cursor, pick level, 100 mVpk: output, dBV: stock \u221220.0, now \u221214.0, change +6.00");
}

TEST(TablePlot, APinnedStateIsDrawnAndReadBesideTheOthers) {
    TablePlot plot;
    plot.resize(500, 300);
    const ComparedCurve curve = ladder();
    plot.setCurve(&curve, Setting());
    plot.setPins({{"A", 0, ladder().now}, {"B", 1, curveOf(CurveKind::noise, {20}, {1}, {1}).now}});
    EXPECT_EQ(plot.curvesShown(), (QStringList{"stock", "ghost A", "now"})) << "a table of another kind is not drawn";
    EXPECT_EQ(rowsOf(plot.readout()).back(), "A \u221214.0");
    plot.setHoldsStock(true);
    EXPECT_EQ(plot.curvesShown(), QStringList{"stock"});
}

}  // namespace
}  // namespace ohmwright
