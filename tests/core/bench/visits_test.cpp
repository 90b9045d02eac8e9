/// Reference: tests/reference/demos/figures.csv for the bias of Small Rooster (base 1.12, emitter 0.46, collector
/// 4.43 V).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/visits.h"

#include "core/bench/way_back.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"
#include "tests/support/demo_job_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

using testing::HasSubstr;

const char* const evening = "2026-11-24T18:05:00";

UnitReading collector(double volts) {
    const Job job = test::demoJob("small-rooster");
    const Part& transistor = *findPart(job.stock, "q1");
    return {"Q1 collector", transistor.nets[0], volts, Unit::volt};
}

Job departed(const std::string& demo = "small-rooster") {
    return test::valueOrThrow(depart(test::demoJob(demo), {collector(4.43)}, evening));
}

TEST(Visits, ReadingsToTakeNameTheCollectorWithItsBand) {
    const Job job = test::demoJob("small-rooster");
    const auto readings = expectedReadings(job.stock, job.setting);
    ASSERT_TRUE(readings) << readings.error().message;
    const auto found = std::find_if(readings->begin(), readings->end(), [](const ExpectedReading& reading) {
        return reading.nominal.place == "Q1 collector";
    });
    ASSERT_NE(found, readings->end());
    EXPECT_NEAR(found->nominal.value, 4.43, 0.005);
    EXPECT_LT(found->low, 4.4);
    EXPECT_GT(found->high, 4.5);
    EXPECT_EQ(readings->front().nominal.unit, Unit::ampere);
    EXPECT_LE(readings->size(), 6u);
}

TEST(Visits, AReadingOutsideTheDrawingAsksForRepairFirst) {
    const Job job = test::demoJob("small-rooster");
    const auto expected = expectedReadings(job.stock, job.setting);
    ASSERT_TRUE(expected);
    const auto judged =
        judgeReadings({collector(8.9), collector(4.5), {"lamp", "nowhere", 1.0, Unit::volt}}, *expected);
    ASSERT_EQ(judged.size(), 3u);
    EXPECT_TRUE(judged[0].isOutside);
    EXPECT_THAT(judged[0].sentence, HasSubstr("before any mod"));
    EXPECT_FALSE(judged[1].isOutside);
    EXPECT_FALSE(judged[2].isOutside);
    EXPECT_THAT(judged[2].sentence, HasSubstr("the drawing says nothing of it"));
}

TEST(Visits, WhatLeftIsFrozenAndTheUnitCannotLeaveTwice) {
    const Job before = test::demoJob("harbour-lamp");
    const auto gone = depart(before, {}, evening);
    ASSERT_TRUE(gone) << gone.error().message;
    EXPECT_EQ(gone->visit.state, VisitState::gone);
    ASSERT_EQ(gone->departures.size(), before.departures.size() + 1);
    const Departure& record = gone->departures.back();
    EXPECT_EQ(record.when, evening);
    EXPECT_EQ(record.stock, before.stock);
    EXPECT_EQ(record.plan, before.plan);
    EXPECT_EQ(record.visit.state, VisitState::gone);
    const auto again = depart(*gone, {}, evening);
    ASSERT_FALSE(again);
    EXPECT_THAT(again.error().message, HasSubstr("frozen"));
}

TEST(Visits, TheNextVisitFindsTheUnitAsItLeft) {
    const Job gone = departed("harbour-lamp");
    const auto next = nextVisit(gone, "2027-02-01", "Too much of it now.");
    ASSERT_TRUE(next) << next.error().message;
    EXPECT_EQ(next->visit.number, gone.visit.number + 1);
    EXPECT_EQ(next->visit.state, VisitState::draft);
    EXPECT_TRUE(next->plan.empty());
    EXPECT_EQ(next->stock, test::valueOrThrow(nowCircuit(gone)));
    EXPECT_EQ(next->departures, gone.departures);
    EXPECT_FALSE(nextVisit(*next, "2027-02-02", "")) << "one visit at a time";
}

TEST(Visits, AVisitOfLongAgoGivesItsWayBack) {
    // Two visits later the record of the first still leads back to the stock of then.
    const Job first = test::demoJob("harbour-lamp");
    Job job = test::valueOrThrow(nextVisit(departed("harbour-lamp"), "2027-02-01", ""));
    job = test::valueOrThrow(setPartValue(job, "c7", 33e-9));
    job = test::valueOrThrow(depart(job, {}, "2027-02-01T17:00:00"));
    const auto then = jobOfVisit(job, first.visit.number);
    ASSERT_TRUE(then) << then.error().message;
    EXPECT_EQ(then->stock, first.stock);
    const auto back = wayBack(*then);
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_THAT(back->words, HasSubstr("C4 Cg back to 56n"));
    const auto none = jobOfVisit(job, 77);
    ASSERT_FALSE(none);
    EXPECT_THAT(none.error().message, HasSubstr("visits that have ended: "));
}

TEST(Visits, AReturnedUnitIsItsOwnReference) {
    const Departure record = departed().departures.back();
    struct Case {
        double volts;
        ReturnVerdict verdict;
        const char* words;
    };
    // The meter and the supply: 2 % and 20 mV, 0.109 V at 4.43 V. Units of this drawing lie up to about 1 V apart.
    for (const Case& each :
         {Case{4.50, ReturnVerdict::nothingChanged, "Nothing changed"}, Case{4.60, ReturnVerdict::drifted, "drifted"},
          Case{8.90, ReturnVerdict::changed, "somebody was inside"}}) {
        const auto check = checkReturn(record, {collector(each.volts)});
        ASSERT_TRUE(check) << check.error().message;
        EXPECT_EQ(check->verdict, each.verdict) << each.volts;
        EXPECT_THAT(check->sentence, HasSubstr(each.words)) << each.volts;
        EXPECT_NEAR(check->readings[0].limit, 0.1086, 1e-4);
    }
    const auto other = checkReturn(record, {{"Q1 base", "nowhere", 1.0, Unit::volt}});
    ASSERT_TRUE(other);
    EXPECT_EQ(other->verdict, ReturnVerdict::notCompared);
}

TEST(Visits, ACorrectionIsANoteBesideTheRecord) {
    const Job gone = departed();
    const auto noted = addDepartureNote(gone, gone.visit.number, "2026-11-26: the knob was new, not the pot.");
    ASSERT_TRUE(noted);
    Departure record = noted->departures.back();
    ASSERT_EQ(record.notes.size(), 1u);
    record.notes.clear();
    EXPECT_EQ(record, gone.departures.back());
}

}  // namespace
}  // namespace ohmwright
