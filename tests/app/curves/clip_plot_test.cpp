// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_plot.h"

#include "app/look/level_units.h"
#include "tests/app/curves/sample_answers.h"

#include <gtest/gtest.h>

#include <QTest>

namespace ohmwright {
namespace {

TEST(ClipPlot, ShowsBothStatesAndKeepsStockWhenNowChanges) {
    ClipPlot plot;
    LargeSignalAnswer answer = test::sampleLargeSignalAnswer();
    plot.setAnswer(&answer);
    EXPECT_EQ(plot.curvesShown(), (QStringList{"stock", "now"}));
    answer.now = test::sampleLargeSignal(20.0);
    answer.ghost = test::sampleLargeSignal(15.0);
    plot.setAnswer(&answer);
    EXPECT_EQ(plot.curvesShown(), (QStringList{"stock", "ghost", "now"}));
    plot.setHoldsStock(true);
    EXPECT_EQ(plot.curvesShown(), QStringList{"stock"});
    plot.setAnswer(nullptr);
    EXPECT_TRUE(plot.curvesShown().isEmpty());
}

TEST(ClipPlot, SaysWhereTheWaveIsProbed) {
    ClipPlot plot;
    const LargeSignalAnswer answer = test::sampleLargeSignalAnswer();
    plot.setAnswer(&answer);
    EXPECT_EQ(plot.title().toStdString(), "peak + and peak −, U1A pin 1");
}

TEST(ClipPlot, TheAxisHoldsTheHighestPeakAndKeepsIt) {
    ClipPlot plot;
    LargeSignalAnswer answer = test::sampleLargeSignalAnswer();
    answer.now = test::sampleLargeSignal(10.3, 0.3, 0.115);
    plot.setAnswer(&answer);
    const PlotRange grown = plot.voltsShown();
    EXPECT_GE(grown.high, answer.now.clip.positiveVolts.back());
    EXPECT_EQ(grown.low, -grown.high);
    answer.now = test::sampleLargeSignal(2.0);
    plot.setAnswer(&answer);
    EXPECT_EQ(plot.voltsShown(), grown);
}

TEST(ClipPlot, WithEqualScalesAVoltIsAsLongAsItIsHigh) {
    ClipPlot plot;
    plot.resize(420, 300);
    plot.show();
    const LargeSignalAnswer answer = test::sampleLargeSignalAnswer();
    plot.setAnswer(&answer);
    plot.replotNow();
    const auto before = plot.voltsPerPixel();
    EXPECT_GT(before.second, 2.0 * before.first) << "else the test shows nothing";
    QTest::keyClick(&plot, Qt::Key_E);
    EXPECT_TRUE(plot.hasEqualScales());
    EXPECT_NEAR(plot.voltsPerPixel().first, plot.voltsPerPixel().second, 0.01 * before.second);
    EXPECT_EQ(plot.voltsPerPixel().second, before.second) << "the curve keeps its height";
    plot.resize(300, 420);
    plot.replotNow();
    EXPECT_NEAR(plot.voltsPerPixel().first, plot.voltsPerPixel().second, 0.01 * before.second);
    // Decibels have no volts a px.
    LevelUnits::current().setUnit(LevelUnit::dbv);
    EXPECT_EQ(plot.voltsPerPixel().first, 0.0);
    LevelUnits::current().setUnit(LevelUnit::millivoltsPeak);
    QTest::keyClick(&plot, Qt::Key_E);
    EXPECT_GT(plot.voltsPerPixel().second, 2.0 * plot.voltsPerPixel().first);
}

TEST(ClipPlot, PeaksAtThePlayerComeFromTheFigures) {
    LargeSignalState state = test::sampleLargeSignal(5.6);
    state.figures = {{"peak_positive", 0.437, ""}, {"peak_negative", std::nullopt, "no signal"}};
    EXPECT_EQ(playerPeaks(state).positive, 0.437);
    EXPECT_FALSE(playerPeaks(state).negative.has_value());
}

TEST(ClipPlot, TheCursorStandsAtThePlayersLevelUntilItIsMoved) {
    ClipPlot plot;
    plot.resize(400, 300);
    Job job = *test::sampleJob();
    job.setting.pickVoltsPeak = 0.05;
    LargeSignalAnswer answer = test::sampleLargeSignalAnswer();
    answer.job = std::make_shared<const Job>(job);
    plot.setAnswer(&answer);
    EXPECT_DOUBLE_EQ(plot.cursorAt(), 0.05);
    EXPECT_EQ(plot.readout().lead, "50 mVpk");
    QTest::keyClick(&plot, Qt::Key_Right);
    // The axis ends at 200 mVpk; a fiftieth of it.
    EXPECT_NEAR(plot.cursorAt(), 0.054, 1e-12);
    QTest::keyClick(&plot, Qt::Key_Left, Qt::ShiftModifier);
    EXPECT_NEAR(plot.cursorAt(), 0.0532, 1e-12);
    job.setting.pickVoltsPeak = 0.1;
    answer.job = std::make_shared<const Job>(job);
    plot.setAnswer(&answer);
    EXPECT_NEAR(plot.cursorAt(), 0.0532, 1e-12);
    QTest::keyClick(&plot, Qt::Key_End);
    EXPECT_NEAR(plot.cursorAt(), 0.2, 1e-12);
}

// The sample's peaks are 0.115 asinh(gain V / 0.115), by hand at 100 mV: gain 5.6 gives 0.263, gain 12 gives 0.350.
TEST(ClipPlot, BothHalfWavesAreRead) {
    ClipPlot plot;
    LargeSignalAnswer answer = test::sampleLargeSignalAnswer();
    answer.stock = test::sampleLargeSignal(5.6);
    answer.now = test::sampleLargeSignal(12.0);
    plot.setAnswer(&answer);
    const CursorReadout readout = plot.readout();
    ASSERT_EQ(readout.rows.size(), 8U);
    EXPECT_EQ(readout.rows[0].name, QStringLiteral("peak +, V"));
    EXPECT_NEAR(readout.rows[1].figure.toDouble(), 0.26, 0.001);
    EXPECT_NEAR(readout.rows[2].figure.toDouble(), 0.35, 0.001);
    EXPECT_EQ(readout.rows[4].name, QStringLiteral("peak \u2212, V"));
    EXPECT_EQ(readout.rows[5].figure[0], QChar(0x2212));
}

TEST(ClipPlot, InDecibelsTheCurveBeginsFortyBelowItsEnd) {
    ClipPlot plot;
    plot.resize(400, 300);
    const LargeSignalAnswer answer = test::sampleLargeSignalAnswer();
    plot.setAnswer(&answer);
    LevelUnits::current().setUnit(LevelUnit::dbv);
    // 200 mVpk are -16.99 dBV: 40 dB less is a hundredth, 2 mVpk.
    QTest::keyClick(&plot, Qt::Key_Home);
    EXPECT_NEAR(plot.cursorAt(), 0.002, 1e-9);
    EXPECT_EQ(plot.readout().lead, "\u221257.0 dBV");
    EXPECT_EQ(plot.curvesShown(), (QStringList{"stock", "now"}));
    LevelUnits::current().setUnit(LevelUnit::millivoltsPeak);
}

}  // namespace
}  // namespace ohmwright
