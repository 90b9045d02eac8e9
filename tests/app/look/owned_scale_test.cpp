// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/owned_scale.h"

#include "app/look/theme.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

TEST(OwnedScale, AmberRaisesBlueLowersAQuarterOfADecibelAStep) {
    const ThemeColours& colours = Theme::current().colours();
    EXPECT_EQ(plateColour(0.76), colours.raise[3]);
    EXPECT_EQ(plateColour(5.0), colours.raise[3]);
    EXPECT_EQ(plateColour(0.30), colours.raise[1]);
    EXPECT_EQ(plateColour(-0.03), colours.lower[0]);
}

TEST(OwnedScale, TheFigureHasItsSignAndTheQuestionItsFrequency) {
    EXPECT_EQ(ownedFigure(0.763), "+0.76");
    EXPECT_EQ(ownedFigure(-0.03), QString::fromUtf8("\u22120.03"));
    EXPECT_EQ(ownersQuestion(110.0, false), "Who owns 110 Hz?");
    EXPECT_EQ(ownersQuestion(1050.0, true), "Who owns 1.05 kHz in stock?");
}

}  // namespace
}  // namespace ohmwright::test
