// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/job_differences.h"

#include "core/plan/edits.h"
#include "tests/support/demo_job.h"
#include "tests/support/random_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::harbourLamp;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

TEST(JobDifferences, EqualJobsHaveNone) {
    EXPECT_THAT(jobDifferences(harbourLamp(), harbourLamp()), IsEmpty());
}

TEST(JobDifferences, ValuesModsKnobsAndWordsAreNamed) {
    const Job before = harbourLamp();
    Job after = before;
    findPart(after.stock, "c4")->value = 47e-9;
    after.plan[0].on = !after.plan[0].on;
    const Knob& knob = after.stock.knobs.front();
    after.setting.knobs[knob.id] = 3.0;
    after.visit.agreed = "A alone";
    const std::string was = std::to_string(static_cast<int>(before.setting.knobs.at(knob.id)));
    EXPECT_THAT(jobDifferences(before, after),
                ElementsAre("C4 Cg: 56n → 47n",
                            nameOfMod(after.plan[0]) + (after.plan[0].on ? ": switched on" : ": switched off"),
                            knob.name + ": " + was + ".00 → 3.00", "the visit's words"));
}

TEST(JobDifferences, WhatIsInOneAloneIsAddedOrTakenOut) {
    const Job before = harbourLamp();
    Job after = before;
    std::erase_if(after.stock.parts, [](const Part& part) { return part.id == "c4"; });
    after.plan.pop_back();
    const std::string mod = nameOfMod(before.plan.back());
    EXPECT_THAT(jobDifferences(before, after), ElementsAre("C4 Cg: taken out", mod + ": taken out"));
    EXPECT_THAT(jobDifferences(after, before), ElementsAre("C4 Cg: added", mod + ": added"));
}

TEST(JobDifferences, AMovedPartIsTheDrawing) {
    const Job before = harbourLamp();
    Job after = before;
    ASSERT_TRUE(findPart(after.stock, "c4")->placement);
    findPart(after.stock, "c4")->placement->at.x += 2;
    EXPECT_THAT(jobDifferences(before, after), ElementsAre("the drawing"));
}

// Whatever differs, something is said; and only then.
TEST(JobDifferences, JobsOfChanceAreEqualExactlyWhenNothingIsSaid) {
    for (std::uint32_t seed = 0; seed < 60; ++seed) {
        test::Chance chance(seed);
        const Job one = test::randomJob(chance);
        const Job other = test::randomJob(chance);
        EXPECT_THAT(jobDifferences(one, one), IsEmpty()) << seed;
        if (one != other) {
            EXPECT_THAT(jobDifferences(one, other), Not(IsEmpty())) << seed;
        }
    }
}

TEST(JobDifferences, ALineHoldsTheFirstAndCountsTheRest) {
    EXPECT_EQ(differencesLine({"a", "b", "c", "d"}, 2), "a; b; and 2 more");
    EXPECT_EQ(differencesLine({"a", "b"}, 2), "a; b");
    EXPECT_EQ(differencesLine({}, 2), "");
}

}  // namespace
}  // namespace ohmwright
