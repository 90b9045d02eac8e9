// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/paper_answers.h"

#include "tests/support/demo_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::demoJob;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

PaperRequest requestOf(PaperKind kind, const Job& job) {
    PaperRequest request;
    request.kind = kind;
    request.job = std::make_shared<const Job>(job);
    return request;
}

PaperAnswers answersOf(const PaperRequest& request) {
    Result<PaperAnswers> answers = answersOfPaper(request);
    if (!answers) {
        ADD_FAILURE() << answers.error().message;
        return {};
    }
    return *std::move(answers);
}

TEST(PaperAnswers, TheBenchSheetHasFiguresGroupsAndSteps) {
    const PaperAnswers answers = answersOf(requestOf(PaperKind::bench, demoJob("harbour-lamp", "A")));
    ASSERT_TRUE(answers.linear && answers.largeSignal);
    EXPECT_EQ(answers.groups.size(), 1u);
    EXPECT_THAT(answers.work.steps, Not(IsEmpty()));
    EXPECT_THAT(answers.picks, IsEmpty());
}

// D is fitted last and comes off first.
TEST(PaperAnswers, TheWayBackHasItsOwnSteps) {
    const PaperAnswers answers = answersOf(requestOf(PaperKind::wayBack, demoJob("harbour-lamp", "ABCD")));
    EXPECT_THAT(answers.back.letters, ElementsAre("D", "C", "B", "A"));
    EXPECT_THAT(answers.back.work.steps, Not(IsEmpty()));
}

TEST(PaperAnswers, TheCustomersWordsAreAnswered) {
    const PaperAnswers answers = answersOf(requestOf(PaperKind::customer, demoJob("harbour-lamp", "A")));
    ASSERT_EQ(answers.claims.size(), 2u);
    EXPECT_THAT(answers.claims.front().sentence, HasSubstr("fuller"));
    EXPECT_THAT(answers.knobs, Not(IsEmpty()));
}

TEST(PaperAnswers, TheQuoteHasItsPrices) {
    const PaperAnswers answers = answersOf(requestOf(PaperKind::quote, demoJob("harbour-lamp", "A")));
    EXPECT_GT(answers.quote.total, 0.0);
    EXPECT_TRUE(answers.isStockAssumed);
}

TEST(PaperAnswers, NoKindIsMadeOfAStateThatIsNotSolved) {
    Job job = demoJob("harbour-lamp", "A");
    findPart(job.stock, "r5")->nets[1] = "nowhere";
    for (const PaperKind kind : allPaperKinds) {
        const Result<PaperAnswers> answers = answersOfPaper(requestOf(kind, job));
        ASSERT_FALSE(answers) << paperName(kind);
        EXPECT_THAT(answers.error().message, HasSubstr("No paper is made while the job cannot be solved."));
    }
}

TEST(PaperAnswers, NoKindIsMadeOfPartsThatNobodySaw) {
    Job job = demoJob("harbour-lamp", "A");
    findPart(job.stock, "c4")->knowledge = Knowledge::drawn;
    for (const PaperKind kind : allPaperKinds) {
        const Result<PaperAnswers> answers = answersOfPaper(requestOf(kind, job));
        ASSERT_FALSE(answers) << paperName(kind);
        EXPECT_THAT(answers.error().message, HasSubstr("C4 Cg, which is known from the drawing alone"));
    }
}

TEST(PaperAnswers, AStoppedCallSaysSo) {
    std::stop_source stopped;
    stopped.request_stop();
    const Result<PaperAnswers> answers =
        answersOfPaper(requestOf(PaperKind::bench, demoJob("harbour-lamp", "A")), stopped.get_token());
    ASSERT_FALSE(answers);
    EXPECT_EQ(answers.error().code, ErrorCode::cancelled);
}

// The lot and the marking come from the drawer that was looked into.
TEST(PaperAnswers, TheDrawersLotsStandBesideTheParts) {
    PaperRequest request = requestOf(PaperKind::bench, demoJob("harbour-lamp", "A"));
    DrawerLot lot;
    lot.id = "C-120n-a";
    lot.kind = PartKind::capacitor;
    lot.value = 120e-9;
    lot.quantity = 3;
    lot.printed = "124";
    request.drawer.lots.push_back(lot);
    request.isStockAssumed = false;
    const PaperAnswers answers = answersOf(request);
    ASSERT_EQ(answers.picks.size(), 1u);
    EXPECT_EQ(answers.picks.front().lot, "C-120n-a");
}

}  // namespace
}  // namespace ohmwright
