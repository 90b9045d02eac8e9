// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/revision_candidates.h"

#include "core/bench/visits.h"
#include "core/plan/correct.h"
#include "core/plan/edits.h"
#include "tests/support/demo_job.h"
#include "tests/support/disguise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::EndsWith;
using testing::HasSubstr;

Job rooster() {
    Job job = test::jobIn(test::demoJobPath("small-rooster"));
    job.plan.clear();
    job.setting.throws.clear();
    job.corrections.clear();
    job.departures.clear();
    job.visit = Visit();
    return job;
}

template <class Value>
Value made(const Result<Value>& value) {
    if (!value) {
        ADD_FAILURE() << value.error().message;
        return {};
    }
    return *value;
}

Job corrected(const Job& job, const PartId& part, Finding finding, CorrectionReason reason) {
    Correction correction;
    correction.part = part;
    correction.found = std::move(finding);
    correction.reason = reason;
    return made(correct(job, correction));
}

/// The next visit after one in which R4 became 1k.
Job modded(const Job& job) {
    const Job planned = made(setPartValue(job, "r4", 1e3));
    return made(nextVisit(made(depart(planned, {}, "2026-01-01T10:00:00")), "2026-06-01", ""));
}

double valueOf(const RevisionCandidate& candidate, const PartId& part) {
    return findPart(candidate.circuit, part)->value;
}

// A unit that had been worked on was held against the board as if it were the revision.
TEST(RevisionCandidates, AUnitThatWasModdedStandsForItsRevisionAsItWasBuilt) {
    const Job job = rooster();
    const double stock = findPart(job.stock, "r4")->value;
    const Job later = modded(job);
    ASSERT_EQ(findPart(later.stock, "r4")->value, 1e3);
    EXPECT_EQ(valueOf(candidateOf(later), "r4"), stock);
    EXPECT_EQ(candidateOf(later).name, candidateOf(job).name);
    // The board at hand is another matter: it should read as it was left.
    EXPECT_EQ(valueOf(ownCandidateOf(later), "r4"), 1e3);
    EXPECT_THAT(ownCandidateOf(later).name, EndsWith(", as left in visit 1"));
}

TEST(RevisionCandidates, AnEarlierModIsNoneOfTheRevisionAndAnotherBoardIs) {
    const Job job = rooster();
    const double r2 = findPart(job.stock, "r2")->value;
    Job found = corrected(job, "r2", ValueFound{47e3, {}}, CorrectionReason::earlierMod);
    found = corrected(found, "r3", ValueFound{4700.0, {}}, CorrectionReason::boardDiffers);
    EXPECT_EQ(valueOf(candidateOf(found), "r2"), r2);
    EXPECT_EQ(valueOf(candidateOf(found), "r3"), 4700.0);
    EXPECT_EQ(valueOf(ownCandidateOf(found), "r2"), 47e3);
    EXPECT_THAT(ownCandidateOf(found).name, EndsWith(", with an earlier mod"));
    // Also when it was found at a later visit.
    Job later = modded(job);
    later = corrected(later, "r3", ValueFound{4700.0, {}}, CorrectionReason::boardDiffers);
    EXPECT_EQ(valueOf(candidateOf(later), "r3"), 4700.0);
}

TEST(RevisionCandidates, UnitsOfOneRevisionAreOneCandidate) {
    RevisionCandidate one = candidateOf(rooster());
    RevisionCandidate other = one;
    findPart(other.circuit, "r2")->value = 33e3;
    EXPECT_EQ(withoutTwins({one, one, other}).size(), 2u);
}

// The same parts, and yet another board on the meter.
TEST(RevisionCandidates, AnotherTypeOrSupplyIsAnotherCandidate) {
    const RevisionCandidate one = candidateOf(rooster());
    RevisionCandidate weak = one;
    for (Model& model : weak.circuit.models) {
        if (model.name == findPart(weak.circuit, "q1")->model) {
            model.parameters["BF"] = 20.0;
        }
    }
    RevisionCandidate higher = one;
    higher.setting.batteryVolts = 18.0;
    EXPECT_EQ(withoutTwins({one, weak, higher}).size(), 3u);
    // A type that no part has is on no board.
    RevisionCandidate spare = one;
    spare.circuit.models.push_back({"SPARE", PartKind::diode, {{"IS", 1e-9}}, {}, {}});
    EXPECT_EQ(withoutTwins({one, spare}).size(), 1u);
}

TEST(RevisionCandidates, NamesThatRepeatAreToldApart) {
    Job one = rooster();
    Job two = one;
    one.unit.serial = "SR-0001";
    two.unit.serial.clear();
    findPart(two.stock, "r2")->value = 33e3;
    const std::vector<RevisionCandidate> named = withoutTwins({candidateOf(one), candidateOf(two)});
    ASSERT_EQ(named.size(), 2u);
    EXPECT_THAT(named[0].name, EndsWith(", SR-0001"));
    EXPECT_EQ(named[1].name, "Small Rooster, PB-03 rev 4");
    two.unit.serial = one.unit.serial;
    const std::vector<RevisionCandidate> ofOne = withoutTwins({candidateOf(one), candidateOf(two)});
    EXPECT_THAT(ofOne[0].name, EndsWith(", SR-0001, drawing 1"));
    EXPECT_THAT(ofOne[1].name, EndsWith(", SR-0001, drawing 2"));
}

// Another unit of the shop is no revision of this one while there are some; a unit without a name is held against all.
TEST(RevisionCandidates, StoredJobsOfTheSameUnitAreTheCandidates) {
    Job job = rooster();
    Job older = job;
    older.unit.boardRevision = "PB-03 rev 3";
    findPart(older.stock, "r2")->value = 33e3;
    const Job lamp = test::jobIn(test::demoJobPath("harbour-lamp"));
    const std::vector<RevisionCandidate> same = candidatesFor(job, {lamp, older, job}, {"lamp", "older", "own"});
    ASSERT_EQ(same.size(), 2u);
    EXPECT_EQ(same[1].name, "Small Rooster, PB-03 rev 3");
    EXPECT_EQ(same[1].file, "older");
    job.unit.name.clear();
    EXPECT_EQ(candidatesFor(job, {lamp, older}).size(), 3u);
}

}  // namespace
}  // namespace ohmwright
