// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/alone_rows.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

Figure known(const std::string& id, double value) {
    return {id, value, {}};
}

// Demo Harbour Lamp, stock and A: corner 728.7 to 340.1 Hz, 82 Hz −10.47 to −4.71 dB, thresholds ±0.242 to ±0.231 V.
LinearAnswer linearAnswer() {
    LinearAnswer answer;
    answer.stock.figures = {known("gain_leg_corner", 728.73), known("response_82", -10.47), known("response_1k", 5.75)};
    answer.selectedAlone.emplace();
    answer.selectedAlone->figures = {known("gain_leg_corner", 340.07), known("response_82", -4.71),
                                     known("response_1k", 7.10)};
    return answer;
}

LargeSignalAnswer largeAnswer(double positivePeak) {
    LargeSignalAnswer answer;
    answer.stock.figures = {known("clip_threshold_positive", 0.2421), known("clip_threshold_negative", -0.2421),
                            known("peak_positive", 0.3647), known("peak_negative", -0.3647)};
    answer.selectedAlone.emplace();
    answer.selectedAlone->figures = {known("clip_threshold_positive", 0.2311),
                                     known("clip_threshold_negative", -0.2311), known("peak_positive", positivePeak),
                                     known("peak_negative", -0.4367)};
    return answer;
}

TEST(AloneRows, LinearFiguresHaveTheirUnitsAndChanges) {
    const LinearAnswer linear = linearAnswer();
    const auto rows = aloneRows(&linear, nullptr);
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_EQ(rows[0].label, "corner");
    EXPECT_EQ(rows[0].stock, "729");
    EXPECT_EQ(rows[0].now, "340");
    EXPECT_EQ(rows[0].unit, "Hz");
    EXPECT_EQ(rows[0].change, "") << "a corner has no change in dB";
    EXPECT_EQ(rows[1].stock, "−10.5");
    EXPECT_EQ(rows[1].now, "−4.71");
    EXPECT_EQ(rows[1].change, "+5.76");
    EXPECT_EQ(rows[2].change, "+1.35");
}

TEST(AloneRows, EvenHalfWavesShareARow) {
    const LargeSignalAnswer large = largeAnswer(0.4367);
    const auto rows = aloneRows(nullptr, &large);
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0].stock, "±0.24");
    EXPECT_EQ(rows[0].now, "±0.23");
    EXPECT_EQ(rows[1].now, "±0.44");
    EXPECT_EQ(rows[1].unit, "V");
}

TEST(AloneRows, HalfWavesThatDifferGetARowEach) {
    const LargeSignalAnswer large = largeAnswer(0.7190);
    const auto rows = aloneRows(nullptr, &large);
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_EQ(rows[1].label, "peak +");
    EXPECT_EQ(rows[1].now, "0.72");
    EXPECT_EQ(rows[2].label, "peak −");
    EXPECT_EQ(rows[2].now, "−0.44");
}

TEST(AloneRows, AFigureThatIsNotReachedIsAWord) {
    LargeSignalAnswer large = largeAnswer(0.4367);
    large.selectedAlone->figures[0] = {"clip_threshold_positive", std::nullopt, "none"};
    const auto rows = aloneRows(nullptr, &large);
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_EQ(rows[0].label, "threshold +");
    EXPECT_EQ(rows[0].now, "none");
}

TEST(AloneRows, WithoutAStateOfItsOwnThereIsNothingToCompare) {
    LinearAnswer linear = linearAnswer();
    linear.selectedAlone.reset();
    EXPECT_TRUE(aloneRows(&linear, nullptr).empty());
    EXPECT_TRUE(aloneRows(nullptr, nullptr).empty());
}

TEST(AloneRows, AnUnknownOfBothIsLeftOut) {
    LinearAnswer linear = linearAnswer();
    linear.stock.figures[0] = linear.selectedAlone->figures[0] = {"gain_leg_corner", std::nullopt, "no gain leg"};
    const auto rows = aloneRows(&linear, nullptr);
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0].label, "at 82 Hz");
}

// Demo Harbour Lamp: its changes and sampled spreads (JOB.md, W4 and the spread of stock).
TEST(AloneAgainstSpread, SaysBothNumbersAndWhichIsBigger) {
    LinearAnswer linear = linearAnswer();
    linear.stock.cursorHz = 110.0;
    linear.stock.responseDbAtCursor = -8.11;
    linear.selectedAlone->responseDbAtCursor = -2.22;
    EXPECT_EQ(aloneAgainstSpread(linear), "") << "no spread, nothing to say";
    linear.stockBandAtCursorDb = 1.19;
    EXPECT_EQ(aloneAgainstSpread(linear), "bigger than the spread: +5.89 dB at 110 Hz against ±1.19 dB");
    linear.stock.cursorHz = 1000.0;
    linear.selectedAlone->responseDbAtCursor = -7.70;
    linear.stockBandAtCursorDb = 1.06;
    EXPECT_EQ(aloneAgainstSpread(linear), "within spread: +0.41 dB at 1.00 kHz against ±1.06 dB");
    linear.selectedAlone->responseDbAtCursor = -8.52;
    EXPECT_EQ(aloneAgainstSpread(linear), "within spread: −0.41 dB at 1.00 kHz against ±1.06 dB");
}

}  // namespace
}  // namespace ohmwright::test
