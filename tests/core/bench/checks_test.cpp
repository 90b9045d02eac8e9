// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/checks.h"

#include "core/bench/judge.h"
#include "core/bench/order_of_work.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/planned_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using test::nowOf;
using testing::HasSubstr;

CheckPlan planOf(const std::string& letters) {
    const Job job = harbourLampWith(letters);
    const Circuit now = nowOf(job);
    auto plan = planChecks(boardEdits(job.stock, now), now, job.setting);
    if (!plan) {
        ADD_FAILURE() << plan.error().message;
        return {};
    }
    return *std::move(plan);
}

std::size_t mistakeOf(const CheckPlan& plan, MistakeKind kind, const std::string& words) {
    for (std::size_t k = 0; k < plan.mistakes.size(); ++k) {
        if (plan.mistakes[k].kind == kind && plan.mistakes[k].sentence.find(words) != std::string::npos) {
            return k;
        }
    }
    ADD_FAILURE() << "no mistake " << words;
    return 0;
}

/// The nine of the worked table of wrong fittings, without the tenth.
std::vector<std::size_t> theNine(const CheckPlan& plan) {
    return {mistakeOf(plan, MistakeKind::reversed, "D3"),
            mistakeOf(plan, MistakeKind::acrossNotInLine, "D3"),
            mistakeOf(plan, MistakeKind::bridged, "over D3"),
            mistakeOf(plan, MistakeKind::neighbourOpen, "D1"),
            mistakeOf(plan, MistakeKind::legOpen, "C4 Cg"),
            mistakeOf(plan, MistakeKind::decade, "12n fitted for 120n"),
            mistakeOf(plan, MistakeKind::decade, "27k fitted for 2k7"),
            mistakeOf(plan, MistakeKind::decade, "270R fitted for 2k7"),
            mistakeOf(plan, MistakeKind::otherArm, "D3")};
}

bool isCovered(const CheckPlan& plan, std::size_t mistake, const std::set<CheckKind>& kinds, double toneHz) {
    for (std::size_t k = 0; k < plan.checks.size(); ++k) {
        const Check& check = plan.checks[k];
        const bool isAllowed = kinds.count(check.kind) > 0 || (check.kind == CheckKind::tone && check.toneHz == toneHz);
        if (isAllowed && plan.sees(k, mistake)) {
            return true;
        }
    }
    return false;
}

// Ohms, diode range and one tone of 3 kHz cover the nine; 1u2 for 120n (+0.07 dB at 3 kHz, +12.3 dB at 110 Hz) needs a
// second tone.
TEST(Checks, OhmsDiodeRangeAndOneToneCoverTheNineMistakesOfTheDemoAndTheTenthNeedsASecondTone) {
    const CheckPlan plan = planOf("ABC");
    for (const std::size_t mistake : theNine(plan)) {
        EXPECT_TRUE(isCovered(plan, mistake, {CheckKind::ohms, CheckKind::diode}, 3000.0))
            << plan.mistakes[mistake].sentence;
    }
    const std::size_t tenth = mistakeOf(plan, MistakeKind::decade, "1µ2 fitted for 120n");
    EXPECT_FALSE(isCovered(plan, tenth, {CheckKind::ohms, CheckKind::diode}, 3000.0));
    EXPECT_TRUE(isCovered(plan, tenth, {}, 110.0));
}

TEST(Checks, TheSmallestSetSeesEverythingThatAnyCheckSees) {
    for (const char* letters : {"A", "B", "C", "D", "ABC", "ABCD"}) {
        const CheckPlan plan = planOf(letters);
        EXPECT_TRUE(plan.isSmallest) << letters;
        for (std::size_t mistake = 0; mistake < plan.mistakes.size(); ++mistake) {
            bool any = false;
            bool chosen = false;
            for (std::size_t k = 0; k < plan.checks.size(); ++k) {
                any = any || plan.sees(k, mistake);
            }
            for (const std::size_t k : plan.smallest) {
                chosen = chosen || plan.sees(k, mistake);
            }
            EXPECT_EQ(any, chosen) << letters << ": " << plan.mistakes[mistake].sentence;
        }
    }
}

