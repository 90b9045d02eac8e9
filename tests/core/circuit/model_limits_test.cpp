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

TEST(ModelLimits, EveryKindHasItsBounds) {
    EXPECT_EQ(faultOfParameter(PartKind::jfet, "BETA", 0.0), "must be above 0");
    EXPECT_EQ(faultOfParameter(PartKind::jfet, "VTO", -3.0), "");
    EXPECT_EQ(faultOfParameter(PartKind::mosfet, "PHI", 0.0), "must be above 0");
    EXPECT_EQ(faultOfParameter(PartKind::mosfet, "TOX", -1e-9), "must not be negative");
    EXPECT_EQ(faultOfParameter(PartKind::mosfet, "IS", 0.0), "");
    EXPECT_EQ(faultOfParameter(PartKind::triode, "KVB", 0.0), "must be above 0");
    EXPECT_EQ(faultOfParameter(PartKind::triode, "EX", 0.9), "must be 1 or more");
    EXPECT_EQ(faultOfParameter(PartKind::pentode, "KG2", 0.0), "must be above 0");
    EXPECT_EQ(faultOfParameter(PartKind::opamp, "SR", 0.0), "must be above 0");
    EXPECT_EQ(faultOfParameter(PartKind::opamp, "IB", -80e-9), "");
    EXPECT_EQ(faultOfParameter(PartKind::bipolar, "XCJC", 1.0), "");
    EXPECT_EQ(faultOfParameter(PartKind::bipolar, "XCJC", 1.1), "must be from 0 to 1");
    for (const PartKind kind : {PartKind::diode, PartKind::bipolar, PartKind::jfet, PartKind::mosfet}) {
        EXPECT_EQ(faultOfParameter(kind, "TNOM", -273.15), "must be above -273.15");
        EXPECT_EQ(faultOfParameter(kind, "TNOM", 25.0), "");
    }
}

TEST(ModelLimits, WhatADeviceAddsHasBoundsToo) {
    EXPECT_EQ(faultOfDeviceParameter(PartKind::diode, "AREA", 0.0), "must be above 0");
    EXPECT_EQ(faultOfDeviceParameter(PartKind::mosfet, "L", -1e-6), "must be above 0");
    EXPECT_EQ(faultOfDeviceParameter(PartKind::mosfet, "AD", 0.0), "");
    EXPECT_EQ(faultOfDeviceParameter(PartKind::mosfet, "W", std::numeric_limits<double>::quiet_NaN()), "is no number");
    EXPECT_TRUE(isDeviceParameter(PartKind::mosfet, "W"));
    EXPECT_TRUE(isDeviceParameter(PartKind::bipolar, "M"));
    EXPECT_FALSE(isDeviceParameter(PartKind::bipolar, "W"));
}

TEST(ModelLimits, OtherNamesOfTheSameFigureAreOne) {
    EXPECT_EQ(lawName(PartKind::mosfet, "VT0"), "VTO");
    EXPECT_EQ(lawName(PartKind::diode, "CJ0"), "CJO");
    EXPECT_EQ(lawName(PartKind::bipolar, "VA"), "VAF");
    EXPECT_EQ(lawName(PartKind::diode, "VA"), "VA");
    EXPECT_EQ(faultOfParameter(PartKind::bipolar, "VA", -1.0), "must not be negative");
}

TEST(ModelLimits, UnknownAndIgnoredNamesAreTold) {
    const Model card{
        "Q", PartKind::bipolar, {{"BF", 100.0}, {"VA", 50.0}, {"PTF", 30.0}, {"ISS", 0.0}, {"MAKER", 1.0}}, ""};
    EXPECT_EQ(unknownParameters(card), std::vector<std::string>{"MAKER"});
    EXPECT_EQ(ignoredParameters(card), std::vector<std::string>{"PTF"});
    const Model mixed{"D", PartKind::diode, {{"IS", 1e-14}, {"BF", 100.0}, {"POLARITY", 1.0}, {"TNOM", 25.0}}, ""};
    EXPECT_EQ(unknownParameters(mixed), std::vector<std::string>{"BF"});
    EXPECT_TRUE(ignoredParameters(mixed).empty());
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
