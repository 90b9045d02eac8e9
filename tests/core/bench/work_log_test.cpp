// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/work_log.h"

#include "tests/support/planned_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using testing::HasSubstr;

std::vector<BenchStep> stepsOf(const Job& job) {
    auto work = orderOfWork(job);
    if (!work) {
        ADD_FAILURE() << work.error().message;
        return {};
    }
    return work->steps;
}

/// The job with the steps from `first` up to `last` signed alike.
Job signedFromTo(Job job, const std::vector<BenchStep>& steps, std::size_t first, std::size_t last,
                 StepResult result = StepResult::passed) {
    const std::vector<std::string> keys = stepKeys(steps);
    for (std::size_t k = first; k < last; ++k) {
        StepMark mark;
        mark.step = keys[k];
        mark.result = result;
        auto edited = markStep(job, steps[k], mark);
        EXPECT_TRUE(edited) << edited.error().message;
        job = *std::move(edited);
    }
    return job;
}

std::size_t firstOf(const std::vector<BenchStep>& steps, StepKind kind) {
    for (std::size_t k = 0; k < steps.size(); ++k) {
        if (steps[k].kind == kind) {
            return k;
        }
    }
    ADD_FAILURE() << "no step " << stepWords(kind);
    return 0;
}

TEST(WorkLog, EveryStepHasAKeyOfItsOwnThatStaysWhenSolvedAgain) {
    const Job job = harbourLampWith("ABCD");
    const std::vector<std::string> keys = stepKeys(stepsOf(job));
    EXPECT_EQ(std::set<std::string>(keys.begin(), keys.end()).size(), keys.size());
    EXPECT_EQ(stepKeys(stepsOf(job)), keys);
    // Two groups of work have two discharges.
    EXPECT_THAT(keys, testing::Contains("discharge: Power off and discharge, then measure"));
    EXPECT_THAT(keys, testing::Contains("discharge: Power off and discharge, then measure (2)"));
    EXPECT_THAT(keys, testing::Contains("A fit: Fit C4 Cg 120n, printed 124, no polarity"));
}

TEST(WorkLog, NothingOpensBeforeTheDischargeIsDone) {
    const Job job = harbourLampWith("A");
    const std::vector<BenchStep> steps = stepsOf(job);
    ASSERT_EQ(steps[1].kind, StepKind::discharge);
    const WorkLog empty(steps, job.visit);
    EXPECT_EQ(empty.next(), 0u);
    EXPECT_EQ(closedBy(steps, empty, 1), std::nullopt);
    EXPECT_EQ(closedBy(steps, empty, 2), 1u);

    const Job after = signedFromTo(job, steps, 0, 2);
    const WorkLog log(steps, after.visit);
    EXPECT_EQ(log.next(), 2u);
    EXPECT_EQ(closedBy(steps, log, 2), std::nullopt);
    // In any order from here; but not over the stop.
    EXPECT_EQ(closedBy(steps, log, 4), std::nullopt);
    const std::size_t power = firstOf(steps, StepKind::powerUp);
    EXPECT_EQ(closedBy(steps, log, power), firstOf(steps, StepKind::stop));
}

TEST(WorkLog, PowerWaitsForEveryStepOfItsGroup) {
    const Job job = harbourLampWith("A");
    const std::vector<BenchStep> steps = stepsOf(job);
    const std::size_t stop = firstOf(steps, StepKind::stop);
    const Job almost = signedFromTo(job, steps, 0, stop - 1);
    EXPECT_EQ(closedBy(steps, WorkLog(steps, almost.visit), stop), stop - 1);
    const Job failed = signedFromTo(almost, steps, stop - 1, stop, StepResult::failed);
    EXPECT_EQ(closedBy(steps, WorkLog(steps, failed.visit), stop), stop - 1);
    // A failed step is the next one again.
    EXPECT_EQ(WorkLog(steps, failed.visit).next(), stop - 1);
    const Job skipped = signedFromTo(almost, steps, stop - 1, stop, StepResult::skipped);
    EXPECT_EQ(closedBy(steps, WorkLog(steps, skipped.visit), stop), std::nullopt);
    EXPECT_EQ(WorkLog(steps, skipped.visit).next(), stop);
}

