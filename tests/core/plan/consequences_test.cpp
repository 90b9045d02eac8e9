/// What a plan brings with it, on the demos. Expected figures: reference/harbour-lamp-figures.csv and demos/claims.csv
/// by way of the walk-throughs' sentences; levels ±0.05 dB.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/consequences.h"

#include "core/plan/edits.h"
#include "tests/support/demo_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <thread>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

constexpr double levelTolerance = 0.05;

ConsequenceRequest requestFor(Job job) {
    ConsequenceRequest request;
    request.job = std::make_shared<const Job>(std::move(job));
    return request;
}

TogetherAnswer togetherOf(const Job& job) {
    const auto answer = findTogether(requestFor(job));
    EXPECT_TRUE(answer) << (answer ? "" : answer.error().message);
    return answer ? *answer : TogetherAnswer();
}

void expectShares(const FigureShares& shares, const std::vector<double>& expected) {
    ASSERT_EQ(shares.mods.size(), expected.size());
    for (std::size_t k = 0; k < expected.size(); ++k) {
        EXPECT_NEAR(shares.mods[k].share.value_or(99.0), expected[k], levelTolerance) << shares.mods[k].letter;
    }
}

TEST(Together, WithOneModOnTheSharesAreToldOfTheWholePlan) {
    const TogetherAnswer answer = togetherOf(test::demoJob("harbour-lamp", "A"));
    EXPECT_NEAR(answer.on.together.value_or(0), 2.08, levelTolerance);
    ASSERT_TRUE(answer.all);
    EXPECT_NEAR(answer.all->together.value_or(0), 4.49, levelTolerance);
    EXPECT_NEAR(answer.all->sumOfSingles.value_or(0), 3.23, levelTolerance);
    EXPECT_NEAR(answer.all->interaction.value_or(0), 1.26, levelTolerance);
    EXPECT_EQ(&answer.shared(), &*answer.all);
    expectShares(answer.shared(), {2.67, 1.80, 0.00, 0.02});
}

TEST(Together, WithThreeOnTheSharesAreThoseThree) {
    const TogetherAnswer answer = togetherOf(test::demoJob("harbour-lamp", "ABC"));
    EXPECT_NEAR(answer.on.together.value_or(0), 4.47, levelTolerance);
    ASSERT_TRUE(answer.all);
    EXPECT_EQ(&answer.shared(), &answer.on);
    expectShares(answer.shared(), {2.67, 1.80, 0.00});
}

TEST(Together, EveryModIsHeldAgainstTheSpreadOnOrOff) {
    Job job = test::demoJob("harbour-lamp", "A");
    job.plan.push_back({"mod-e", "E", "Gain resistor, a step", SwapValue{"r5", 3.6e3}, false});
    const TogetherAnswer answer = togetherOf(job);
    ASSERT_THAT(answer.spreads, SizeIs(5));
    EXPECT_FALSE(answer.spreads[0].isWithin);
    EXPECT_TRUE(answer.spreads[1].isWithin) << "a third diode changes no small signal";
    EXPECT_FALSE(answer.spreads[2].isWithin) << "2k7: +2.82 dB at 3 kHz against 1.28";
    EXPECT_TRUE(answer.spreads[4].isWithin) << "3k9 to 3k6: +0.41 dB at 1 kHz against 1.06";
}

TEST(Together, ModsThatExcludeEachOtherSayWhyThereIsNoSumOfAll) {
    // A leg cannot be lifted of a part that is off the board.
    Job job = test::demoJob("harbour-lamp", "A");
    job.plan.push_back({"mod-e", "E", "No Cf", RemovePart{"c5"}, false});
    job.plan.push_back({"mod-f", "F", "Cf lifted", Lift{"c5", 0}, false});
    const TogetherAnswer answer = togetherOf(job);
    EXPECT_FALSE(answer.all);
    EXPECT_FALSE(answer.allTrouble.empty());
    EXPECT_NEAR(answer.on.together.value_or(0), 2.08, levelTolerance);
}

/// Two mods on the same diodes were added up as if both could be fitted: +5.82 and -5.83 dB.
TEST(Together, OfAlternativesOneCounts) {
    Job bell = test::demoJob("quarry-bell", "A");
    const TogetherAnswer withPair = togetherOf(bell);
    EXPECT_THAT(withPair.leftOut, testing::ElementsAre("D"));
    ASSERT_TRUE(withPair.all);
    EXPECT_EQ(withPair.all->mods.size(), 3u);
    bell = test::demoJob("quarry-bell", "D");
    EXPECT_THAT(togetherOf(bell).leftOut, testing::ElementsAre("A"));
    bell = test::demoJob("quarry-bell", "ABC");
    const TogetherAnswer all = togetherOf(bell);
    EXPECT_THAT(all.leftOut, testing::ElementsAre("D"));
    EXPECT_FALSE(all.all) << "no more than these can be meant";
}

