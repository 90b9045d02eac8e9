// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/side_effect_limits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;

std::string messageOf(const std::string& members) {
    const auto limits = readSideEffectLimits("{\"format\": \"ohmwright-limits\", \"version\": 1,\n" + members + "}");
    return limits ? "no error" : limits.error().message;
}

TEST(SideEffectLimitsFile, TheHousesLimitsComeBackAllOfThem) {
    const std::string text = writeSideEffectLimits({});
    const auto back = readSideEffectLimits(text);
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(writeSideEffectLimits(*back), text);
    // One of each kind, from JOB's house figures.
    EXPECT_EQ(back->potMillivolts.value, 10.0);
    EXPECT_EQ(back->nextStageVolts.value, 1.2);
    EXPECT_EQ(back->closeShare, 0.2);
}

TEST(SideEffectLimitsFile, OneLimitOfTheShopLeavesTheOthers) {
    const auto limits = readSideEffectLimits(
        R"({"format": "ohmwright-limits", "version": 1, "limits": {"potMillivolts": {"value": 5, "source": "our own"}}})");
    ASSERT_TRUE(limits) << limits.error().message;
    EXPECT_EQ(limits->potMillivolts, (EffectLimit{5.0, "our own"}));
    EXPECT_EQ(limits->popVolts, SideEffectLimits().popVolts);
}

TEST(SideEffectLimitsFile, FaultsNameLineAndKey) {
    EXPECT_THAT(messageOf(R"("limits": {"potMilivolts": {"value": 5, "source": "x"}})"),
                AllOf(HasSubstr("line 2"), HasSubstr("limits/potMilivolts"), HasSubstr("mistyped")));
    EXPECT_THAT(messageOf(R"("limits": {"popVolts": {"value": -5, "source": "x"}})"),
                AllOf(HasSubstr("line 2"), HasSubstr("limits/popVolts/value")));
    EXPECT_THAT(messageOf(R"("limits": {"popVolts": {"value": 5}})"), HasSubstr("source"));
    EXPECT_THAT(messageOf(R"("closeShare": 1)"), HasSubstr("closeShare"));
}

}  // namespace
}  // namespace ohmwright
