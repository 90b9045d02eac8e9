// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/mistakes.h"

#include "core/circuit/check.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"
#include "tests/support/csv_rows.h"
#include "tests/support/demo_netlists.h"
#include "tests/support/planned_jobs.h"
#include "tests/support/small_circuits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using test::nowOf;

struct Work {
    Job job;
    Circuit now;
    std::vector<Mistake> mistakes;
};

Work workOf(const std::string& letters) {
    Work work{harbourLampWith(letters), {}, {}};
    work.now = nowOf(work.job);
    work.mistakes = likelyMistakes(boardEdits(work.job.stock, work.now), work.now);
    return work;
}

const Mistake* findMistake(const std::vector<Mistake>& mistakes, MistakeKind kind, const std::string& words) {
    const auto found = std::find_if(mistakes.begin(), mistakes.end(), [&](const Mistake& mistake) {
        return mistake.kind == kind && mistake.sentence.find(words) != std::string::npos;
    });
    return found == mistakes.end() ? nullptr : &*found;
}

struct Named {
    const char* reference;  ///< In harbour-lamp-figures.csv.
    const char* letters;
    MistakeKind kind;
    const char* words;
};

class MistakeTable : public testing::TestWithParam<Named> {};

// The table of wrong fittings: peaks at the clip node, level, and small-signal change from the plan of each.
TEST_P(MistakeTable, IsFoundInTheEditsAndGivesTheReferenceFigures) {
    const Named& named = GetParam();
    const Work work = workOf(named.letters);
    const Mistake* mistake = findMistake(work.mistakes, named.kind, named.words);
    ASSERT_NE(mistake, nullptr) << named.words;
    const Setting& setting = work.job.setting;
    int compared = 0;
    for (const test::CsvRow& row : test::referenceTable("harbour-lamp-figures.csv")) {
        if (row.at("state") != std::string("mistake: ") + named.reference) {
            continue;
        }
        const std::string& figure = row.at("figure");
        const double wanted = std::stod(row.at("value"));
        const double tolerance = std::stod(row.at("tolerance"));
        const test::Conditions conditions = test::conditionsOf(row.at("condition"));
        if (figure == "response_change_from_plan") {
            const double hertz = std::stod(conditions.at("hz"));
            const auto wrong = measureGainDb(mistake->circuit, setting, hertz);
            const auto planned = measureGainDb(work.now, setting, hertz);
            ASSERT_TRUE(wrong && planned);
            EXPECT_NEAR(*wrong - *planned, wanted, tolerance) << hertz;
            ++compared;
        } else if (figure == "level") {
            const auto level = measureLevelDbv(mistake->circuit, setting);
            ASSERT_TRUE(level);
            EXPECT_NEAR(*level, wanted, tolerance);
            ++compared;
        } else if (figure == "peak_positive" || figure == "peak_negative") {
            LargeSignalOptions options;
            options.withThresholds = false;
            options.clipPoints = 2;
            const auto state = measureLargeSignal(mistake->circuit, setting, options);
            ASSERT_TRUE(state);
            const Figure* peak =
                findFigure(state->figures, figure == "peak_positive" ? "clip_peak_positive" : "clip_peak_negative");
            if (peak == nullptr) {
                peak = findFigure(state->figures, figure);
            }
            ASSERT_NE(peak, nullptr);
            EXPECT_NEAR(*peak->value, wanted, tolerance) << figure;
            ++compared;
        }
    }
    EXPECT_GE(compared, 5);
}

INSTANTIATE_TEST_SUITE_P(
    HarbourLamp, MistakeTable,
    testing::Values(Named{"third diode reversed", "ABC", MistakeKind::reversed, "D3 reversed"},
                    Named{"diode in parallel, not series", "ABC", MistakeKind::acrossNotInLine, "D3 across D2"},
                    Named{"bridge over the new diode", "ABC", MistakeKind::bridged, "over D3"},
                    Named{"first diode open", "ABC", MistakeKind::neighbourOpen, "D1"},
                    Named{"Cg leg open", "ABC", MistakeKind::legOpen, "C4 Cg"},
                    Named{"12n for 120n", "ABC", MistakeKind::decade, "12n fitted for 120n"},
                    Named{"27k for 2k7", "ABC", MistakeKind::decade, "27k fitted for 2k7"},
                    Named{"270R for 2k7", "ABC", MistakeKind::decade, "270R fitted for 2k7"},
                    Named{"other diode doubled", "ABC", MistakeKind::otherArm, "D3 in line with D1"},
                    Named{"1u2 for 120n", "ABC", MistakeKind::decade, "1µ2 fitted for 120n"},
                    Named{"330n for 33n (D)", "ABCD", MistakeKind::decade, "330n fitted for 33n"},
                    Named{"3n3 for 33n (D)", "ABCD", MistakeKind::decade, "3n3 fitted for 33n"}));

