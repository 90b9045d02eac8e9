// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/mod_checks.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

const Mod& modOf(const Job& job, const char* letter) {
    return *std::find_if(job.plan.begin(), job.plan.end(), [letter](const Mod& mod) { return mod.letter == letter; });
}

const Check* firstOf(const std::vector<Check>& checks, CheckKind kind) {
    const auto found =
        std::find_if(checks.begin(), checks.end(), [kind](const Check& check) { return check.kind == kind; });
    return found == checks.end() ? nullptr : &*found;
}

// JOB 3.11: Cg must beep from the inverting pin, must not from leg to leg.
TEST(ModChecks, OfAGainCapacitorAreABeepAndASilence) {
    const Job job = test::harbourLamp();
    const auto checks = checksOfMod(job, modOf(job, "A").id);
    ASSERT_TRUE(checks) << checks.error().message;
    ASSERT_NE(firstOf(*checks, CheckKind::beep), nullptr);
    EXPECT_NE(firstOf(*checks, CheckKind::beep)->words().find("U1 pin 2"), std::string::npos);
    ASSERT_NE(firstOf(*checks, CheckKind::silence), nullptr);
}

// JOB 3.11: top of Rg to ground reads 2.70k.
TEST(ModChecks, OfTheGainResistorThatIsOffAreThoseOfItAlone) {
    const Job job = test::harbourLamp();
    ASSERT_FALSE(modOf(job, "C").on);
    const auto checks = checksOfMod(job, modOf(job, "C").id);
    ASSERT_TRUE(checks) << checks.error().message;
    const Check* ohms = firstOf(*checks, CheckKind::ohms);
    ASSERT_NE(ohms, nullptr);
    EXPECT_NEAR(ohms->expected.nominal.value_or(0.0), 2700.0, 27.0) << ohms->words();
}

TEST(ModChecks, AModThatIsNotPlannedIsNamed) {
    const auto checks = checksOfMod(test::harbourLamp(), "z9");
    ASSERT_FALSE(checks);
    EXPECT_EQ(checks.error().code, ErrorCode::invalidInput);
}

}  // namespace
}  // namespace ohmwright
