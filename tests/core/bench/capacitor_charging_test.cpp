// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/capacitor_charging.h"

#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

// 47 uF from 300 V to 30 V: through 10 k in 1.1 s, through the bleeder of 220 k in 24 s (R C ln 10).
TEST(CapacitorCharging, ASupplyCapacitorNeedsSecondsThroughTheToolAndHalfAMinuteThroughItsBleeder) {
    EXPECT_NEAR(dischargeSeconds(47e-6, 10e3, 300.0, 30.0), 1.082, 0.001);
    EXPECT_NEAR(dischargeSeconds(47e-6, 220e3, 300.0, 30.0), 23.81, 0.01);
}

TEST(CapacitorCharging, OneCapacitorFollowsTheExponential) {
    test::SmallCircuit small(9.0);
    const Circuit circuit = small.r("R1", "in", "out", 10e3).c("C1", "out", "0", 1e-6).circuit();
    int seen = 0;
    const auto followed = followCharging(circuit, {}, {}, {}, [&](double seconds, const auto& volts) {
        // The first steps, microseconds long, are within 1 % of what is there.
        const double exact = 9.0 * (1.0 - std::exp(-seconds / 10e-3));
        EXPECT_NEAR(volts.at("out"), exact, 0.004 * 9.0) << seconds;
        ++seen;
        return seconds < 0.2;
    });
    ASSERT_TRUE(followed) << followed.error().message;
    EXPECT_GT(seen, 50);
}

TEST(CapacitorCharging, ACapacitorStartsAtItsVoltageAndGivesItAway) {
    test::SmallCircuit small;
    const Circuit circuit =
        small.r("R1", "in", "0", 1e3).r("R2", "out", "0", 10e3).c("C1", "out", "0", 47e-6).circuit();
    double reached = 0.0;
    const auto followed =
        followCharging(circuit, {}, {{"C1", 300.0}}, {1e-3, 100.0, 1.02}, [&](double seconds, const auto& volts) {
            reached = seconds;
            return volts.at("out") > 30.0;
        });
    ASSERT_TRUE(followed) << followed.error().message;
    EXPECT_NEAR(reached, 1.082, 0.03);
}

}  // namespace
}  // namespace ohmwright
