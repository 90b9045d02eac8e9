// What the bench says in another language: whole sentences, and keys that stay.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/judge_step.h"
#include "core/bench/net_words.h"
#include "core/bench/visits.h"
#include "core/bench/way_back.h"
#include "core/bench/which_revision.h"
#include "core/bench/work_log.h"
#include "tests/support/planned_jobs.h"
#include "tests/support/spoken.h"
#include "tests/support/worked_steps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using test::Spoken;
using test::SpokenInDots;
using test::titlesOf;
using test::workOf;
using testing::Contains;
using testing::HasSubstr;

TEST(BenchLanguage, AStepIsAskedForWhole) {
    const Spoken german({{"Fit %1 %2, no polarity", "%1 einbauen (%2), ungepolt"},
                         {"%1, printed %2", "%1, Aufdruck %2"},
                         {"Take %1 out, %2", "%1 ausbauen: %2"}});
    const std::vector<std::string> titles = titlesOf(workOf(harbourLampWith("A")));
    EXPECT_THAT(titles, Contains("C4 Cg einbauen (120n, Aufdruck 124), ungepolt"));
    EXPECT_THAT(titles, Contains(testing::StartsWith("C4 Cg ausbauen: 56n")));
}

// A file keeps the keys: what was signed in one language is signed in the other.
TEST(BenchLanguage, AStepsKeyIsTheSameInEveryLanguage) {
    const Job job = harbourLampWith("ABCD");
    const std::vector<std::string> english = stepKeys(workOf(job).steps);
    const SpokenInDots dotted;
    setDecimalMark(DecimalMark::comma);
    const WorkPlan work = workOf(job);
    EXPECT_EQ(stepKeys(work.steps), english);
    EXPECT_NE(titlesOf(work), titlesOf(WorkPlan()));
    EXPECT_THAT(work.steps.front().title, testing::Not(HasSubstr("Photograph")));
    setDecimalMark(DecimalMark::point);
}

TEST(BenchLanguage, ACheckIsAskedForWholeWithItsPlaces) {
    const Spoken german({{"ohms, red on %1, black on %2", "Ohm: schwarz %2, rot %1"},
                         {"one leg of %1", "ein Bein von %1"},
                         {"the other leg of %1", "das andere Bein von %1"},
                         {"%1 to %2", "%1 bis %2"}});
    Check check;
    check.kind = CheckKind::ohms;
    check.red.words = said("one leg of %1", "R5");
    check.black.words = said("the other leg of %1", "R5");
    check.expected = {4465.0, 4700.0, 4935.0};
    EXPECT_EQ(check.words(), "Ohm: schwarz das andere Bein von R5, rot ein Bein von R5");
    EXPECT_EQ(check.expected.words(check.kind), "4.465 kΩ bis 4.935 kΩ");
}

TEST(BenchLanguage, ALegThatLooksLikeTheFirstIsTheOtherOneInEveryLanguage) {
    const Spoken german({{"one leg of %1", "ein Bein von %1"}, {"the other leg of %1", "anderes Bein von %1"}});
    Circuit circuit;
    const auto add = [&](const char* name, PartKind kind, std::vector<NetName> nets) {
        Part part;
        part.id = part.reference = name;
        part.kind = kind;
        part.value = 1e-6;
        part.nets = std::move(nets);
        circuit.parts.push_back(part);
    };
    add("C1", PartKind::capacitor, {"a", "b"});
    add("C2", PartKind::capacitor, {"a", "b"});
    circuit.openNets = {"a", "b"};
    std::vector<BoardEdit> edits{{EditKind::partSwapped, circuit.parts[0], circuit.parts[0], {}}};
    const auto checks = candidateChecks(edits, circuit, {}, {.tonesHz = {}});
    ASSERT_TRUE(checks) << checks.error().message;
    EXPECT_THAT(*checks, Contains(testing::ResultOf([](const Check& check) { return check.black.words; },
                                                    testing::StartsWith("anderes Bein von"))));
}

