// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/junction.h"

#include "core/devices/constants.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

TEST(Junction, ThermalVoltageIsThatOfTheConstants) {
    // CODATA 2018 (exact since SI 2019): kT/q at 27 °C and 300 K.
    EXPECT_NEAR(thermalVolts(300.15), 25.8649257863e-3, 1e-12);
    EXPECT_NEAR(thermalVolts(300.0), 25.852000e-3, 1e-9);
}

TEST(Junction, CurrentIsExponentialAndItsSlopeIsTheDerivative) {
    const double vt = thermalVolts(300.15);
    for (const double volts : {-5.0, -0.3, 0.0, 0.2, 0.6}) {
        const ValueAndSlope at = exponentialCurrent(1e-14, vt, volts);
        EXPECT_DOUBLE_EQ(at.value, 1e-14 * (std::exp(volts / vt) - 1.0));
        const double step = 1e-6;
        const double difference =
            (exponentialCurrent(1e-14, vt, volts + step).value - exponentialCurrent(1e-14, vt, volts - step).value) /
            (2.0 * step);
        EXPECT_NEAR(at.slope, difference, 1e-6 * std::abs(difference) + 1e-20);
    }
}

TEST(Junction, AWildStepStaysFinite) {
    const ValueAndSlope at = exponentialCurrent(2.52e-9, 45.3e-3, 1000.0);
    EXPECT_TRUE(std::isfinite(at.value));
    EXPECT_GT(at.slope, 0.0);
}

TEST(Junction, DepletionChargeIsContinuousWhereTheLawBends) {
    const DepletionLaw law{.zeroBiasFarads = 4e-12, .builtInVolts = 0.75, .grading = 0.4, .forwardShare = 0.5};
    const double bend = 0.375;
    EXPECT_NEAR(law.at(bend - 1e-9).value, law.at(bend + 1e-9).value, 1e-19);
    EXPECT_NEAR(law.at(bend - 1e-9).slope, law.at(bend + 1e-9).slope, 1e-19);
    EXPECT_DOUBLE_EQ(law.at(0.0).slope, 4e-12);
    EXPECT_DOUBLE_EQ(law.at(0.0).value, 0.0);
    for (const double volts : {-8.0, 0.2, 0.7}) {
        const double step = 1e-6;
        EXPECT_NEAR(law.at(volts).slope, (law.at(volts + step).value - law.at(volts - step).value) / (2.0 * step),
                    1e-7 * law.at(volts).slope);
    }
}

TEST(Junction, LimitingHoldsAJumpBackAndLetsSmallStepsThrough) {
    const double vt = thermalVolts(300.15);
    const double critical = criticalVolts(1e-14, vt);
    EXPECT_NEAR(critical, 0.73, 0.01);  // Vt ln(Vt/(sqrt 2 IS)), by hand
    EXPECT_DOUBLE_EQ(limitedJunctionVolts(0.5, 0.1, vt, critical), 0.5);
    EXPECT_DOUBLE_EQ(limitedJunctionVolts(0.80, 0.78, vt, critical), 0.80);
    const double held = limitedJunctionVolts(5.0, 0.7, vt, critical);
    EXPECT_GT(held, 0.7);
    EXPECT_LT(held, 0.95);
}

TEST(Junction, SaturationCurrentGrowsWithHeatAsPublished) {
    // Ratio of IS at 37 °C to 27 °C: silicon 4.402 (EG 1.11, XTI 3), germanium 2.543 (EG 0.67); computed independently
    // from the Berkeley temperature law.
    EXPECT_NEAR(saturationAtTemperature(1.0, 310.15, 1.11, 3.0, 1.0), 4.402, 0.002);
    EXPECT_NEAR(saturationAtTemperature(1.0, 310.15, 0.67, 3.0, 1.0), 2.543, 0.002);
}

}  // namespace
}  // namespace ohmwright
