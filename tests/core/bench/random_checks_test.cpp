// What must hold of the checks of any plan on any board: plans made at random on each demo.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/checks.h"

#include "core/bench/bench_state.h"
#include "core/bench/judge.h"
#include "tests/support/bench_plans.h"
#include "tests/support/demo_jobs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

using test::Chance;

struct Worked {
    Circuit now;
    std::string title;
    CheckPlan checks;
};

bool isSeenBy(const CheckPlan& plan, std::size_t mistake, const std::vector<std::size_t>& checks) {
    return std::any_of(checks.begin(), checks.end(), [&](std::size_t k) { return plan.sees(k, mistake); });
}

std::vector<std::size_t> allChecks(const CheckPlan& plan) {
    std::vector<std::size_t> all(plan.checks.size());
    for (std::size_t k = 0; k < all.size(); ++k) {
        all[k] = k;
    }
    return all;
}

void expectTheFinishedBoardToPass(const Worked& worked, const Setting& setting) {
    BenchState board(worked.now, setting);
    for (const Check& check : worked.checks.checks) {
        const Result<CheckReading> reading = board.read(check);
        ASSERT_TRUE(reading) << worked.title << check.words() << ": " << reading.error().message;
        EXPECT_TRUE(check.expected.holds(*reading)) << worked.title << check.words();
    }
}

/// Readings that a mistake cannot reach are taken over from the plan; solved one by one they are the same.
void expectReadingsOfEachMistakesOwnBoard(const Worked& worked, const Setting& setting) {
    const CheckPlan& plan = worked.checks;
    for (std::size_t row = 0; row < plan.mistakes.size(); ++row) {
        BenchState wrong(plan.mistakes[row].circuit, setting);
        for (std::size_t k = 0; k < plan.checks.size(); ++k) {
            const Result<CheckReading> direct = wrong.read(plan.checks[k]);
            if (!direct) {
                continue;  // counts as unseen by this check
            }
            const std::string where = worked.title + plan.mistakes[row].sentence + ": " + plan.checks[k].words();
            ASSERT_EQ(direct->has_value(), plan.readings[row][k].has_value()) << where;
            if (*direct && **direct != *plan.readings[row][k]) {  // silence is −∞ dB on both
                EXPECT_NEAR(**direct, *plan.readings[row][k], 1e-6 + 1e-6 * std::abs(**direct)) << where;
            }
        }
    }
}

/// It sees what any check sees, and every one of it is needed.
/// @return how many mistakes are seen.
std::size_t expectTheSmallestSet(const Worked& worked) {
    const CheckPlan& plan = worked.checks;
    std::size_t seen = 0;
    for (std::size_t row = 0; row < plan.mistakes.size(); ++row) {
        const bool any = isSeenBy(plan, row, allChecks(plan));
        seen += any ? 1 : 0;
        EXPECT_EQ(isSeenBy(plan, row, plan.smallest), any) << worked.title << plan.mistakes[row].sentence;
        EXPECT_EQ(std::count(plan.unseen.begin(), plan.unseen.end(), row), any ? 0 : 1) << worked.title;
    }
    // A second tone is taken on purpose where both legs of an RC are new.
    const bool hasSecondTone = std::any_of(plan.notes.begin(), plan.notes.end(), [](const std::string& note) {
        return note.find("one tone alone proves neither") != std::string::npos;
    });
    for (std::size_t k = 0; k < plan.smallest.size(); ++k) {
        std::vector<std::size_t> others = plan.smallest;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(k));
        bool isMissed = hasSecondTone && plan.checks[plan.smallest[k]].kind == CheckKind::tone;
        for (std::size_t row = 0; row < plan.mistakes.size(); ++row) {
            isMissed = isMissed || (isSeenBy(plan, row, plan.smallest) && !isSeenBy(plan, row, others));
        }
        EXPECT_TRUE(isMissed) << worked.title << plan.checks[plan.smallest[k]].words();
    }
    return seen;
}

/// What the meter shows with a mistake on the board brings that mistake among the suspects.
void expectReadingsToNameTheirMistake(const Worked& worked) {
    const CheckPlan& plan = worked.checks;
    for (std::size_t row = 0; row < plan.mistakes.size(); ++row) {
        for (const std::size_t k : plan.smallest) {
            if (!plan.sees(k, row)) {
                continue;
            }
            const Judgement judged = judgeCheck(plan, k, plan.readings[row][k]);
            EXPECT_FALSE(judged.isInBand);
            EXPECT_TRUE(
                std::any_of(judged.suspects.begin(), judged.suspects.end(),
                            [&](const Suspect& suspect) { return suspect.sentence == plan.mistakes[row].sentence; }))
                << worked.title << plan.checks[k].words() << ": " << plan.mistakes[row].sentence;
        }
    }
}

class RandomPlans : public testing::TestWithParam<const char*> {};

TEST_P(RandomPlans, AreProvenByTheirChecks) {
    constexpr int plans = 12;
    Job job = test::demoJob(GetParam());
    Chance chance(2026);
    std::size_t seen = 0;
    for (int round = 0; round < plans; ++round) {
        job.plan = test::benchPlan(chance, job);
        ASSERT_FALSE(job.plan.empty());
        Worked worked;
        for (const Mod& mod : job.plan) {
            worked.title += mod.letter + ": " + describeChange(job.stock, mod.change) + "  ";
        }
        worked.now = *nowCircuit(job);
        Result<CheckPlan> checks = planChecks(boardEdits(job.stock, worked.now), worked.now, job.setting);
        ASSERT_TRUE(checks) << worked.title << checks.error().message;
        worked.checks = *std::move(checks);
        expectTheFinishedBoardToPass(worked, job.setting);
        expectReadingsOfEachMistakesOwnBoard(worked, job.setting);
        seen += expectTheSmallestSet(worked);
        expectReadingsToNameTheirMistake(worked);
    }
    EXPECT_GT(seen, 60U);
}

INSTANTIATE_TEST_SUITE_P(Demos, RandomPlans,
                         testing::Values("harbour-lamp", "quarry-bell", "small-rooster", "moss-engine", "paper-boat",
                                         "night-ferry", "three-hills"),
                         [](const auto& each) {
                             std::string name = each.param;
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

}  // namespace
}  // namespace ohmwright