TEST(WorkLog, WhatHoldsOthersBackCannotBeSkippedOnlyRefused) {
    const Job job = harbourLampWith("A");
    const std::vector<BenchStep> steps = stepsOf(job);
    StepMark mark;
    mark.step = stepKeys(steps)[1];
    mark.result = StepResult::skipped;
    const auto skipped = markStep(job, steps[1], mark);
    ASSERT_FALSE(skipped);
    EXPECT_THAT(skipped.error().message, HasSubstr("cannot be skipped: do it, or refuse the work"));
    mark.result = StepResult::refused;
    const auto refused = markStep(job, steps[1], mark);
    ASSERT_TRUE(refused);
    const WorkLog log(steps, refused->visit);
    EXPECT_EQ(log.refused(), 1u);
    EXPECT_EQ(log.next(), std::nullopt);
    EXPECT_EQ(closedBy(steps, log, 2), 1u);
}

TEST(WorkLog, AStepIsSignedOnce) {
    const Job job = harbourLampWith("A");
    const std::vector<BenchStep> steps = stepsOf(job);
    const Job once = signedFromTo(job, steps, 0, 2);
    const Job twice = signedFromTo(once, steps, 0, 1, StepResult::skipped);
    ASSERT_EQ(twice.visit.marks.size(), 2u);
    EXPECT_EQ(twice.visit.marks.back().step, stepKeys(steps)[0]);
    EXPECT_TRUE(WorkLog(steps, twice.visit).has(0, StepResult::skipped));
}

TEST(WorkLog, AVisitThatIsGoneTakesNoMark) {
    Job job = harbourLampWith("A");
    const std::vector<BenchStep> steps = stepsOf(job);
    job.visit.state = VisitState::gone;
    StepMark mark;
    mark.step = stepKeys(steps)[0];
    const auto marked = markStep(job, steps[0], mark);
    ASSERT_FALSE(marked);
    EXPECT_THAT(marked.error().message, HasSubstr("closed"));
}

// 47n of C4's work does not count for 150n.
TEST(WorkLog, MarksOfOtherWorkDoNotCountAndAreKept) {
    Job job = harbourLampWith("A");
    const std::vector<BenchStep> steps = stepsOf(job);
    job = signedFromTo(job, steps, 0, 4);
    job.plan.front().change = SwapValue{"c4", 150e-9};
    const std::vector<BenchStep> others = stepsOf(job);
    const WorkLog log(others, job.visit);
    EXPECT_TRUE(log.has(2, StepResult::passed));  // The old part is out all the same.
    EXPECT_TRUE(log.isOpen(3));
    EXPECT_EQ(job.visit.marks.size(), 4u);
}

TEST(WorkLog, AModIsPlannedRemovedFittedProven) {
    const Job job = harbourLampWith("AD");
    const std::vector<BenchStep> steps = stepsOf(job);
    const auto states = [&](const Job& at) {
        std::string words;
        for (const ModProgress& each : modProgress(steps, WorkLog(steps, at.visit))) {
            words += each.letter + " " + std::string(modStateWords(each.state)) + ", ";
        }
        return words;
    };
    EXPECT_EQ(states(job), "A planned, D planned, ");
    EXPECT_EQ(states(signedFromTo(job, steps, 0, 3)), "A removed, D planned, ");
    EXPECT_EQ(states(signedFromTo(job, steps, 0, 4)), "A fitted, D planned, ");
    // Proven only after its power-up and probes.
    std::size_t second = 2;
    while (steps[second].kind != StepKind::discharge) {
        ++second;
    }
    EXPECT_EQ(states(signedFromTo(job, steps, 0, second - 1)), "A fitted, D planned, ");
    EXPECT_EQ(states(signedFromTo(job, steps, 0, second)), "A proven, D planned, ");
    EXPECT_EQ(states(signedFromTo(job, steps, 0, steps.size())), "A proven, D proven, ");
}

}  // namespace
}  // namespace ohmwright
