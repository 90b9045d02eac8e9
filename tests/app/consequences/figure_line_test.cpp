// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/figure_line.h"

#include "app/look/theme.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(FigureLine, StockStandsBeforeNowUnlessTheyAreTheSame) {
    FigureLine line;
    line.setRuns(stockToNow("82 Hz: ", "−10.5", "−4.71", " dB"));
    EXPECT_EQ(line.words(), "82 Hz: −10.5 → −4.71 dB");
    EXPECT_EQ(line.accessibleName(), line.words());
    EXPECT_TRUE(line.text().contains(Theme::current().colours().now.name() + ";font-weight:bold\">−4.71"));
    line.setRuns(stockToNow("", "40.8 kHz", "40.8 kHz", ""));
    EXPECT_EQ(line.words(), "40.8 kHz");
    line.setRuns(stockToNow("", "", "4.43 V", ""));
    EXPECT_EQ(line.words(), "4.43 V");
}

TEST(FigureLine, WordsFromOutsideAreNoMarkup) {
    FigureLine line;
    line.setRuns({{"<b>loud</b>", FigureRun::Kind::plain}});
    EXPECT_EQ(line.words(), "<b>loud</b>");
    EXPECT_TRUE(line.text().contains("&lt;b&gt;"));
}

}  // namespace
}  // namespace ohmwright
