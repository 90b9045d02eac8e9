// What must hold of the checks of any plan on any board: plans made at random on each demo.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/checks.h"
#include "core/bench/judge.h"
#include "tests/support/bench_plans.h"
#include "tests/support/demo_jobs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
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

class RandomPlans : public testing::TestWithParam<const char*> {
protected:
    static constexpr int plans = 12;

    RandomPlans() : m_job(test::demoJob(GetParam())) {}

    void forEachPlan(const std::function<void(const Worked&)>& look) {
        Chance chance(2026);
        for (int round = 0; round < plans; ++round) {
            m_job.plan = test::benchPlan(chance, m_job);
            ASSERT_FALSE(m_job.plan.empty());
            Worked worked;
            for (const Mod& mod : m_job.plan) {
                worked.title += mod.letter + ": " + describeChange(m_job.stock, mod.change) + "  ";
            }
            worked.now = *nowCircuit(m_job);
            Result<CheckPlan> checks = planChecks(boardEdits(m_job.stock, worked.now), worked.now, m_job.setting);
            ASSERT_TRUE(checks) << worked.title << checks.error().message;
            worked.checks = *std::move(checks);
            look(worked);
        }
    }

    Job m_job;
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

TEST_P(RandomPlans, TheFinishedBoardPassesEveryCheck) {
    forEachPlan([&](const Worked& worked) {
        BenchState board(worked.now, m_job.setting);
        for (const Check& check : worked.checks.checks) {
            const Result<CheckReading> reading = board.read(check);
            ASSERT_TRUE(reading) << worked.title << check.words() << ": " << reading.error().message;
            EXPECT_TRUE(check.expected.holds(*reading)) << worked.title << check.words();
        }
    });
}

// Readings that a mistake cannot reach are taken over from the plan; solved one by one they are the same.
TEST_P(RandomPlans, AMistakesReadingsAreThoseOfItsBoard) {
    forEachPlan([&](const Worked& worked) {
        const CheckPlan& plan = worked.checks;
        for (std::size_t row = 0; row < plan.mistakes.size(); ++row) {
            BenchState wrong(plan.mistakes[row].circuit, m_job.setting);
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
    });
}

TEST_P(RandomPlans, TheSmallestSetSeesWhatAnyCheckSeesAndEveryOneOfItIsNeeded) {
    std::size_t seen = 0;
    forEachPlan([&](const Worked& worked) {
        const CheckPlan& plan = worked.checks;
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
    });
    EXPECT_GT(seen, 60U);
}

// What the meter shows with a mistake on the board brings that mistake among the suspects.
TEST_P(RandomPlans, AReadingOfAMistakeNamesIt) {
    forEachPlan([&](const Worked& worked) {
        const CheckPlan& plan = worked.checks;
        for (std::size_t row = 0; row < plan.mistakes.size(); ++row) {
            for (const std::size_t k : plan.smallest) {
                if (!plan.sees(k, row)) {
                    continue;
                }
                const Judgement judged = judgeCheck(plan, k, plan.readings[row][k]);
                EXPECT_FALSE(judged.isInBand);
                EXPECT_TRUE(std::any_of(
                    judged.suspects.begin(), judged.suspects.end(),
                    [&](const Suspect& suspect) { return suspect.sentence == plan.mistakes[row].sentence; }))
                    << worked.title << plan.checks[k].words() << ": " << plan.mistakes[row].sentence;
            }
        }
    });
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
