// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/way_back.h"

#include "core/plan/apply.h"
#include "tests/support/planned_jobs.h"
#include "tests/support/random_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using test::nowOf;
using testing::ElementsAre;
using testing::HasSubstr;

/// By id, so that the order of fitting does not matter.
std::vector<Part> sortedParts(Circuit circuit) {
    std::sort(circuit.parts.begin(), circuit.parts.end(), [](const Part& a, const Part& b) { return a.id < b.id; });
    return circuit.parts;
}

TEST(WayBack, IsTheReverseOfFittingWithStockValues) {
    const auto back = wayBack(harbourLampWith("ABCD"));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_THAT(back->letters, ElementsAre("D", "C", "B", "A"));
    EXPECT_THAT(back->words, HasSubstr("C7 Clp back to 47n"));
    EXPECT_THAT(back->words, HasSubstr("R5 Rg back to 3k9"));
    EXPECT_THAT(back->words, HasSubstr("D3 out, leg of D2 back to its pad"));
    EXPECT_THAT(back->words, HasSubstr("C4 Cg back to 56n (printed 563)"));
    EXPECT_THAT(back->notExact, testing::Contains(HasSubstr("D2: where its lead was cut")));
}

// Stock's gain resistor reads 3.90 k in circuit; both diode ways 0.58 V again.
TEST(WayBack, ItsReadingsAreThoseOfStock) {
    const auto back = wayBack(harbourLampWith("ABC"));
    ASSERT_TRUE(back) << back.error().message;
    bool hasLeg = false;
    int diodes = 0;
    for (const BenchStep& step : back->work.steps) {
        if (step.check && step.check->kind == CheckKind::ohms && step.letter == "C" && step.nominal) {
            EXPECT_NEAR(*step.nominal, 3900.0, 2.0);
            hasLeg = true;
        }
        if (step.check && step.check->kind == CheckKind::diode && step.letter == "B") {
            EXPECT_NEAR(*step.nominal, 0.585, 0.005);
            ++diodes;
        }
    }
    EXPECT_TRUE(hasLeg);
    EXPECT_EQ(diodes, 2);
}

TEST(WayBack, AppliedToTheModifiedCircuitItGivesStock) {
    for (const char* letters : {"A", "B", "C", "D", "AB", "ABC", "ABCD"}) {
        const Job job = harbourLampWith(letters);
        const Circuit now = nowOf(job);
        const Circuit again = withEdits(now, boardEdits(now, job.stock));
        EXPECT_EQ(sortedParts(again), sortedParts(job.stock)) << letters;
        EXPECT_EQ(again.openNets, job.stock.openNets) << letters;
    }
}

/// Random mods on the demo, of every kind that can be applied.
TEST(WayBack, GivesStockWhateverTheModsWere) {
    const Job job = harbourLampWith("");
    int applied = 0;
    for (std::uint32_t seed = 1; seed <= 400; ++seed) {
        test::Chance chance(seed);
        Plan plan;
        const std::vector<Part>& parts = job.stock.parts;
        for (int k = 0; k < 3; ++k) {
            Mod mod;
            mod.id = "mod " + std::to_string(k);
            mod.letter = std::string(1, static_cast<char>('A' + k));
            const Part& part = parts[std::size_t(chance.below(int(parts.size())))];
            NewPart fitted;
            fitted.reference = "X" + std::to_string(k);
            fitted.value = 10e3;
            const int pin = chance.below(int(std::max<std::size_t>(part.nets.size(), 1)));
            switch (chance.below(5)) {
                case 0:
                    mod.change = SwapValue{part.id, part.value * 1.5};
                    break;
                case 1:
                    mod.change = AddInSeries{part.id, pin, fitted, false};
                    break;
                case 2:
                    mod.change = AddAcross{part.id, 0, 1, fitted, false};
                    break;
                case 3:
                    mod.change = Lift{part.id, pin};
                    break;
                default:
                    mod.change = Bridge{part.id, 0, 1};
            }
            plan.push_back(mod);
        }
        const auto now = applyPlan(job.stock, plan);
        if (!now) {
            continue;
        }
        ++applied;
        EXPECT_EQ(sortedParts(withEdits(*now, boardEdits(*now, job.stock))), sortedParts(job.stock)) << seed;
    }
    EXPECT_GT(applied, 40);
}

// What a mod had fitted is the shop's or the customer's; the bag holds what came out of the unit, and that goes in.
TEST(WayBack, TheFittedPartDoesNotGoIntoTheBagOfOldParts) {
    const auto back = wayBack(harbourLampWith("A"));
    ASSERT_TRUE(back) << back.error().message;
    std::string out, in;
    for (const BenchStep& step : back->work.steps) {
        for (const StepLine& line : step.lines) {
            (step.kind == StepKind::takeOut ? out : in) += line.word + ": " + line.text + "\n";
        }
    }
    EXPECT_THAT(out, HasSubstr("Keep: the part that was fitted: to the shop or to the customer, as agreed"));
    EXPECT_THAT(out, testing::Not(HasSubstr("bag")));
    EXPECT_THAT(in, HasSubstr("From: the customer's bag; a new one of the same value and type where it is missing"));

    const auto forth = orderOfWork(harbourLampWith("A"));
    ASSERT_TRUE(forth);
    const auto takesOut = std::find_if(forth->steps.begin(), forth->steps.end(),
                                       [](const BenchStep& step) { return step.kind == StepKind::takeOut; });
    ASSERT_NE(takesOut, forth->steps.end());
    EXPECT_THAT(takesOut->lines.back().text, HasSubstr("old part into the customer's bag"));
}

// A swap is undone to the letter with the part out of the bag: it is not listed as lost.
TEST(WayBack, WhatComesOutOfTheBagIsNoLoss) {
    const auto back = wayBack(harbourLampWith("AC"));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_THAT(back->notExact, testing::IsEmpty());
    EXPECT_THAT(back->fromBag, ElementsAre("R5 Rg 3k9 (printed orange-white-red-gold)", "C4 Cg 56n (printed 563)"));
}

}  // namespace
}  // namespace ohmwright
