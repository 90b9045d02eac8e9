// Corrections and mods made by chance: the order in which they are made is not in the result.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/apply.h"
#include "core/plan/correct.h"
#include "core/plan/edits.h"
#include "core/plan/findings.h"
#include "tests/support/demo_job.h"
#include "tests/support/disguise.h"
#include "tests/support/random_jobs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <set>
#include <tuple>

namespace ohmwright {
namespace {

using test::Chance;

std::optional<Finding> randomFinding(Chance& chance, const Circuit& stock, const Part& part) {
    const double factor = 0.5 + chance.share();
    switch (chance.below(6)) {
        case 0:
            return hasValue(part.kind) ? std::optional<Finding>(ValueFound{part.value * factor, {}}) : std::nullopt;
        case 1:
            return hasValue(part.kind) ? std::optional<Finding>(ToleranceFound{0.02 * factor}) : std::nullopt;
        case 2:
            return part.kind == PartKind::potentiometer
                       ? std::optional<Finding>(LawFound{Taper::reverseLogarithmic, 0.2 * factor})
                       : std::nullopt;
        case 3:
            return ReferenceFound{"Z" + std::to_string(chance.below(900))};
        case 4: {
            const Part& other = chance.of(stock.parts);
            const int pin = chance.below(std::max(1, static_cast<int>(part.nets.size())));
            return part.nets.empty() || other.nets.empty() ? std::nullopt
                                                           : std::optional<Finding>(LegFound{pin, other.nets[0]});
        }
        default:
            return PresenceFound{};
    }
}

/// Corrections, each of another thing; a part that is not there has no other one.
std::vector<Correction> randomCorrections(Chance& chance, const Circuit& stock, std::set<PartId>& touched) {
    std::vector<Correction> corrections;
    std::set<PartId> missing;
    for (int i = 0; i < 12; ++i) {
        const Part& part = chance.of(stock.parts);
        Correction correction;
        correction.part = part.id;
        const std::optional<Finding> finding = randomFinding(chance, stock, part);
        if (!finding || missing.contains(part.id)) {
            continue;
        }
        const bool isPresence = std::holds_alternative<PresenceFound>(*finding);
        const bool isTaken = std::any_of(corrections.begin(), corrections.end(), [&](const Correction& other) {
            return other.part == part.id && (isPresence || isSameThing(other.found, *finding));
        });
        if (isTaken) {
            continue;
        }
        if (isPresence) {
            missing.insert(part.id);
        }
        correction.found = *finding;
        correction.reason = static_cast<CorrectionReason>(chance.below(3));
        touched.insert(part.id);
        corrections.push_back(correction);
    }
    return corrections;
}

/// Mods on parts that are not corrected, and values of parts that are.
std::vector<Change> randomMods(Chance& chance, const Circuit& stock, const std::set<PartId>& touched) {
    std::vector<Change> changes;
    for (int i = 0; i < 5; ++i) {
        const Part& part = chance.of(stock.parts);
        if (hasValue(part.kind) && chance.oneIn(2)) {
            changes.emplace_back(SwapValue{part.id, part.value * (1.6 + chance.share())});
        } else if (!touched.contains(part.id) && part.nets.size() == 2) {
            const NewPart fitted{"R9" + std::to_string(i), PartKind::resistor, 1e3 * (1 + i), {}, 0.05, {}};
            changes.emplace_back(AddAcross{part.id, 0, 1, fitted, false});
        }
    }
    return changes;
}

/// What the order of doing may leave different: the order of lists without an order of their own.
Job inOneOrder(Job job) {
    std::sort(job.stock.openNets.begin(), job.stock.openNets.end());
    const auto key = [](const Correction& each) {
        const auto* leg = std::get_if<LegFound>(&each.found);
        return std::tuple(each.part, each.found.index(), leg != nullptr ? leg->pin : 0);
    };
    std::sort(job.corrections.begin(), job.corrections.end(),
              [&](const Correction& a, const Correction& b) { return key(a) < key(b); });
    for (Correction& correction : job.corrections) {
        if (auto* presence = std::get_if<PresenceFound>(&correction.drawn)) {
            presence->seats.clear();  // Counted among what was there then.
            presence->index = presence->knobIndex = 0;
        }
    }
    return job;
}

struct Step {
    int number = 0;
    std::function<Result<Job>(const Job&)> make;
};

struct Outcome {
    Job job;
    std::set<int> refused;  ///< Numbers of steps.
};

Outcome done(Job job, const std::vector<Step>& steps) {
    Outcome outcome{std::move(job), {}};
    for (const Step& step : steps) {
        if (Result<Job> next = step.make(outcome.job)) {
            outcome.job = *std::move(next);
        } else {
            outcome.refused.insert(step.number);
        }
    }
    return outcome;
}

std::vector<Step> without(std::vector<Step> steps, const std::set<int>& numbers) {
    std::erase_if(steps, [&numbers](const Step& step) { return numbers.contains(step.number); });
    return steps;
}

/// What the plan's mods say of the circuit that they are fitted to: values as swapped last, parts across others.
void expectFitted(const Job& job) {
    const Result<Circuit> now = nowCircuit(job);
    ASSERT_TRUE(now) << now.error().message;
    std::map<PartId, double> values;
    for (const Mod& mod : job.plan) {
        if (const auto* swap = std::get_if<SwapValue>(&mod.change)) {
            values[swap->part] = swap->value;
        } else if (const auto* across = std::get_if<AddAcross>(&mod.change)) {
            const Part* fitted = findPartByReference(*now, across->fitted.reference);
            ASSERT_NE(fitted, nullptr);
            EXPECT_EQ(fitted->value, across->fitted.value);
            EXPECT_EQ(fitted->nets, findPart(job.stock, across->part)->nets);
        }
    }
    for (const Part& part : job.stock.parts) {
        const double wanted = values.contains(part.id) ? values.at(part.id) : part.value;
        EXPECT_EQ(findPart(*now, part.id)->value, wanted) << part.id;
    }
}

// A job file may say anything of its corrections: it is answered in words.
TEST(CorrectAnything, CorrectionsOfChanceAreTakenBackOrRefused) {
    int takenBack = 0;
    int refused = 0;
    for (std::uint32_t seed = 1; seed <= 400; ++seed) {
        Chance chance(seed);
        Job job = test::randomJob(chance);
        job.visit.state = VisitState::draft;
        for (std::size_t k = 0; k < job.corrections.size(); ++k) {
            Correction& correction = job.corrections[k];
            if (!job.stock.parts.empty()) {
                correction.part = chance.of(job.stock.parts).id;
            }
            EXPECT_FALSE(correctionWords(job.stock, correction).empty());
            const Result<Finding> now = currentReading(job.stock, correction.part, correction.found);
            const bool holds = now && isSameFinding(*now, correction.found);
            EXPECT_TRUE(!holds || !drawingSays(job, correction.part).empty());
            for (const ModAndCorrection& met : modsOnCorrected(job, correction)) {
                const auto isIt = [&](const Mod& mod) { return mod.id == met.mod && mod.on; };
                EXPECT_TRUE(std::any_of(job.plan.begin(), job.plan.end(), isIt)) << met.mod;
                EXPECT_FALSE(met.sentence.empty());
            }
            const Result<Job> back = takeBackCorrection(job, k);
            const Result<Job> again = correct(job, correction);
            for (const Result<Job>* edited : {&back, &again}) {
                ++(*edited ? takenBack : refused);
                EXPECT_TRUE(*edited || !edited->error().message.empty());
            }
        }
        const bool isOtherRevision =
            std::any_of(job.corrections.begin(), job.corrections.end(),
                        [](const Correction& each) { return each.reason == CorrectionReason::boardDiffers; });
        EXPECT_EQ(revisionWords(job) != job.unit.boardRevision, isOtherRevision);
    }
    EXPECT_GT(takenBack, 5);
    EXPECT_GT(refused, 5);
}

class CorrectOrder : public testing::TestWithParam<std::string> {};

TEST_P(CorrectOrder, CorrectionsAndModsMadeInAnyOrderGiveTheSame) {
    Job start = test::jobIn(test::demoJobPath(GetParam()));
    start.plan.clear();
    start.setting.throws.clear();
    for (std::uint32_t seed = 1; seed <= 15; ++seed) {
        SCOPED_TRACE(seed);
        Chance chance(seed);
        std::set<PartId> touched;
        std::vector<Step> corrections;
        int number = 0;
        for (const Correction& each : randomCorrections(chance, start.stock, touched)) {
            corrections.push_back({++number, [each](const Job& job) { return correct(job, each); }});
        }
        std::vector<Step> mods;
        for (const Change& each : randomMods(chance, start.stock, touched)) {
            mods.push_back({++number, [each](const Job& job) { return addMod(job, each); }});
        }
        std::vector<Step> modsFirst = mods;
        modsFirst.insert(modsFirst.end(), corrections.begin(), corrections.end());
        // Mods keep their own order, which is that of fitting; corrections come in another, anywhere between them.
        std::vector<Step> mixed = mods;
        for (const Step& correction : corrections) {
            mixed.insert(mixed.begin() + chance.below(static_cast<int>(mixed.size()) + 1), correction);
        }
        // What one order refuses (a part that another step needs) is left out of both.
        std::set<int> refused;
        Outcome one;
        Outcome two;
        do {
            one = done(start, without(modsFirst, refused));
            two = done(start, without(mixed, refused));
            refused.insert(one.refused.begin(), one.refused.end());
            refused.insert(two.refused.begin(), two.refused.end());
        } while (!one.refused.empty() || !two.refused.empty());
        ASSERT_LE(static_cast<int>(refused.size()), number / 2);
        ASSERT_EQ(inOneOrder(one.job).stock, inOneOrder(two.job).stock);
        ASSERT_EQ(inOneOrder(one.job).corrections, inOneOrder(two.job).corrections);
        ASSERT_EQ(one.job.plan, two.job.plan);
        ASSERT_EQ(one.job.setting, two.job.setting);
        expectFitted(one.job);
    }
}

// The other way round: mods that are fitted to the drawing, and the board put right underneath them.
TEST_P(CorrectOrder, AFindingPutUnderFittedModsIsTheSameAsBelowThem) {
    Job start = test::jobIn(test::demoJobPath(GetParam()));
    for (Mod& mod : start.plan) {
        mod.on = !std::holds_alternative<FitSwitch>(mod.change);
    }
    const Result<Circuit> now = nowCircuit(start);
    ASSERT_TRUE(now) << now.error().message;
    std::set<PartId> ofMods;
    for (const Mod& mod : start.plan) {
        for (const SingleChange& change : everySingleChange(mod.change)) {
            ofMods.insert(targetOf(change));
        }
    }
    int compared = 0;
    Chance chance(7);
    for (int i = 0; i < 200; ++i) {
        const Part& part = chance.of(start.stock.parts);
        const std::optional<Finding> finding = randomFinding(chance, start.stock, part);
        if (!finding || ofMods.contains(part.id)) {
            continue;
        }
        const auto below = putFinding(start.stock, part.id, *finding);
        const auto above = putFinding(*now, part.id, *finding);
        ASSERT_EQ(below.hasValue(), above.hasValue());
        if (!below) {
            continue;
        }
        const Result<Circuit> fitted = applyPlan(below->stock, start.plan);
        ASSERT_TRUE(fitted) << fitted.error().message;
        EXPECT_EQ(fitted->parts, above->stock.parts);
        EXPECT_EQ(fitted->knobs, above->stock.knobs);
        EXPECT_EQ(fitted->stages, above->stock.stages);
        ++compared;
    }
    EXPECT_GE(compared, 40);
}

INSTANTIATE_TEST_SUITE_P(Demos, CorrectOrder, testing::ValuesIn(test::allDemos()), [](const auto& demo) {
    std::string name = demo.param;
    std::erase(name, '-');
    return name;
});

}  // namespace
}  // namespace ohmwright
