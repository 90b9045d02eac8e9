// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/targets.h"

#include "core/circuit/setting.h"
#include "core/files/drawer_file.h"
#include "core/plan/apply.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace ohmwright {
namespace {

using testing::HasSubstr;

Drawer demoDrawer() {
    return *loadDrawer(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json");
}

std::vector<Want> wantsOf(std::initializer_list<const char*> words) {
    std::vector<Want> wants;
    for (const char* word : words) wants.push_back(*readWant(word));
    return wants;
}

Job stockJob() {
    Job job = test::harbourLamp();
    job.plan.clear();
    return job;
}

TargetList found(const Job& job, const TargetRequest& request) {
    const auto list = findTargets(job, request);
    EXPECT_TRUE(list) << (list ? "" : list.error().message);
    return list ? *list : TargetList();
}

// ---- The exhaustive search of corner and plateau: closed forms written here ----------------------------------------

/// One value of R5 or C4 with the lots that it takes.
struct Build {
    double value;
    std::vector<std::string> lots;
};

std::vector<Build> buildsOf(const Drawer& drawer, PartKind kind, double stays) {
    std::vector<Build> builds{{stays, {}}};
    const auto valueOfLot = [](const DrawerLot& lot) { return lot.measured ? *lot.measured : lot.value; };
    for (std::size_t a = 0; a < drawer.lots.size(); ++a) {
        const DrawerLot& first = drawer.lots[a];
        if (first.kind != kind || first.quantity < 1) continue;
        builds.push_back({valueOfLot(first), {first.id}});
        for (std::size_t b = a; b < drawer.lots.size(); ++b) {
            const DrawerLot& second = drawer.lots[b];
            if (second.kind != kind || second.quantity < (a == b ? 2 : 1)) continue;
            const double x = valueOfLot(first);
            const double y = valueOfLot(second);
            builds.push_back({x + y, {first.id, second.id}});
            builds.push_back({1.0 / (1.0 / x + 1.0 / y), {first.id, second.id}});
        }
    }
    return builds;
}

struct Exhausted {
    double score;
    double ohms, farads;
};

/// The best of each number of parts taken, from every build there is.
std::vector<std::vector<Exhausted>> exhaust(const Drawer& drawer, double cornerHz, double plateauDb,
                                            double feedbackOhms) {
    std::vector<std::vector<Exhausted>> best(5);
    const auto capacitors = buildsOf(drawer, PartKind::capacitor, 56e-9);
    for (const Build& r : buildsOf(drawer, PartKind::resistor, 3900.0)) {
        const double plateau = (20.0 * std::log10(1.0 + feedbackOhms / r.value) - plateauDb) / 0.1;
        if (std::abs(plateau) > 60.0) continue;
        for (const Build& c : capacitors) {
            const double corner = 100.0 * std::log(1.0 / (2.0 * std::numbers::pi * r.value * c.value) / cornerHz);
            const double score = std::hypot(corner, plateau);
            auto& list = best[r.lots.size() + c.lots.size()];
            list.push_back({score, r.value, c.value});
            if (list.size() > 4000) {
                std::nth_element(list.begin(), list.begin() + 20, list.end(),
                                 [](const Exhausted& a, const Exhausted& b) { return a.score < b.score; });
                list.resize(20);
            }
        }
    }
    for (auto& list : best)
        std::sort(list.begin(), list.end(), [](const Exhausted& a, const Exhausted& b) { return a.score < b.score; });
    return best;
}

double rounded(double score) {
    return std::round(score / 0.1);
}

// W5: corner 590 Hz and plateau gain 29 dB with the demo drawer. The feedback at half drive is 33k and 15 % of 250k.
TEST(Targets, TheListIsWhatAnExhaustiveSearchFinds) {
    const Drawer drawer = demoDrawer();
    const Job job = stockJob();
    const TargetList list = found(job, {wantsOf({"gain_leg_corner=590", "plateau_gain=29"}), {"r5", "c4"}, drawer});
    const auto best = exhaust(drawer, 590.0, 29.0, 33000.0 + 0.15 * 250000.0);

    std::array<std::vector<const TargetAnswer*>, 5> byTaken;
    for (const TargetAnswer& answer : list.answers) byTaken[answer.taken].push_back(&answer);
    double nearestOfFewer = 1e300;
    for (std::size_t taken = 1; taken <= 4; ++taken) {
        // As many as are nearer than all that take fewer parts, four at most.
        std::vector<double> expected;
        for (const Exhausted& one : best[taken]) {
            if (rounded(one.score) < nearestOfFewer && expected.size() < 4) expected.push_back(one.score);
        }
        ASSERT_EQ(byTaken[taken].size(), expected.size()) << taken << " parts";
        for (std::size_t k = 0; k < expected.size(); ++k) {
            EXPECT_NEAR(byTaken[taken][k]->score, expected[k], taken < 4 ? 1e-6 : 0.05) << taken << " parts, " << k;
        }
        if (!best[taken].empty()) nearestOfFewer = std::min(nearestOfFewer, rounded(best[taken].front().score));
    }
    ASSERT_FALSE(byTaken[2].empty()) << "the best two-part answer is in the list";
    EXPECT_GT(list.considered, 10000U);
}

TEST(Targets, EveryAnswerIsSolvedAnewAndInStock) {
    const Drawer drawer = demoDrawer();
    const Job job = stockJob();
    const TargetList list = found(job, {wantsOf({"gain_leg_corner=590", "plateau_gain=29"}), {"r5", "c4"}, drawer});
    double last = 0.0;
    for (const TargetAnswer& answer : list.answers) {
        Circuit circuit = job.stock;
        int letter = 0;
        for (const Change& change : changesOf(circuit, answer)) {
            const auto changed = applyMod(circuit, {"m" + std::to_string(letter), "A", "", change, true});
            ++letter;
            ASSERT_TRUE(changed) << changed.error().message;
            circuit = *changed;
        }
        const auto state = measureLinear(circuit, job.setting, {.pointsPerDecade = 1});
        ASSERT_TRUE(state);
        EXPECT_NEAR(*findFigure(state->figures, "gain_leg_corner")->value, *answer.figures[0].value, 1e-6);
        EXPECT_NEAR(*findFigure(state->figures, "plateau_gain")->value, *answer.figures[1].value, 1e-9);
        std::map<std::string, int> taken;
        for (const PartChoice& choice : answer.choices)
            for (const ValueOnHand& member : choice.combination.members) ++taken[member.lot];
        std::size_t count = 0;
        for (const auto& [lot, quantity] : taken) {
            ASSERT_NE(findLot(drawer, lot), nullptr);
            EXPECT_GE(availableFor(*findLot(drawer, lot)), quantity) << lot;
            count += std::size_t(quantity);
        }
        EXPECT_EQ(count, answer.taken);
        EXPECT_TRUE(answer.isInStock);
        EXPECT_GE(rounded(answer.score), last);
        last = rounded(answer.score);
    }
}

TEST(Targets, WhatOtherJobsReservedIsNotTaken) {
    Drawer drawer = demoDrawer();
    const Job job = stockJob();
    const TargetRequest request{wantsOf({"gain_leg_corner=590", "plateau_gain=29"}), {"r5", "c4"}, drawer};
    const TargetList before = found(job, request);
    std::set<std::string> lots;
    for (const PartChoice& choice : before.answers.front().choices)
        for (const ValueOnHand& member : choice.combination.members) lots.insert(member.lot);
    TargetRequest reserved = request;
    for (DrawerLot& lot : reserved.drawer.lots)
        if (lots.contains(lot.id)) lot.reserved["QB-0007/1"] = lot.quantity;
    for (const TargetAnswer& answer : found(job, reserved).answers)
        for (const PartChoice& choice : answer.choices)
            for (const ValueOnHand& member : choice.combination.members) EXPECT_FALSE(lots.contains(member.lot));
    reserved.forJob = "QB-0007/1";
    EXPECT_EQ(found(job, reserved).answers.front().score, before.answers.front().score);
}

// Solved figures against a search over every single part: each of them measured with the whole set of figures.
TEST(Targets, SolvedFiguresRankAsAnExhaustiveSearchDoes) {
    Drawer drawer = demoDrawer();
    std::erase_if(drawer.lots, [](const DrawerLot& lot) {
        return (lot.kind == PartKind::resistor && (lot.value < 1200 || lot.value > 9000)) ||
               (lot.kind == PartKind::capacitor && (lot.value < 20e-9 || lot.value > 400e-9));
    });
    const Job job = stockJob();
    TargetRequest request{wantsOf({"low_corner=420", "response_330=18.5"}), {"r5", "c4"}, drawer};
    request.withPairs = false;
    const TargetList list = found(job, request);
    double best = 1e300;
    double bestOhms = 0.0;
    double bestFarads = 0.0;
    for (const DrawerLot& r : drawer.lots) {
        for (const DrawerLot& c : drawer.lots) {
            if (r.kind != PartKind::resistor || c.kind != PartKind::capacitor) continue;
            Circuit circuit = job.stock;
            findPart(circuit, "r5")->value = valueOf(r);
            findPart(circuit, "c4")->value = valueOf(c);
            const auto state = measureLinear(circuit, job.setting, {.pointsPerDecade = 1});
            ASSERT_TRUE(state);
            const double corner = 100.0 * std::log(*findFigure(state->figures, "low_corner")->value / 420.0);
            const double response = (*findFigure(state->figures, "response_330")->value - 18.5) / 0.1;
            if (std::hypot(corner, response) < best) {
                best = std::hypot(corner, response);
                bestOhms = valueOf(r);
                bestFarads = valueOf(c);
            }
        }
    }
    const auto twoParts = std::find_if(list.answers.begin(), list.answers.end(),
                                       [](const TargetAnswer& answer) { return answer.taken == 2; });
    ASSERT_NE(twoParts, list.answers.end());
    EXPECT_NEAR(twoParts->score, best, 1e-6);
    EXPECT_DOUBLE_EQ(twoParts->choices[0].combination.value, bestOhms);
    EXPECT_DOUBLE_EQ(twoParts->choices[1].combination.value, bestFarads);
}

TEST(Targets, ALevelIsReachedByOnePart) {
    const Job job = stockJob();
    TargetRequest request{wantsOf({"level=-26"}), {"c4"}, demoDrawer()};
    request.withPairs = false;
    const TargetList list = found(job, request);
    ASSERT_FALSE(list.answers.empty());
    Circuit circuit = job.stock;
    for (const PartChoice& choice : list.answers.front().choices)
        findPart(circuit, choice.part)->value = choice.combination.value;
    EXPECT_NEAR(*measureLevelDbv(circuit, job.setting), *list.answers.front().figures[0].value, 1e-6);
    EXPECT_LT(list.answers.front().score, 3.0) << "within 0.3 dB";
}

TEST(Targets, NoDrawerMeansAssumedStock) {
    const Job job = stockJob();
    const TargetList list = found(job, {wantsOf({"gain_leg_corner=590"}), {"c4"}, {}});
    EXPECT_FALSE(list.answers.front().isInStock);
    EXPECT_THAT(list.note, HasSubstr("assumed stock"));
    // 1/(2 pi 3k9 68n) is 600.1 Hz, with 82n 497.7: the nearest of E12.
    const auto single = std::find_if(list.answers.begin(), list.answers.end(),
                                     [](const TargetAnswer& answer) { return answer.taken == 1; });
    ASSERT_NE(single, list.answers.end());
    EXPECT_NEAR(single->choices[0].combination.value, 68e-9, 1e-15);
}

TEST(Targets, WhatCannotBeAskedIsRefused) {
    const Job job = stockJob();
    const auto message = [&](const TargetRequest& request) {
        const auto list = findTargets(job, request);
        return list ? std::string("no error") : list.error().message;
    };
    EXPECT_THAT(message({{}, {"r5"}, {}}), HasSubstr("one to six"));
    EXPECT_THAT(message({wantsOf({"level=-20"}), {}, {}}), HasSubstr("one to four"));
    EXPECT_THAT(message({wantsOf({"level=-20"}), {"q1"}, {}}), HasSubstr("no value"));
    EXPECT_THAT(message({wantsOf({"level=-20"}), {"r99"}, {}}), HasSubstr("r99"));
    EXPECT_THAT(message({wantsOf({"gain_leg_corner=-5"}), {"r5"}, {}}), HasSubstr("cannot have"));
    EXPECT_FALSE(readWant("loudness=3"));
    EXPECT_FALSE(readWant("level"));
    EXPECT_FALSE(readWant("level=loud"));
}

TEST(Targets, StopsWhenAskedAndTellsHowFarItIs) {
    const Job job = stockJob();
    std::stop_source source;
    TargetRequest request{wantsOf({"gain_leg_corner=590"}), {"r5", "c4"}, demoDrawer()};
    std::vector<double> told;
    request.progress = [&](double share) { told.push_back(share); };
    ASSERT_TRUE(findTargets(job, request, source.get_token()));
    EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
    EXPECT_DOUBLE_EQ(told.back(), 1.0);
    source.request_stop();
    const auto stopped = findTargets(job, request, source.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
}

}  // namespace
}  // namespace ohmwright