TEST(Mistakes, EveryOneOfAPlanCanBeSolved) {
    const Work work = workOf("ABCD");
    EXPECT_GT(work.mistakes.size(), 20u);
    for (const Mistake& mistake : work.mistakes) {
        const auto solved = solveCircuit(mistake.circuit, work.job.setting);
        EXPECT_TRUE(solved) << mistake.sentence << ": " << (solved ? "" : solved.error().message);
    }
}

TEST(Mistakes, NoneIsThePlanItselfAndNoneStandsTwice) {
    const Work work = workOf("ABCD");
    for (std::size_t i = 0; i < work.mistakes.size(); ++i) {
        EXPECT_NE(work.mistakes[i].circuit.parts, work.now.parts) << work.mistakes[i].sentence;
        for (std::size_t k = i + 1; k < work.mistakes.size(); ++k) {
            EXPECT_NE(work.mistakes[i].circuit.parts, work.mistakes[k].circuit.parts) << work.mistakes[k].sentence;
        }
    }
}

// 13 k is brown-orange-orange; 31 is no preferred number and 1-3-3 read as 3-3-1 is 330 ohms.
TEST(Mistakes, AMarkingReadTheWrongWayRoundGivesAnotherPart) {
    test::SmallCircuit small;
    const Circuit before = small.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3).circuit();
    Circuit after = before;
    after.parts[2].value = 13e3;
    const auto mistakes = likelyMistakes(boardEdits(before, after), after);
    EXPECT_NE(findMistake(mistakes, MistakeKind::digitsExchanged, "330R fitted for 13k"), nullptr);
    EXPECT_EQ(findMistake(mistakes, MistakeKind::digitsExchanged, "31k"), nullptr);
    EXPECT_NE(findMistake(mistakes, MistakeKind::neighbourValue, "12k"), nullptr);
    EXPECT_NE(findMistake(mistakes, MistakeKind::neighbourValue, "15k"), nullptr);
}

TEST(Mistakes, AReversedElectrolyticIsForTheEye) {
    Job job = harbourLampWith("");
    Circuit after = job.stock;
    findPart(after, "c2")->value = 4.7e-6;
    const auto mistakes = likelyMistakes(boardEdits(job.stock, after), after);
    const Mistake* reversed = findMistake(mistakes, MistakeKind::reversed, "C2");
    ASSERT_NE(reversed, nullptr);
    EXPECT_TRUE(reversed->isAlike);
}

// References: faults of Small Rooster solved apart: 9.00 V at the collector with base feed or emitter open, 8.92 V with
// collector and emitter exchanged.
TEST(Mistakes, FaultsOfABoosterMoveItsCollectorAsTheReferenceHasIt) {
    const Circuit circuit = test::DemoNetlist::circuitOf(test::DemoNetlist::stock("small-rooster").text(), "out");
    const auto faults = likelyFaults(circuit);
    const auto collector = [&](MistakeKind kind, const std::string& words) {
        const Mistake* fault = findMistake(faults, kind, words);
        if (fault == nullptr) {
            return std::nan("");
        }
        const auto solved = solveCircuit(fault->circuit, {});
        return solved ? solved->biasVolts("c") : std::nan("");
    };
    EXPECT_NEAR(collector(MistakeKind::legOpen, "R1 330k open"), 9.0, 0.0045);
    EXPECT_NEAR(collector(MistakeKind::legOpen, "R4 560R open"), 9.0, 0.0045);
    EXPECT_NEAR(collector(MistakeKind::legsExchanged, "collector and emitter"), 8.92, 0.01);
}

}  // namespace
}  // namespace ohmwright
