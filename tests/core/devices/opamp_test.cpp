// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/opamp.h"

#include <gtest/gtest.h>

#include <numbers>

namespace ohmwright {
namespace {

TEST(Opamp, SlewRateAndGainBandwidthAreThoseOfTheParameters) {
    const OpampLaw law({"", PartKind::opamp, {{"GBW", 3e6}, {"ILIM", 1.3}, {"CP", 100e-9}, {"GAIN", 2e5}}, ""}, 300.15);
    // Saturated, the pair charges CP with ILIM: 1.3 A / 100 nF = 13 V/us, the usual sheet figure of a TL072.
    EXPECT_NEAR(law.transfer(10.0).value / law.innerFarads(), 13e6, 1.0);
    EXPECT_NEAR(law.transfer(-10.0).value / law.innerFarads(), -13e6, 1.0);
    const double transconductance = law.transfer(0.0).slope;
    EXPECT_NEAR(transconductance / (2.0 * std::numbers::pi * law.innerFarads()), 3e6, 1e-3);
    EXPECT_NEAR(transconductance / law.innerSiemens(), 2e5, 1e-6);
}

TEST(Opamp, TransferSlopeIsTheDerivative) {
    const OpampLaw law({"", PartKind::opamp, {}, ""}, 300.15);
    for (const double volts : {-1.0, -0.3, 0.0, 0.1, 0.8}) {
        const double step = 1e-6;
        const double difference = (law.transfer(volts + step).value - law.transfer(volts - step).value) / (2.0 * step);
        EXPECT_NEAR(law.transfer(volts).slope, difference, 1e-6);
    }
}

TEST(Opamp, AClampConductsOnlyForward) {
    const OpampLaw law({"", PartKind::opamp, {}, ""}, 300.15);
    EXPECT_LT(law.clamp(-1.0).value, 0.0);
    EXPECT_GT(law.clamp(-1.0).value, -2e-12);
    EXPECT_GT(law.clamp(0.7).value, 0.1);
}

}  // namespace
}  // namespace ohmwright
