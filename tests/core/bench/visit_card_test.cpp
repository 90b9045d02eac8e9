// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/visit_card.h"

#include "core/bench/order_of_work.h"
#include "core/bench/visits.h"
#include "core/bench/work_log.h"
#include "tests/support/demo_job_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

std::string refusal(const Result<Job>& job) {
    return job ? std::string() : job.error().message;
}

Job agreed(Job job) {
    job.visit.agreed = "A, and B heard beside it.";
    return job;
}

TEST(VisitCard, WordsAreWrittenAndTheRestStays) {
    const Job job = test::demoJob("small-rooster");
    const auto written = writeVisitWords(job, {{}, {}, "Scratched lid; strap and supply with it."});
    ASSERT_TRUE(written);
    EXPECT_EQ(written->visit.condition, "Scratched lid; strap and supply with it.");
    EXPECT_EQ(written->visit.complaint, job.visit.complaint);
    Job back = *written;
    back.visit.condition.clear();
    EXPECT_EQ(back, job);
}

TEST(VisitCard, APlaceHasOneReading) {
    const Job job = test::demoJob("small-rooster");
    const UnitReading collector{"Q1 collector", "c", 4.4, Unit::volt};
    const UnitReading supply{"supply current", {}, 0.9e-3, Unit::ampere};
    Job read = test::valueOrThrow(writeReading(job, collector));
    read = test::valueOrThrow(writeReading(read, supply));
    read = test::valueOrThrow(writeReading(read, {"Q1 collector", "c", 4.5, Unit::volt}));
    ASSERT_THAT(read.visit.readings, SizeIs(2));
    EXPECT_DOUBLE_EQ(read.visit.readings[0].value, 4.5);
    read = test::valueOrThrow(eraseReading(read, collector));
    ASSERT_THAT(read.visit.readings, SizeIs(1));
    EXPECT_EQ(read.visit.readings[0], supply);
    EXPECT_THAT(refusal(eraseReading(read, collector)), HasSubstr("Nothing was read at Q1 collector"));
}

TEST(VisitCard, EachStateAsksForItsOwn) {
    Job job = test::demoJob("small-rooster");
    job.visit.agreed.clear();
    job.visit.complaint.clear();
    EXPECT_THAT(refusal(setVisitState(job, VisitState::quoted, nullptr)), HasSubstr("complaint"));
    job.visit.complaint = "Thin.";
    job = test::valueOrThrow(setVisitState(job, VisitState::quoted, nullptr));
    EXPECT_EQ(job.visit.state, VisitState::quoted);
    EXPECT_THAT(refusal(setVisitState(job, VisitState::onBench, nullptr)), HasSubstr("agreed"));
    job = test::valueOrThrow(setVisitState(agreed(job), VisitState::onBench, nullptr));
    EXPECT_THAT(refusal(setVisitState(job, VisitState::proven, nullptr)), HasSubstr("being worked out"));
    // A step back asks for nothing.
    EXPECT_TRUE(setVisitState(job, VisitState::draft, nullptr));
    EXPECT_THAT(refusal(setVisitState(job, VisitState::gone, nullptr)), HasSubstr("let it depart"));
}

TEST(VisitCard, WithoutAModOrWordsThereIsNothingToQuote) {
    Job job = test::demoJob("small-rooster");
    job.visit.agreed.clear();
    for (Mod& mod : job.plan) {
        mod.on = false;
    }
    EXPECT_THAT(refusal(setVisitState(job, VisitState::quoted, nullptr)), HasSubstr("nothing to quote"));
}

TEST(VisitCard, ProvenAsksForEverySignature) {
    Job job = agreed(test::demoJob("small-rooster"));
    job.visit.state = VisitState::onBench;
    const WorkPlan work = test::valueOrThrow(orderOfWork(job));
    EXPECT_THAT(refusal(setVisitState(job, VisitState::proven, &work.steps)), HasSubstr("are not signed yet"));
    EXPECT_FALSE(needsOf(job, VisitState::gone, &work.steps).front().isMet);
    const std::vector<std::string> keys = stepKeys(work.steps);
    bool isOneSkipped = false;
    for (std::size_t k = 0; k < keys.size(); ++k) {
        StepMark mark;
        mark.step = keys[k];
        mark.when = "2026-11-29T11:00:00";
        if (!isOneSkipped && mayBeSkipped(work.steps[k])) {
            mark.result = StepResult::skipped;
            isOneSkipped = true;
        }
        job.visit.marks.push_back(mark);
    }
    const auto needs = needsOf(job, VisitState::proven, &work.steps);
    ASSERT_THAT(needs, SizeIs(3));
    EXPECT_TRUE(needs[0].isMet && needs[1].isMet);
    EXPECT_THAT(needs[2].sentence, HasSubstr("1 steps were skipped"));
    EXPECT_FALSE(needs[2].isRequired);
    job.visit.marks.back().result = StepResult::failed;
    EXPECT_THAT(refusal(setVisitState(job, VisitState::proven, &work.steps)), HasSubstr("failed"));
    job.visit.marks.back().result = StepResult::passed;
    job = test::valueOrThrow(setVisitState(job, VisitState::proven, &work.steps));
    EXPECT_TRUE(needsOf(job, VisitState::gone, &work.steps).front().isMet);
}

TEST(VisitCard, AVisitThatIsGoneIsClosed) {
    const Job gone = test::valueOrThrow(depart(test::demoJob("small-rooster"), {}, "2026-11-29T11:00:00"));
    for (const Result<Job>& refused :
         {writeVisitWords(gone, {"Other.", {}, {}}), writeReading(gone, {"Q1 base", "b", 1.1, Unit::volt}),
          eraseReading(gone, {"Q1 base", "b", 1.1, Unit::volt}), setVisitState(gone, VisitState::draft, nullptr)}) {
        EXPECT_THAT(refusal(refused), HasSubstr("is closed"));
    }
}

}  // namespace
}  // namespace ohmwright