TEST(BenchLanguage, AJudgementNamesItsSuspectsInTheLanguage) {
    const Spoken german(
        {{"Out of band (%1 expected). First suspicion: %2.", "Soll %1. Verdacht: %2."}, {"%1 reversed", "%1 verpolt"}});
    CheckPlan plan;
    Check check;
    check.kind = CheckKind::diode;
    check.expected = {0.53, 0.58, 0.63};
    plan.checks = {check};
    plan.mistakes = {{MistakeKind::reversed, "d3", said("%1 reversed", "D3"), {}, false}};
    plan.readings = {{std::nullopt}};
    EXPECT_EQ(judgeCheck(plan, 0, std::nullopt).sentence, "Soll 0.53 V to 0.63 V. Verdacht: D3 verpolt.");
}

TEST(BenchLanguage, APlaceIsFoundAsItIsShownAndInEnglish) {
    const Circuit circuit = test::harbourLamp().stock;
    const Spoken german({{"%1 pin %2", "%1 Anschluss %2"}, {"ground", "Masse"}, {"wiper", "Schleifer"}});
    for (const std::string& name : spotNames(circuit)) {
        EXPECT_TRUE(netOfSpot(circuit, name)) << name;
    }
    EXPECT_THAT(spotNames(circuit), Contains(HasSubstr(" Anschluss ")));
    EXPECT_EQ(*netOfSpot(circuit, "Masse"), groundNet);
    EXPECT_EQ(*netOfSpot(circuit, "ground"), groundNet);
    EXPECT_EQ(*netOfSpot(circuit, "U1A pin 3"), *netOfSpot(circuit, "U1A Anschluss 3"));
}

TEST(BenchLanguage, TheSupplysReadingIsOnePlaceInEveryLanguage) {
    UnitReading reading{"supply current", {}, 2.5e-3, Unit::ampere};
    const Spoken german(
        {{"supply current", "Versorgungsstrom"}, {"%1: %2; the drawing says nothing of it", "%1: %2; nicht im Plan"}});
    EXPECT_EQ(judgeReadings({reading}, {}).front().sentence, "Versorgungsstrom: 2.50 mA; nicht im Plan");
}

/// Words of letters that stand in a text.
std::set<std::string> wordsIn(const std::string& text) {
    std::set<std::string> words;
    std::string word;
    for (const char letter : text + " ") {
        if (std::isalpha(static_cast<unsigned char>(letter)) != 0) {
            word += letter;
        } else {
            if (word.size() > 3) {
                words.insert(word);
            }
            word.clear();
        }
    }
    return words;
}

/// What a job calls its things: names are the same in every language.
std::set<std::string> namesOf(const Job& job) {
    std::string names;
    for (const Part& part : job.stock.parts) {
        names += " " + part.reference + " " + part.function + " " + part.model + " " + part.printed;
    }
    for (const Mod& mod : job.plan) {
        names += " " + mod.name;
        if (const auto* fitted = std::get_if<FitSwitch>(&mod.change)) {
            for (const SwitchThrow& position : fitted->throws) {
                names += " " + position.name;
            }
        }
    }
    return wordsIn(names);
}

TEST(BenchLanguage, NothingOfTheWorkIsSaidInEnglishOnly) {
    const Job job = harbourLampWith("ABCDE");
    const std::set<std::string> names = namesOf(job);
    const SpokenInDots dotted;
    const WorkPlan work = workOf(job);
    std::string said;
    for (const BenchStep& step : work.steps) {
        said += step.title + " " + step.ifItFails + " ";
        for (const StepLine& line : step.lines) {
            said += line.word + " " + line.text + " ";
        }
    }
    for (const Caution& caution : work.cautions) {
        said += caution.head + " " + caution.text + " ";
    }
    for (const std::string& note : work.notes) {
        said += note + " ";
    }
    const Result<WayBack> back = wayBack(job);
    ASSERT_TRUE(back) << back.error().message;
    said += back->words;
    std::set<std::string> readable = wordsIn(said);
    for (const std::string& name : names) {
        readable.erase(name);
    }
    EXPECT_THAT(readable, testing::IsEmpty());
}

}  // namespace
}  // namespace ohmwright
