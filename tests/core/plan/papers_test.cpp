// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/papers.h"

#include "core/plan/edits.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/planned_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// The demo with these parts known from the drawing alone.
Job drawnOnly(Job job, const std::vector<PartId>& parts) {
    for (const PartId& id : parts) {
        findPart(job.stock, id)->knowledge = Knowledge::drawn;
    }
    return job;
}

TEST(Papers, EveryKindHasItsWordAndIsFoundByIt) {
    for (const PaperKind kind : allPaperKinds) {
        EXPECT_EQ(paperOfWord(paperWord(kind)), kind);
        EXPECT_FALSE(paperName(kind).empty());
    }
    EXPECT_EQ(paperWord(PaperKind::wayBack), "way-back");
    EXPECT_FALSE(paperOfWord("Bench sheet"));
}

// A part that is only on the drawing may be another one on the board: nobody prints work on it.
TEST(Papers, APlanOnAPartThatNobodySawIsRefusedByName) {
    const Job job = drawnOnly(harbourLampWith("ABC"), {"d2", "r5", "c7"});
    EXPECT_THAT(unseenParts(job), ElementsAre("d2", "r5"));
    const Result<void> seen = checkSeen(job);
    ASSERT_FALSE(seen);
    EXPECT_EQ(seen.error().code, ErrorCode::invalidInput);
    EXPECT_EQ(seen.error().message,
              "No paper is made: the plan works on D2 and R5 Rg, which are known from the drawing alone. Look at them "
              "on the board, then mark them as seen.");
}

TEST(Papers, PartsThatNoModOnWorksOnNeedNotBeSeen) {
    EXPECT_THAT(unseenParts(drawnOnly(harbourLampWith("A"), {"d2", "r5", "c7", "c1"})), IsEmpty());
}

// The third diode comes out of the drawer: only the one whose leg is lifted is on the board.
TEST(Papers, PartsThatAModBringsAreNotAskedFor) {
    const Job planned = harbourLampWith("B");
    const Job job = drawnOnly(planned, {"d2"});
    EXPECT_THAT(unseenParts(job), ElementsAre("d2"));
}

// The plan of another revision names a part that this board has not: nobody prints work on it.
TEST(Papers, APlanOnAPartThatTheBoardHasNotIsRefusedByName) {
    Job job = harbourLampWith("AB");
    EXPECT_TRUE(checkMapped(job));
    std::erase_if(job.stock.parts, [](const Part& part) { return part.id == "c4"; });
    const Result<void> mapped = checkMapped(job);
    ASSERT_FALSE(mapped);
    EXPECT_EQ(
        mapped.error().message,
        "No paper is made: Mod A (Gain cap) works on a part “c4” that this board has not. Find the part that does "
        "its work here, or switch the mod off.");
    EXPECT_TRUE(checkMapped(*setModOn(job, "mod-a", false)));
}

TEST(Papers, ASwitchIsAskedForInAllItsThrows) {
    Job job = harbourLampWith("");
    job.plan.push_back(
        {"mod-s", "S", "Switch", FitSwitch{"c4", {{"stock", {}}, {"thick", {SwapValue{"c4", 120e-9}}}}}, true});
    job.setting.throws["mod-s"] = "stock";
    EXPECT_THAT(unseenParts(drawnOnly(job, {"c4"})), ElementsAre("c4"));
}

TEST(Papers, SeenPartsMayBePrinted) {
    const Job job = drawnOnly(harbourLampWith("AB"), {"d2", "c4"});
    const Result<Job> seen = markSeen(job, unseenParts(job));
    ASSERT_TRUE(seen) << seen.error().message;
    EXPECT_TRUE(checkSeen(*seen));
    EXPECT_EQ(findPart(seen->stock, "d2")->knowledge, Knowledge::seen);
}

TEST(Papers, AMeasuredPartStaysMeasured) {
    Job job = harbourLampWith("A");
    findPart(job.stock, "c4")->knowledge = Knowledge::measured;
    const Result<Job> seen = markSeen(job, {"c4"});
    ASSERT_TRUE(seen);
    EXPECT_EQ(*seen, job);
    EXPECT_FALSE(markSeen(job, {"c99"}));
}

TEST(Papers, APrintedPaperIsVoidOnceThePlanIsAnother) {
    const Job job = harbourLampWith("A");
    const Result<Job> printed = recordPaper(job, PaperKind::bench, "2026-11-29T10:00:00");
    ASSERT_TRUE(printed);
    const PrintedPaper* paper = lastPaper(printed->visit, PaperKind::bench);
    ASSERT_NE(paper, nullptr);
    EXPECT_EQ(paper->kind, "bench");
    EXPECT_EQ(paper->hash, stateHash(job));
    EXPECT_FALSE(isVoid(*printed, *paper));
    EXPECT_EQ(lastPaper(printed->visit, PaperKind::quote), nullptr);

    const Result<Job> changed = setPartValue(*printed, "c4", 150e-9);
    ASSERT_TRUE(changed);
    EXPECT_TRUE(isVoid(*changed, changed->visit.papers.front()));
    // Words of the visit stand on no step of the work.
    Job talked = *printed;
    talked.visit.agreed = "A";
    EXPECT_FALSE(isVoid(talked, talked.visit.papers.front()));
}

TEST(Papers, AClosedRecordTakesNoPaper) {
    Job job = harbourLampWith("A");
    job.visit.state = VisitState::gone;
    const Result<Job> printed = recordPaper(job, PaperKind::label, "2026-11-29T10:00:00");
    ASSERT_FALSE(printed);
    EXPECT_THAT(printed.error().message, HasSubstr("closed"));
}

// The bundled demos are there to be printed: what their plans can touch was seen on their boards.
TEST(Papers, EveryDemoMayBePrintedWithAllItsMods) {
    for (const char* name :
         {"harbour-lamp", "quarry-bell", "small-rooster", "moss-engine", "paper-boat", "night-ferry", "three-hills"}) {
        EXPECT_THAT(unseenParts(test::demoJob(name, "ABCD")), IsEmpty()) << name;
    }
}

}  // namespace
}  // namespace ohmwright
