// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/pad_heat.h"

#include "core/bench/visits.h"
#include "core/plan/edits.h"
#include "tests/core/board/demo_job.h"

namespace ohmwright {
namespace {

using test::demoJob;
using test::legNamed;

/// Harbour Lamp with one mod alone: C4 to 120 nF.
Job oneSwap() {
    Job job = demoJob();
    job.plan.clear();
    return *setPartValue(job, findPartByReference(job.stock, "C4")->id, 120e-9);
}

TEST(PadHeat, PlannedWorkHeatsNothingYet) {
    const Job job = oneSwap();
    const auto heat = padHeat(job);
    ASSERT_TRUE(heat);
    ASSERT_EQ(heat->size(), 1u);
    EXPECT_EQ(heatedWords(job.stock, heat->back().heated), "none");
    EXPECT_EQ(heatedWords(job.stock, heat->back().planned), "C4 Cg: both");
}

TEST(PadHeat, SignedWorkOfTheHandsHeatsThePads) {
    Job job = oneSwap();
    const std::string letter = job.plan.front().letter;
    StepMark mark;
    mark.result = StepResult::passed;
    mark.step = letter + " reading: C4 Cg against U1 pin 2";
    job.visit.marks = {mark};
    EXPECT_TRUE(padHeat(job)->back().heated.empty());
    mark.step = letter + " take out: C4 Cg 56n, marked 563";
    job.visit.marks.push_back(mark);
    EXPECT_EQ(heatedWords(job.stock, padHeat(job)->back().heated), "C4 Cg: both");
    EXPECT_TRUE(padHeat(job)->back().planned.empty());
}

TEST(PadHeat, ALiftedLegIsOneLeg) {
    Job job = demoJob();
    job.plan.clear();
    const PartId part = findPartByReference(job.stock, "C4")->id;
    job = *addMod(job, Lift{part, 1});
    EXPECT_EQ(padHeat(job)->back().planned, (std::vector<Leg>{{part, 1}}));
    EXPECT_EQ(heatedWords(job.stock, padHeat(job)->back().planned), "C4 Cg: leg 2");
}

TEST(PadHeat, VisitsAreCountedByLeg) {
    Job job = oneSwap();
    job = *nextVisit(*depart(job, {}, "2026-11-24T18:00:00"), "2026-11-30", "again");
    EXPECT_EQ(padHeat(job)->size(), 2u);
    job = *setPartValue(job, findPartByReference(job.stock, "C4")->id, 56e-9);
    StepMark mark;
    mark.step = job.plan.front().letter + " fit: Fit C4 Cg 56n";
    mark.result = StepResult::passed;
    job.visit.marks = {mark};
    const auto times = timesHeated(*padHeat(job));
    EXPECT_EQ(times.at(legNamed(job.stock, "C4", 0)), 2);
    EXPECT_FALSE(times.contains(legNamed(job.stock, "R5", 0)));
}

// A visit that is gone stands in its record alone.
TEST(PadHeat, AVisitThatEndedIsNotCountedTwice) {
    const Job gone = *depart(oneSwap(), {}, "2026-11-24T18:00:00");
    const auto heat = padHeat(gone);
    ASSERT_EQ(heat->size(), 1u);
    EXPECT_FALSE(heat->front().isPresent);
    EXPECT_EQ(heatedWords(gone.stock, heat->front().heated), "C4 Cg: both");
}

}  // namespace
}  // namespace ohmwright
