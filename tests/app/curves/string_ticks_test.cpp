// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/string_ticks.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

TEST(StringTicks, AreEqualTemperamentFromFourHundredAndForty) {
    // Semitones from A4 of E2 A2 D3 G3 B3 E4 E6, standard tuning; A4 = 440 Hz by ISO 16.
    const std::array semitones{-29, -24, -19, -14, -10, -5, 19};
    for (std::size_t i = 0; i < stringTicks.size(); ++i) {
        EXPECT_NEAR(stringTicks[i].hz, 440.0 * std::exp2(semitones[i] / 12.0), stringTicks[i].hz * 1e-4)
            << stringTicks[i].name;
    }
}

TEST(StringTicks, ThePointerSnapsOnlyWhenNear) {
    EXPECT_EQ(snappedToString(112.0, 1.05), 110.0);
    EXPECT_EQ(snappedToString(125.0, 1.05), 125.0);
}

TEST(StringTicks, TwelveSemitonesAreAnOctave) {
    double hz = 110.0;
    for (int i = 0; i < 12; ++i) {
        hz = steppedBySemitones(hz, 1);
    }
    EXPECT_NEAR(hz, 220.0, 0.05);
}

TEST(StringTicks, SemitonesLandOnTheStrings) {
    double hz = 82.41;
    std::vector<double> landed;
    for (int i = 0; i < 24; ++i) {
        hz = steppedBySemitones(hz, 1);
        if (stringNear(hz, 1.0000001)) {
            landed.push_back(hz);
        }
    }
    EXPECT_EQ(landed, (std::vector<double>{110.0, 146.83, 196.0, 246.94, 329.63}));
}

TEST(StringTicks, SteppingStopsAtTheEndsOfTheAxis) {
    EXPECT_EQ(steppedBySemitones(20.0, -1), 20.0);
    EXPECT_EQ(steppedBySemitones(20000.0, 5), 20000.0);
}

TEST(StringTicks, TheCaptionNamesTheStringUnderTheCursor) {
    EXPECT_EQ(cursorCaption(110.0).toStdString(), "Cursor, open A");
    EXPECT_EQ(cursorCaption(82.4).toStdString(), "Cursor, open low E");
    EXPECT_EQ(cursorCaption(1319.0).toStdString(), "Cursor, 24th fret");
    EXPECT_EQ(cursorCaption(1000.0).toStdString(), "Cursor");
}

}  // namespace
}  // namespace ohmwright
