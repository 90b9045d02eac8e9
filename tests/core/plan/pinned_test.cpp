// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/pinned.h"

#include "core/plan/edits.h"
#include "core/plan/part_names.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Job done(const Result<Job>& edited) {
    EXPECT_TRUE(edited) << (edited ? "" : edited.error().message);
    return edited ? *edited : Job();
}

std::string refusal(const Result<Job>& edited) {
    EXPECT_FALSE(edited);
    return edited ? "" : edited.error().message;
}

TEST(Pinned, AStateIsPlanAndSettingAndIsNamedByItsMods) {
    const Job job = test::harbourLamp();
    const Job pinned = done(pinState(job));
    ASSERT_EQ(pinned.pinned.size(), 1U);
    EXPECT_EQ(pinned.pinned[0].letter, "W") << "no letter of a mod";
    EXPECT_EQ(pinned.pinned[0].name, "mod A");
    EXPECT_EQ(pinned.pinned[0].plan, job.plan);
    EXPECT_EQ(pinned.pinned[0].setting, job.setting);
    EXPECT_EQ(stateHash(pinned), stateHash(job)) << "papers stay valid";
    const Job both = done(pinState(done(setModOn(pinned, job.plan[1].id, true))));
    EXPECT_EQ(both.pinned[1].name, "mods A and B");
    EXPECT_EQ(done(pinState(done(setModOn(pinned, job.plan[0].id, false)))).pinned[1].name, "as built");
}

TEST(Pinned, TheSameStateIsNotPinnedTwiceAndAFifthIsRefused) {
    Job job = done(pinState(test::harbourLamp()));
    EXPECT_EQ(refusal(pinState(job)), "This state is pinned already, as W.");
    for (const double position : {1.0, 2.0, 3.0}) {
        job = done(pinState(done(setKnob(job, job.stock.knobs.front().id, position))));
    }
    EXPECT_EQ(job.pinned.back().letter, "Z");
    const Result<Job> fifth = pinState(done(setKnob(job, job.stock.knobs.front().id, 9.0)));
    EXPECT_EQ(refusal(fifth), "Four states are pinned already: take one of them away first.");
    const Job without = done(unpinState(job, "X"));
    const Job again = done(pinState(done(setKnob(without, job.stock.knobs.front().id, 9.0))));
    EXPECT_EQ(again.pinned[1].letter, "X") << "a letter that is free is given again, in its place";
}

TEST(Pinned, AStateIsMadeThePlanAgain) {
    const Job before = test::harbourLamp();
    Job job = done(pinState(before));
    job = done(setPartValue(job, "c4", 150e-9));
    job = done(setKnob(job, job.stock.knobs.front().id, 9.0));
    const Job back = done(promotePinned(job, "W"));
    EXPECT_EQ(back.plan, before.plan);
    EXPECT_EQ(back.setting, before.setting);
    EXPECT_EQ(back.pinned.size(), 1U);
    EXPECT_EQ(refusal(promotePinned(job, "Y")), "No state is pinned under Y: pin one first.");
    job.visit.state = VisitState::gone;
    EXPECT_NE(refusal(promotePinned(job, "W")).find("is gone and its record closed"), std::string::npos);
}

TEST(Pinned, WhatStockNoLongerHasIsNotMadeThePlan) {
    Job job = done(pinState(test::harbourLamp()));
    job.plan.clear();
    std::erase_if(job.stock.parts, [](const Part& part) { return part.id == "c4"; });
    EXPECT_NE(refusal(promotePinned(job, "W")).find("c4"), std::string::npos);
}

TEST(Pinned, AStateHasANameOfItsOwn) {
    const Job job = done(pinState(test::harbourLamp()));
    EXPECT_EQ(done(renamePinned(job, "W", "more low end")).pinned[0].name, "more low end");
    EXPECT_NE(refusal(renamePinned(job, "W", "  ")).find("needs a name"), std::string::npos);
    EXPECT_TRUE(done(unpinState(job, "W")).pinned.empty());
}

// A part that only a pinned plan fits must not lend its id to another one.
TEST(Pinned, WhatAPinnedPlanNamesIsRemembered) {
    Job job = done(pinState(test::harbourLamp()));
    const std::string mod = job.plan[1].id;
    job.plan.clear();
    EXPECT_TRUE(isRemembered(job, mod));
    job.pinned.clear();
    EXPECT_FALSE(isRemembered(job, mod));
}

}  // namespace
}  // namespace ohmwright