TEST(Checks, BothLegsOfAnRcTakeTwoTones) {
    const CheckPlan plan = planOf("AC");
    const auto tones = std::count_if(plan.smallest.begin(), plan.smallest.end(),
                                     [&](std::size_t k) { return plan.checks[k].kind == CheckKind::tone; });
    EXPECT_GE(tones, 2);
}

// One way 0.58 V, the other 1.17 V, each +-0.05.
TEST(Checks, TheThirdDiodeIsReadBothWays) {
    const CheckPlan plan = planOf("B");
    int found = 0;
    for (const Check& check : plan.checks) {
        if (check.kind != CheckKind::diode) {
            continue;
        }
        ++found;
        const bool isFromOutput = check.red.words == "U1 pin 1 (output)";
        EXPECT_NEAR(*check.expected.nominal, isFromOutput ? 1.17 : 0.585, 0.005) << check.words();
        EXPECT_NEAR(*check.expected.high - *check.expected.low, 0.1, 1e-9);
        EXPECT_TRUE(check.hasChip);
    }
    EXPECT_EQ(found, 2);
}

// "No reading" where 1.17 V are expected: the first suspicion is the new diode reversed.
TEST(Judge, NoReadingInTheDiodeRangeSuspectsTheNewDiodeReversed) {
    const CheckPlan plan = planOf("B");
    const auto check = std::find_if(plan.checks.begin(), plan.checks.end(), [](const Check& each) {
        return each.kind == CheckKind::diode && each.expected.nominal > 1.0;
    });
    ASSERT_NE(check, plan.checks.end());
    const auto index = static_cast<std::size_t>(check - plan.checks.begin());
    const Judgement judged = judgeCheck(plan, index, std::nullopt);
    EXPECT_FALSE(judged.isInBand);
    ASSERT_FALSE(judged.suspects.empty());
    EXPECT_EQ(judged.suspects.front().kind, MistakeKind::reversed);
    EXPECT_THAT(judged.sentence, HasSubstr("First suspicion: D3 reversed"));
    EXPECT_TRUE(judgeCheck(plan, index, 1.15).isInBand);
    // 0.58 V there: the new diode is bridged or across.
    const Judgement single = judgeCheck(plan, index, 0.58);
    ASSERT_FALSE(single.suspects.empty());
    EXPECT_THAT(single.suspects.front().kind,
                testing::AnyOf(MistakeKind::bridged, MistakeKind::acrossNotInLine, MistakeKind::otherArm));
}

// 270R for 2k7 moves 110 Hz by -0.08 dB and 3 kHz by +15.1 dB.
TEST(Checks, AMistakeThatALowToneCannotSeeSaysWhatCan) {
    const CheckPlan plan = planOf("ABC");
    const std::string words = howToSee(plan, mistakeOf(plan, MistakeKind::decade, "270R fitted for 2k7"));
    EXPECT_THAT(words, HasSubstr("110 Hz cannot see it (−0.08 dB)"));
    EXPECT_THAT(words, HasSubstr("3.00 kHz (+15.1 dB)"));
    EXPECT_THAT(words, HasSubstr("ohms (270"));
}

TEST(Checks, AChipOnTheWayIsACaveat) {
    const CheckPlan plan = planOf("B");
    EXPECT_THAT(plan.notes, testing::Contains(HasSubstr("lift one leg to be sure")));
}

// "One leg of C4 to one leg of C4" tells nobody where the second probe goes.
TEST(Checks, NoCheckHasOneNameForTwoPlaces) {
    for (const auto& [name, letters] : {std::pair{"small-rooster", "AB"}, std::pair{"harbour-lamp", "ABCD"},
                                        std::pair{"quarry-bell", "ABC"}, std::pair{"night-ferry", "AB"}}) {
        const auto work = orderOfWork(test::demoJob(name, letters));
        ASSERT_TRUE(work) << work.error().message;
        std::size_t read = 0;
        for (const BenchStep& step : work->steps) {
            if (step.check && step.check->kind != CheckKind::tone) {
                EXPECT_NE(step.check->red.words, step.check->black.words) << name << ": " << step.title;
                ++read;
            }
        }
        EXPECT_GT(read, 5u) << name;
    }
}

}  // namespace
}  // namespace ohmwright
