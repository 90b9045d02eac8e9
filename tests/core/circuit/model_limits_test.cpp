// A type's data come from a file: an IS of 0 or an M of 1 once reached the laws, which then divided by zero.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/model_limits.h"

#include "core/circuit/check.h"
#include "tests/core/circuit/circuits.h"

#include <gtest/gtest.h>

#include <limits>

namespace ohmwright {
namespace {

TEST(ModelLimits, WhatTheLawsDivideByOrTakeTheLogarithmOfIsAboveZero) {
    for (const char* name : {"IS", "N", "VJ"}) {
        EXPECT_EQ(faultOfParameter(PartKind::diode, name, 0.0), "must be above 0") << name;
        EXPECT_EQ(faultOfParameter(PartKind::diode, name, -1.0), "must be above 0") << name;
        EXPECT_EQ(faultOfParameter(PartKind::diode, name, 1e-16), "") << name;
    }
    for (const char* name : {"GAIN", "GBW", "ILIM", "CP", "ROUT", "CLAMP_IS", "CLAMP_N"}) {
        EXPECT_EQ(faultOfParameter(PartKind::opamp, name, 0.0), "must be above 0") << name;
    }
}

TEST(ModelLimits, ZeroStandsForNoneWhereTheBerkeleyCardsHaveItSo) {
    for (const char* name : {"VAF", "IKF", "ISE", "RB", "CJE", "TF"}) {
        EXPECT_EQ(faultOfParameter(PartKind::bipolar, name, 0.0), "") << name;
        EXPECT_EQ(faultOfParameter(PartKind::bipolar, name, -1e-15), "must not be negative") << name;
    }
}

TEST(ModelLimits, AGradingStaysUnderOne) {
    EXPECT_EQ(faultOfParameter(PartKind::diode, "M", 0.999), "");
    EXPECT_EQ(faultOfParameter(PartKind::diode, "M", 1.0), "must be from 0 to under 1");
    EXPECT_EQ(faultOfParameter(PartKind::bipolar, "FC", 1.0), "must be from 0 to under 1");
    EXPECT_EQ(faultOfParameter(PartKind::bipolar, "MJC", -0.1), "must be from 0 to under 1");
}

TEST(ModelLimits, AnUnknownNameMayBeAnythingFinite) {
    EXPECT_EQ(faultOfParameter(PartKind::diode, "EG", -1.0), "");
    EXPECT_EQ(faultOfParameter(PartKind::diode, "OWN", -1e30), "");
    EXPECT_EQ(faultOfParameter(PartKind::diode, "OWN", std::numeric_limits<double>::infinity()), "is no number");
}

TEST(ModelLimits, TheCircuitIsRefusedWithThePartTheTypeAndTheParameter) {
    Circuit circuit = clipStage();
    circuit.models[1].parameters["IS"] = -1.0;
    const auto solvable = requireSolvable(circuit);
    ASSERT_FALSE(solvable);
    EXPECT_EQ(solvable.error().message, "D1: IS of type 1N4148 must be above 0: correct the type's data.");
}

}  // namespace
}  // namespace ohmwright