TEST(Words, TheDemosWordsAreHeldAndTheBetterModIsNamed) {
    const auto answer = findWords(requestFor(test::demoJob("harbour-lamp", "A")));
    ASSERT_TRUE(answer) << answer.error().message;
    ASSERT_THAT(*answer, SizeIs(2));
    EXPECT_EQ(answer->at(0).claim.verdict, ClaimVerdict::yes);
    EXPECT_THAT(answer->at(0).better, IsEmpty());
    EXPECT_EQ(answer->at(1).claim.verdict, ClaimVerdict::theOtherWay);
    EXPECT_THAT(answer->at(1).claim.sentence, HasSubstr("0.52 → 0.36"));
    EXPECT_THAT(answer->at(1).better, HasSubstr("B alone: yes"));
    EXPECT_THAT(answer->at(1).better, HasSubstr("0.52 → 0.73"));
}

TEST(Words, AnUnknownWordHasNoAnswerAndTakesNoOtherWithIt) {
    Job job = test::demoJob("harbour-lamp", "A");
    job.visit.words = {"purple", "fuller"};
    const auto answer = findWords(requestFor(job));
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->at(0).claim.verdict, ClaimVerdict::noAnswer);
    EXPECT_THAT(answer->at(0).claim.sentence, HasSubstr("“purple” is not in the table"));
    EXPECT_EQ(answer->at(1).claim.verdict, ClaimVerdict::yes);
}

TEST(Effects, ReadingsOfStockAreTakenOverWhenTheyAreKnown) {
    ConsequenceRequest request = requestFor(test::demoJob("quarry-bell", "A"));
    const auto first = findEffects(request);
    ASSERT_TRUE(first) << first.error().message;
    request.stockReadings = first->stockReadings;
    const auto second = findEffects(request);
    ASSERT_TRUE(second);
    EXPECT_EQ(first->effects, second->effects);
    EXPECT_EQ(second->stockReadings, first->stockReadings);
}

TEST(Switches, QuarryBellsThrowsHaveTheirCurvesAndTheirTrim) {
    Job job = test::demoJob("quarry-bell", "D");
    job.setting.toneHz = 329.6;
    job.setting.throws["mod-d"] = "open";
    const auto answer = findSwitches(requestFor(job));
    ASSERT_TRUE(answer) << answer.error().message;
    ASSERT_THAT(*answer, SizeIs(1));
    const SwitchAnswer& one = answer->front();
    EXPECT_EQ(one.chosen, "open");
    ASSERT_THAT(one.table.throws, SizeIs(3));
    EXPECT_THAT(one.responses, SizeIs(3));
    EXPECT_EQ(one.table.throws[1].name, "open");
    // Silicon -6.03 dBV, without diodes +2.45 (tests/reference/demos): 8.48 dB.
    EXPECT_NEAR(one.table.throws[1].jumpDb, 8.48, 0.1);
    EXPECT_THAT(one.trim, HasSubstr("before VR2"));
    // A switch that is off fits nothing.
    EXPECT_THAT(*findSwitches(requestFor(test::demoJob("quarry-bell", "A"))), IsEmpty());
}

TEST(Consequences, OneCallHasAllSections) {
    for (const auto& path : {"harbour-lamp", "night-ferry", "three-hills"}) {
        const auto all = findConsequences(requestFor(test::demoJob(path, "A")));
        ASSERT_TRUE(all) << path;
        EXPECT_TRUE(all->together) << path;
        EXPECT_TRUE(all->words) << path;
        EXPECT_TRUE(all->translations) << path;
        EXPECT_TRUE(all->effects) << path;
        EXPECT_TRUE(all->switches) << path;
    }
}

TEST(Consequences, AStoppedSearchIsCancelledSoon) {
    std::stop_source stop;
    stop.request_stop();
    const auto all = findConsequences(requestFor(test::demoJob("harbour-lamp", "ABCD")), stop.get_token());
    ASSERT_FALSE(all);
    EXPECT_EQ(all.error().code, ErrorCode::cancelled);
}

TEST(Consequences, ASectionThatCannotBeSaysWhyAndTheOthersStand) {
    Job job = test::demoJob("harbour-lamp", "A");
    job.stock.ports.output = "";
    const auto all = findConsequences(requestFor(job));
    ASSERT_TRUE(all);
    EXPECT_FALSE(all->together);
    EXPECT_FALSE(all->together.error().message.empty());
}

}  // namespace
}  // namespace ohmwright
