// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/part_names.h"

#include "tests/support/demo_jobs.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Correction missing(const Part& part) {
    Correction correction;
    correction.part = part.id;
    PresenceFound drawn;
    drawn.part = part;
    correction.drawn = drawn;
    correction.found = PresenceFound{};
    return correction;
}

TEST(PartNames, WhatPlanCorrectionsAndDeparturesKnowIsRemembered) {
    Job job = test::demoJob("small-rooster");
    job.plan.clear();
    for (const char* id : {"plan-1", "target-1", "found-r9", "left-1", "left-plan"}) {
        EXPECT_FALSE(isRemembered(job, id)) << id;
    }
    job.plan = {Mod{"plan-1", "A", "Mod", SwapValue{"target-1", 1e3}, false}};
    Part part;
    part.id = "found-r9";
    job.corrections = {missing(part)};
    Departure left;
    left.stock.parts = {part};
    left.stock.parts[0].id = "left-1";
    left.plan = {Mod{"left-plan", "A", "Mod", SwapValue{"r1", 1e3}, true}};
    job.departures = {left};
    for (const char* id : {"plan-1", "target-1", "found-r9", "left-1", "left-plan"}) {
        EXPECT_TRUE(isRemembered(job, id)) << id;
    }
    EXPECT_EQ(freePartId(job, "left-1"), "left-1-2");
    EXPECT_EQ(freePartId(job, "q1"), "q1-2");  // Stock has it.
    EXPECT_EQ(freePartId(job, "q7"), "q7");
}

TEST(PartNames, TheReferenceOfAMissingPartWaitsForIt) {
    Job job = test::demoJob("small-rooster");
    job.plan.clear();
    // R1 to R5 are drawn.
    EXPECT_EQ(nextFreeReference(job, PartKind::resistor), "R6");
    Part part;
    part.id = "r8";
    part.reference = "R8";
    job.corrections = {missing(part)};
    EXPECT_TRUE(isReserved(job, "R8"));
    EXPECT_FALSE(isReserved(job, "R6"));
    EXPECT_EQ(nextFreeReference(job, PartKind::resistor), "R9");
    EXPECT_EQ(nextFreeReference(job, PartKind::capacitor), "C4");
}

}  // namespace
}  // namespace ohmwright
