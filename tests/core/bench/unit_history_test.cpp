// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/unit_history.h"

#include "core/bench/visits.h"
#include "core/plan/correct.h"
#include "core/plan/edits.h"
#include "tests/support/demo_job_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// Harbour Lamp's visit 2 with A fitted, ended; then visit 3 with another gain capacitor in the plan.
struct TwoVisits {
    Job gone = test::valueOrThrow(depart(test::demoJob("harbour-lamp"), {}, "2026-11-24T18:05:00"));
    Job next = test::valueOrThrow(nextVisit(gone, "2027-02-01", "Too much of it now."));
    TwoVisits() { next = test::valueOrThrow(setPartValue(next, "c4", 82e-9)); }
};

TEST(UnitHistory, TellsWhatWasDoneAndWhatWasLeftOut) {
    const auto visits = visitsOf(TwoVisits().next);
    ASSERT_EQ(visits.size(), 2u);
    EXPECT_EQ(visits[0].visit.number, 2);
    EXPECT_TRUE(visits[0].isFrozen());
    ASSERT_EQ(visits[0].work.size(), 1u);
    EXPECT_THAT(visits[0].work[0], HasSubstr("C4 Cg 56n → 120n"));
    EXPECT_EQ(visits[0].leftOut.size(), 3u);
    EXPECT_EQ(visits[1].visit.complaint, "Too much of it now.");
    EXPECT_FALSE(visits[1].isFrozen());
    EXPECT_THAT(visits[1].work[0], HasSubstr("120n → 82n"));
}

// What somebody did before the unit came in is part of its history; the frozen record keeps what was found then.
TEST(UnitHistory, TellsWhereTheBoardWasNotAsDrawn) {
    Correction correction;
    correction.part = "r5";
    correction.found = ValueFound{2200.0, {}};
    correction.reason = CorrectionReason::earlierMod;
    const Job found = test::valueOrThrow(correct(test::demoJob("harbour-lamp"), correction));
    const Job gone = test::valueOrThrow(depart(found, {}, "2026-11-24T18:05:00"));
    Job next = test::valueOrThrow(nextVisit(gone, "2027-02-01", "Too much of it now."));
    correction.part = "c7";
    correction.found = ToleranceFound{0.05};
    next = test::valueOrThrow(correct(next, correction));
    const auto visits = visitsOf(next);
    ASSERT_EQ(visits.size(), 2u);
    EXPECT_THAT(visits[0].found,
                ElementsAre("R5 Rg: 2k2, the drawing says 3k9 (printed orange-white-red-gold) (earlier mod)"));
    EXPECT_THAT(visits[1].found, ElementsAre("C7 Clp: ±5.00 %, the drawing says ±10.0 % (earlier mod)"));
    EXPECT_EQ(next.departures[0], gone.departures[0]);
    EXPECT_EQ(test::valueOrThrow(jobOfVisit(next, 2)).corrections, found.corrections);
}

TEST(UnitHistory, TheHashIsTheOneOnThePapersOfThen) {
    const TwoVisits unit;
    EXPECT_EQ(visitsOf(unit.next)[0].hash, stateHash(test::demoJob("harbour-lamp")));
}

TEST(UnitHistory, ARecordInTwoFilesStandsOnceAndAnOpenCopyGivesWay) {
    const TwoVisits unit;
    const UnitHistory history = historyOf({test::demoJob("harbour-lamp"), unit.next, unit.gone});
    ASSERT_EQ(history.visits.size(), 2u);
    EXPECT_EQ(history.visits[0].visit.state, VisitState::gone);
    EXPECT_EQ(history.visits[0].job, 1u);
    EXPECT_THAT(history.doubts, IsEmpty());
}

TEST(UnitHistory, ANoteOfEitherFileIsKept) {
    const TwoVisits unit;
    const Job noted = test::valueOrThrow(addDepartureNote(unit.gone, 2, "2026-11-26: the pot was new."));
    const UnitHistory history = historyOf({unit.next, noted});
    ASSERT_EQ(history.visits.size(), 2u);
    EXPECT_THAT(history.visits[0].notes, ElementsAre("2026-11-26: the pot was new."));
}

// A job begun anew instead of a next visit: the numbers of both begin at the same.
TEST(UnitHistory, TwoTalesOfOneVisitAreBothShownAndSaid) {
    Job other = test::demoJob("harbour-lamp");
    other.visit.complaint = "Hums.";
    const UnitHistory history = historyOf({test::demoJob("harbour-lamp"), other});
    EXPECT_EQ(history.visits.size(), 2u);
    ASSERT_EQ(history.doubts.size(), 1u);
    EXPECT_THAT(history.doubts[0], HasSubstr("visit 2"));
}

// House figure: two reworks are a pad's usual life; the third visit warns.
TEST(UnitHistory, TheThirdVisitToAPadIsSaid) {
    TwoVisits unit;
    UnitHistory history = historyOf({unit.next});
    ASSERT_EQ(history.pads.size(), 1u);
    EXPECT_EQ(history.pads[0], (PadWork{"c4", "C4", 2}));
    EXPECT_FALSE(history.pads[0].isWorn());

    Job third = test::valueOrThrow(depart(unit.next, {}, "2027-02-01T17:00:00"));
    third = test::valueOrThrow(nextVisit(third, "2027-03-01", ""));
    third = test::valueOrThrow(setPartValue(third, "c4", 100e-9));
    third = test::valueOrThrow(setPartValue(third, "c7", 33e-9));
    history = historyOf({third});
    ASSERT_EQ(history.pads.size(), 2u);
    EXPECT_EQ(history.pads[0], (PadWork{"c4", "C4", 3}));
    EXPECT_TRUE(history.pads[0].isWorn());
    EXPECT_EQ(history.pads[1].visits, 1);
}

TEST(UnitHistory, AnOlderCopyOfTheJobCountsNoPadTwice) {
    const TwoVisits unit;
    Job older = unit.gone;
    older.plan[2].on = true;  // R5, planned in an old copy and never fitted
    older.departures.clear();
    older.visit.state = VisitState::onBench;
    EXPECT_EQ(historyOf({older, unit.next}).pads.size(), 1u);
}

}  // namespace
}  // namespace ohmwright
