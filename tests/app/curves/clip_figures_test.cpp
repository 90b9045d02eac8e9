// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_figures.h"

#include "app/look/level_units.h"
#include "tests/app/curves/sample_answers.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

/// Thresholds and peaks as the demo Harbour Lamp has them (demo figures: own solver, checked against an
/// independent circuit simulator).
LargeSignalState demoState(ClipThreshold up, ClipThreshold down, double peakUp, double peakDown) {
    LargeSignalState state;
    state.clip.positive = up;
    state.clip.negative = down;
    state.figures = {{"peak_positive", peakUp, ""}, {"peak_negative", peakDown, ""}};
    return state;
}

LargeSignalAnswer demoAnswer(const LargeSignalState& now) {
    LargeSignalAnswer answer;
    answer.job = test::sampleJob();
    answer.stock = demoState({0.242, 0.0508}, {-0.242, 0.0507}, 0.365, -0.365);
    answer.now = now;
    return answer;
}

std::vector<std::string> written(const LargeSignalAnswer& answer, bool onlyStock = false) {
    std::vector<std::string> lines;
    for (const ClipRow& row : clipRows(answer, onlyStock)) {
        lines.push_back(row.text().toStdString());
    }
    return lines;
}

TEST(ClipFigures, EvenHalfWavesShareARow) {
    // Mod A: Cg 120n.
    const auto answer = demoAnswer(demoState({0.231, 0.0261}, {-0.231, 0.0261}, 0.437, -0.437));
    EXPECT_EQ(written(answer),
              (std::vector<std::string>{"clip threshold ±0.24 → ±0.23 V", "reached at 51 → 26 mVpk, both half-waves",
                                        "peak at player ±0.36 → ±0.44 V at 100 mVpk"}));
}

TEST(ClipFigures, HalfWavesThatDifferGetARowEach) {
    // Mods A and B: Cg 120n and a third diode in the positive arm.
    const auto answer = demoAnswer(demoState({0.529, 0.0590}, {-0.231, 0.0260}, 0.719, -0.437));
    EXPECT_EQ(written(answer), (std::vector<std::string>{
                                   "clip threshold + +0.24 → +0.53 V", "clip threshold − −0.24 → −0.23 V",
                                   "reached + 51 → 59, − 51 → 26 mVpk", "peak at player + +0.36 → +0.72 V at 100 mVpk",
                                   "peak at player − −0.36 → −0.44 V"}));
}

TEST(ClipFigures, AHalfWaveThatStaysIsReadOnce) {
    // Mod B alone.
    const auto answer = demoAnswer(demoState({0.553, 0.1146}, {-0.242, 0.0506}, 0.495, -0.365));
    const std::vector<std::string> lines = written(answer);
    EXPECT_EQ(lines[0], "clip threshold + +0.24 → +0.55 V");
    EXPECT_EQ(lines[1], "clip threshold − −0.24 V");
    EXPECT_EQ(lines[2], "reached + 51 → 115, − 51 mVpk");
    EXPECT_EQ(lines[4], "peak at player − −0.36 V");
}

TEST(ClipFigures, NothingChangedNothingIsRepeated) {
    const auto answer = demoAnswer(demoState({0.242, 0.0508}, {-0.242, 0.0507}, 0.365, -0.365));
    EXPECT_EQ(written(answer)[0], "clip threshold ±0.24 V");
}

TEST(ClipFigures, HeldStockLeavesNowAway) {
    const auto answer = demoAnswer(demoState({0.553, 0.1146}, {-0.242, 0.0506}, 0.495, -0.365));
    EXPECT_EQ(written(answer, true),
              (std::vector<std::string>{"clip threshold ±0.24 V", "reached at 51 mVpk, both half-waves",
                                        "peak at player ±0.36 V at 100 mVpk"}));
}

TEST(ClipFigures, AThresholdThatIsNotReachedSaysSo) {
    auto answer = demoAnswer(demoState({0.231, 0.0261}, {-0.231, 0.0261}, 0.437, -0.437));
    answer.now.clip.positive.reset();
    answer.now.clip.negative.reset();
    EXPECT_EQ(written(answer)[0], "clip threshold ±0.24 → not reached");
}

TEST(ClipFigures, WhatDidNotSettleIsNotCalledUnreached) {
    auto answer = demoAnswer(demoState({0.231, 0.0261}, {-0.231, 0.0261}, 0.437, -0.437));
    answer.now.clip.positive.reset();
    answer.now.clip.negative.reset();
    answer.now.clip.positiveSettled = answer.now.clip.negativeSettled = false;
    answer.now.figures.clear();
    answer.now.trouble = "The settled state at 100 mV peak was not found.";
    EXPECT_EQ(written(answer)[0], "clip threshold ±0.24 → not settled");
    EXPECT_EQ(written(answer)[2], "peak at player ±0.36 → not settled");
}

TEST(ClipFigures, PeaksThatWereNotSolvedAreNone) {
    auto answer = demoAnswer(demoState({0.231, 0.0261}, {-0.231, 0.0261}, 0.437, -0.437));
    answer.now.figures.clear();
    EXPECT_EQ(written(answer)[2], "peak at player ±0.36 → none");
}

// 50.8 mVpk are 35.9 mVrms and -28.9 dBV.
TEST(ClipFigures, LevelsStandInTheUnitThatWasChosen) {
    const auto answer = demoAnswer(demoState({0.242, 0.0508}, {-0.242, 0.0507}, 0.365, -0.365));
    LevelUnits::current().setUnit(LevelUnit::dbv);
    EXPECT_EQ(written(answer)[1], "reached at \u221228.9 dBV, both half-waves");
    EXPECT_EQ(written(answer)[2], "peak at player ±0.36 V at \u221223.0 dBV");
    LevelUnits::current().setUnit(LevelUnit::millivoltsRms);
    EXPECT_EQ(written(answer)[1], "reached at 36 mVrms, both half-waves");
    LevelUnits::current().setUnit(LevelUnit::millivoltsPeak);
}

}  // namespace
}  // namespace ohmwright
