// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/junction.h"

#include "core/devices/constants.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace ohmwright {
namespace {

TEST(Junction, ThermalVoltageIsThatOfTheConstants) {
    // CODATA 2018 (exact since SI 2019): kT/q at 27 °C and 300 K.
    EXPECT_NEAR(thermalVolts(300.15), 25.8649257863e-3, 1e-12);
    EXPECT_NEAR(thermalVolts(300.0), 25.852000e-3, 1e-9);
}

TEST(Junction, ForwardCurrentIsExponential) {
    const double vt = thermalVolts(300.15);
    for (const double volts : {-0.07, 0.0, 0.2, 0.6, 1.5}) {
        const ValueAndSlope at = exponentialCurrent(1e-14, vt, volts);
        EXPECT_NEAR(at.value, 1e-14 * std::expm1(volts / vt), 1e-12 * std::abs(at.value) + 1e-29);
        EXPECT_NEAR(at.slope, 1e-14 * std::exp(volts / vt) / vt, 1e-12 * at.slope);
    }
}

TEST(Junction, ReverseCurrentIsTheSaturationCurrentWithinATwentieth) {
    // The published cubic replaces an exponential that is 5 % of IS where it takes over and vanishes on.
    const double vt = thermalVolts(300.15);
    for (double volts = -0.078; volts > -60.0; volts *= 1.3) {
        EXPECT_NEAR(exponentialCurrent(1e-9, vt, volts).value, 1e-9 * std::expm1(volts / vt), 0.007e-9) << volts;
        EXPECT_GT(exponentialCurrent(1e-9, vt, volts).slope, 0.0);
    }
}

TEST(Junction, ValueAndSlopeMeetWhereTheBranchesMeet) {
    const double vt = 0.05;
    for (const double border : {-3.0 * vt, 80.0 * vt}) {
        const ValueAndSlope below = exponentialCurrent(1e-12, vt, border * (1.0 - 1e-12));
        const ValueAndSlope above = exponentialCurrent(1e-12, vt, border * (1.0 + 1e-12));
        EXPECT_NEAR(below.value, above.value, 1e-9 * std::abs(above.value));
        EXPECT_NEAR(below.slope, above.slope, 1e-9 * std::abs(above.slope));
    }
}

TEST(Junction, AWildStepStaysFinite) {
    const ValueAndSlope at = exponentialCurrent(2.52e-9, 45.3e-3, 1000.0);
    EXPECT_TRUE(std::isfinite(at.value));
    EXPECT_GT(at.slope, 0.0);
}

TEST(Junction, DepletionCapacitanceIsTheClosedForm) {
    // C = CJ (1 - v/VJ)^-M below FC VJ; above, CJ/(1 - FC)^(1 + M) (1 - FC (1 + M) + M v/VJ): Nagel 1975.
    for (const double grading : {0.33, 0.4, 0.5}) {
        const DepletionLaw law(4e-12, 0.75, grading, 0.5);
        EXPECT_DOUBLE_EQ(law.at(0.0).slope, 4e-12);
        EXPECT_DOUBLE_EQ(law.at(0.0).value, 0.0);
        for (const double volts : {-9.0, -0.4, 0.2, 0.37}) {
            EXPECT_NEAR(law.at(volts).slope, 4e-12 * std::pow(1.0 - volts / 0.75, -grading), 1e-24);
        }
        for (const double volts : {0.38, 0.7, 3.0}) {
            const double expected =
                4e-12 / std::pow(0.5, 1.0 + grading) * (1.0 - 0.5 * (1.0 + grading) + grading * volts / 0.75);
            EXPECT_NEAR(law.at(volts).slope, expected, 1e-23);
        }
    }
}

TEST(Junction, DepletionChargeIsTheIntegralOfTheCapacitance) {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> volts(-10.0, 1.5);
    for (int k = 0; k < 200; ++k) {
        const DepletionLaw law(7e-12, 0.6 + 0.001 * k, 0.2 + 0.002 * k, 0.5);
        const double from = volts(random);
        const double to = volts(random);
        // Simpson's rule in small steps.
        constexpr int steps = 2000;
        const double h = (to - from) / steps;
        double integral = law.at(from).slope + law.at(to).slope;
        for (int step = 1; step < steps; ++step) {
            integral += (step % 2 == 1 ? 4.0 : 2.0) * law.at(from + step * h).slope;
        }
        EXPECT_NEAR(law.at(to).value - law.at(from).value, integral * h / 3.0, 1e-6 * std::abs(integral * h) + 1e-18);
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
    EXPECT_NEAR(saturationAtTemperature(1.0, 310.15, 1.11, 3.0, 1.0, 300.15), 4.402, 0.002);
    EXPECT_NEAR(saturationAtTemperature(1.0, 310.15, 0.67, 3.0, 1.0, 300.15), 2.543, 0.002);
    // Heat from 27 to 37 °C undoes cold from 37 to 27 °C.
    EXPECT_NEAR(saturationAtTemperature(saturationAtTemperature(1.0, 310.15, 1.11, 3.0, 2.0, 300.15), 300.15, 1.11, 3.0,
                                        2.0, 310.15),
                1.0, 0.003);
}

TEST(Junction, SiliconsBandGapIsThePublishedOne) {
    // S. M. Sze, Physics of Semiconductor Devices: 1.115 eV at 300 K, 1.16 eV at 0 K with these constants.
    EXPECT_NEAR(siliconGap(300.15), 1.1150877, 1e-6);
    EXPECT_DOUBLE_EQ(siliconGap(0.0), 1.16);
}

TEST(Junction, BuiltInVoltageFallsAndCapacitanceGrowsWithHeat) {
    const BuiltIn cold{0.75, 4e-12};
    const BuiltIn hot = builtInAtTemperature(cold, 0.4, 350.15, 300.15);
    // VJ(T) = VJ T/Tn - 3 Vt ln(T/Tn) - Eg(Tn) T/Tn + Eg(T), k/q from CODATA 2018: written out anew.
    const double ratio = 350.15 / 300.15;
    const double gapHot = 1.16 - 7.02e-4 * 350.15 * 350.15 / (350.15 + 1108.0);
    const double expected = 0.75 * ratio - 3.0 * 8.617333262e-5 * 350.15 * std::log(ratio) - 1.1150877 * ratio + gapHot;
    EXPECT_NEAR(hot.volts, expected, 1e-6);
    EXPECT_NEAR(hot.farads, 4e-12 * (1.0 + 0.4 * (4e-4 * 50.0 - (expected - 0.75) / 0.75)), 1e-18);
    // And back again.
    const BuiltIn back = builtInAtTemperature(hot, 0.4, 300.15, 350.15);
    EXPECT_NEAR(back.volts, 0.75, 1e-12);
    EXPECT_NEAR(back.farads, 4e-12, 1e-24);
    // Far beyond any bench the law would turn negative: it stops.
    EXPECT_GT(builtInAtTemperature({0.1, 1e-12}, 0.4, 450.0, 300.15).volts, 0.0);
}

}  // namespace
}  // namespace ohmwright
