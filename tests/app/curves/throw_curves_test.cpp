// The other throws of fitted switches.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/throw_curves.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

SwitchAnswer answer(const char* modId, const char* chosen, const std::vector<std::string>& names) {
    SwitchAnswer one;
    one.modId = modId;
    one.chosen = chosen;
    for (const std::string& name : names) {
        ThrowReading reading;
        reading.name = name;
        one.table.throws.push_back(reading);
        ResponseCurve curve;
        curve.hz = {100.0, 1000.0};
        curve.gainDb = {double(one.responses.size()), 0.0};
        one.responses.push_back(curve);
    }
    return one;
}

Mod fitted(const char* id, const char* letter) {
    Mod mod;
    mod.id = id;
    mod.letter = letter;
    return mod;
}

TEST(ThrowCurves, AllButTheOneThatStands) {
    const Plan plan{fitted("mod-d", "D")};
    const std::vector<SwitchAnswer> switches{answer("mod-d", "open", {"silicon", "open", "LED"})};
    const auto curves = otherThrows(switches, plan);
    ASSERT_EQ(curves.size(), 2U);
    EXPECT_EQ(curves[0].name, "silicon");
    EXPECT_EQ(curves[1].name, "LED");
    EXPECT_EQ(curves[1].response.gainDb.front(), 2.0);
    EXPECT_EQ(standingThrows(switches, plan), "open");
}

TEST(ThrowCurves, OfTwoSwitchesEachSaysItsLetter) {
    const Plan plan{fitted("m1", "A"), fitted("m2", "B")};
    const std::vector<SwitchAnswer> switches{answer("m1", "up", {"up", "down"}), answer("m2", "x", {"x", "y"})};
    const auto curves = otherThrows(switches, plan);
    ASSERT_EQ(curves.size(), 2U);
    EXPECT_EQ(curves[0].name, "A down");
    EXPECT_EQ(curves[1].name, "B y");
    EXPECT_EQ(standingThrows(switches, plan), "A up, B x");
}

TEST(ThrowCurves, NoSwitchNoCurve) {
    EXPECT_TRUE(otherThrows({}, {}).empty());
    EXPECT_EQ(standingThrows({}, {}), "");
}

}  // namespace
}  // namespace ohmwright
