// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/fet_gate.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(FetGate, SmallStepsPassAndLargeOnesAreHeld) {
    EXPECT_DOUBLE_EQ(limitedGateVolts(3.2, 3.0, 1.0), 3.2);
    EXPECT_DOUBLE_EQ(limitedGateVolts(100.0, 3.0, 1.0), 9.0);  // 3 + 2 (3 - 1) + 2
    EXPECT_DOUBLE_EQ(limitedGateVolts(-100.0, -1.0, 1.0), -7.0);
}

TEST(FetGate, ACrossingOfTheThresholdStopsJustBehindIt) {
    EXPECT_DOUBLE_EQ(limitedGateVolts(8.0, 0.0, 1.0), 1.5);
    EXPECT_DOUBLE_EQ(limitedGateVolts(-8.0, 5.0, 1.0), 0.5);
}

TEST(FetGate, AnyVoltageIsReachedInFewSteps) {
    for (const double goal : {-300.0, -2.0, 1.2, 40.0, 300.0}) {
        double volts = goal > 1.0 ? -20.0 : 20.0;
        int steps = 0;
        while (volts != goal && steps < 100) {
            volts = limitedGateVolts(goal, volts, 1.0);
            ++steps;
        }
        EXPECT_LT(steps, 10) << goal;
    }
}

}  // namespace
}  // namespace ohmwright
