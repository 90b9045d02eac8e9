// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_plot.h"

#include "tests/app/curves/sample_answers.h"

#include <gtest/gtest.h>

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

TEST(ClipPlot, NamesATransistorsPinByItsWordAndAPassiveNodeByItsNet) {
    Circuit circuit = test::sampleJob()->stock;
    circuit.ports.clipNode = "lp";
    EXPECT_EQ(clipNodeWords(circuit).toStdString(), "net lp");
    Part transistor;
    transistor.reference = "Q1";
    transistor.kind = PartKind::bipolar;
    transistor.nets = {"lp", "b1", "0"};
    circuit.parts.push_back(transistor);
    EXPECT_EQ(clipNodeWords(circuit).toStdString(), "Q1 collector");
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

TEST(ClipPlot, PeaksAtThePlayerComeFromTheFigures) {
    LargeSignalState state = test::sampleLargeSignal(5.6);
    state.figures = {{"peak_positive", 0.437, ""}, {"peak_negative", std::nullopt, "no signal"}};
    EXPECT_EQ(playerPeaks(state).positive, 0.437);
    EXPECT_FALSE(playerPeaks(state).negative.has_value());
}

}  // namespace
}  // namespace ohmwright
