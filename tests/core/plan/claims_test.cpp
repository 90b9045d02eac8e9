// The claim check on the seven demos against reference/demos/claims.csv, and its table of words.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/claims.h"

#include "tests/support/demo_job.h"
#include "tests/support/demo_netlists.h"
#include "tests/support/demo_tolerances.h"
#include "tests/support/spoken.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <map>

namespace ohmwright {
namespace {

using test::DemoNetlist;
using test::ToleratedDemo;

ToleratedDemo demoIn(const std::string& demo, const std::string& state) {
    ToleratedDemo unit = test::withTolerances(DemoNetlist::circuitOf(DemoNetlist::inState(demo, state).text(), "out"));
    const Stage stage = test::clipStageOf(demo);
    unit.circuit.stages.push_back(stage);
    unit.circuit.ports.clipNode = stage.output;
    // Copies of the JFET as the demo's definitions have them: pinch-off and Idss, BETA = Idss / Vp^2.
    for (Model& model : unit.circuit.models) {
        if (model.name == "JTYP") {
            model.corners = {{"low", {{"VTO", -0.5}, {"BETA", 1e-3 / 0.25}}},
                             {"high", {{"VTO", -4.0}, {"BETA", 5e-3 / 16.0}}}};
        }
    }
    return unit;
}

/// One figure of an answer by the reference's name for it.
struct Read {
    const char* figure;
    enum class What { stock, now, change, band } what;
    double tolerance;
};

/// Tolerances of the demos' definitions: 0.05 dB, 0.005 dB per dB, 0.1 dB for harmonics, 0.5 % of a ratio. The
/// reference's bands are sampled, ours quick: 2 % under to 12 % over, as the definitions say.
const std::map<std::string, std::map<std::string, Read>>& readings() {
    using What = Read::What;
    constexpr double bandItself = -1.0;
    static const std::map<std::string, std::map<std::string, Read>> table{
        {"fuller",
         {{"change_82", {"response_82", What::change, 0.05}},
          {"against_1k", {"low_against_1k", What::change, 0.05}},
          {"spread_82", {"response_82", What::band, bandItself}}}},
        {"less woolly",
         {{"change_82", {"response_82", What::change, 0.05}},
          {"against_1k", {"low_against_1k", What::change, 0.05}},
          {"spread_82", {"response_82", What::band, bandItself}}}},
        {"brighter",
         {{"change_3000", {"response_3k", What::change, 0.05}},
          {"against_330", {"high_against_330", What::change, 0.05}},
          {"spread_3000", {"response_3k", What::band, bandItself}}}},
        {"less squashed", {{"stock", {"level_slope", What::stock, 0.005}}, {"now", {"level_slope", What::now, 0.005}}}},
        {"muddier",
         {{"stock", {"difference_product", What::stock, 0.05}}, {"now", {"difference_product", What::now, 0.05}}}},
        {"less fizzy", {{"change", {"fizz", What::change, 0.1}}}},
        {"louder", {{"stock", {"level", What::stock, 0.05}}, {"now", {"level", What::now, 0.05}}}},
        {"cleans up",
         {{"stock_ratio", {"thd_ratio_volume_5_to_10", What::stock, 0.005}},
          {"ratio", {"thd_ratio_volume_5_to_10", What::now, 0.005}},
          {"thd_at_5", {"thd_at_volume_5", What::now, 0.2}}}},
        {"not gated",
         {{"low", {"collector_low", What::now, 0.02}},
          {"nominal", {"collector_nominal", What::now, 0.02}},
          {"high", {"collector_high", What::now, 0.02}}}},
        {"copies alike",
         {{"low", {"response_1k_low", What::now, 0.05}},
          {"typical", {"response_1k_typical", What::now, 0.05}},
          {"high", {"response_1k_high", What::now, 0.05}}}},
        {"less scooped", {{"stock", {"dip_depth", What::stock, 0.05}}, {"now", {"dip_depth", What::now, 0.05}}}}};
    return table;
}

void compareFigure(const ClaimAnswer& answer, const std::string& name, double expected, const std::string& title) {
    const Read& read = readings().at(answer.word).at(name);
    const auto figure = std::find_if(answer.figures.begin(), answer.figures.end(),
                                     [&](const ClaimFigure& one) { return one.id == read.figure; });
    ASSERT_NE(figure, answer.figures.end()) << title << ": no " << read.figure;
    const std::optional<double> ours = read.what == Read::What::stock    ? figure->stock
                                       : read.what == Read::What::now    ? figure->now
                                       : read.what == Read::What::change ? figure->change()
                                                                         : figure->bandDb;
    ASSERT_TRUE(ours) << title << ": " << name;
    if (read.what == Read::What::band) {
        EXPECT_GT(*ours, 0.95 * expected) << title;
        EXPECT_LT(*ours, 1.15 * expected) << title;
    } else {
        EXPECT_NEAR(*ours, expected, read.tolerance) << title << ": " << name;
    }
}

TEST(Claims, EveryVerdictOfTheDemosIsThatOfTheReference) {
    std::map<std::string, std::map<std::string, std::vector<test::CsvRow>>> byState;
    int rows = 0;
    for (const test::CsvRow& row : test::referenceTable("demos/claims.csv")) {
        byState[row.at("demo")][row.at("state")].push_back(row);
        ++rows;
    }
    EXPECT_EQ(rows, 80);
    for (const auto& [demo, states] : byState) {
        const ToleratedDemo stock = demoIn(demo, "stock");
        for (const auto& [state, claims] : states) {
            auto check = ClaimCheck::make(stock.circuit, demoIn(demo, state).circuit, stock.setting);
            ASSERT_TRUE(check) << demo << " " << state << ": " << check.error().message;
            for (const test::CsvRow& row : claims) {
                const std::string title = demo + " " + state + " " + row.at("words");
                const auto answer = check->check(row.at("words"));
                ASSERT_TRUE(answer) << title << ": " << answer.error().message;
                EXPECT_EQ(verdictWord(answer->verdict), row.at("verdict")) << title << ": " << answer->sentence;
                for (const auto& [name, value] : test::conditionsOf(row.at("figures"))) {
                    compareFigure(*answer, name, std::stod(value), title);
                }
            }
        }
    }
}

Job lampWith(const std::string& letters) {
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

/// The walk-through: B yes (0.52 → 0.73), A+B+C the other way (0.44), D no; D partly brighter, C yes, A the other way.
TEST(Claims, AnswersArePlainSentencesWithTheNumbers) {
    const auto squashed = checkClaims(lampWith("ABC"), {"less squashed"});
    ASSERT_TRUE(squashed) << squashed.error().message;
    EXPECT_EQ(squashed->front().sentence, "less squashed: the other way; slope 0.52 → 0.44 dB per dB");
    const auto open = checkClaims(lampWith("B"), {"More open", "brighter"});
    ASSERT_TRUE(open);
    EXPECT_EQ(open->front().verdict, ClaimVerdict::yes);
    EXPECT_EQ(open->front().sentence, "More open: yes; slope 0.52 → 0.73 dB per dB");
    const auto fuller = checkClaims(lampWith("A"), {"fuller"});
    ASSERT_TRUE(fuller);
    EXPECT_EQ(
        fuller->front().sentence,
        "fuller: yes; 82 Hz −10.5 → −4.71 dB (+5.77), spread ±1.15, 82 Hz against 1 kHz −16.2 → −11.8 dB (+4.42)");
}

TEST(Claims, OppositeWordsHaveOppositeAnswers) {
    const auto answers =
        checkClaims(lampWith("AB"), {"louder", "quieter", "more squashed", "less squashed", "more gain"});
    ASSERT_TRUE(answers);
    EXPECT_EQ((*answers)[0].verdict, ClaimVerdict::yes);  // +4.35 dB
    EXPECT_EQ((*answers)[1].verdict, ClaimVerdict::theOtherWay);
    EXPECT_EQ((*answers)[2].verdict, ClaimVerdict::partly);  // slope -0.042
    EXPECT_EQ((*answers)[3].verdict, ClaimVerdict::theOtherWay);
    EXPECT_EQ((*answers)[4].verdict, ClaimVerdict::no);  // highest gain +0.17 dB
    const auto gain = checkClaims(lampWith("C"), {"more gain"});
    ASSERT_TRUE(gain);
    EXPECT_EQ(gain->front().verdict, ClaimVerdict::partly);  // 25.27 to 28.20 dB
    EXPECT_NEAR(*gain->front().figures.front().change(), 28.20 - 25.27, 0.05);
}

/// Lower threshold reached at 50.7 mVpk in stock and at 26.0 with A: 5.8 dB less headroom.
TEST(Claims, HeadroomIsTheLowerOfBothThresholds) {
    const auto answer = checkClaims(lampWith("A"), {"more headroom"});
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->front().verdict, ClaimVerdict::theOtherWay);
    EXPECT_NEAR(*answer->front().figures.front().change(), 20.0 * std::log10(26.0 / 50.7), 0.05);
}

/// h2 -73.9 to -21.2 dBc, h3 -19.6 to -25.4 with B: the second rises, the odd ones fall by over 3 dB.
TEST(Claims, AThirdDiodeIsWarmer) {
    const auto answer = checkClaims(lampWith("B"), {"warmer"});
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->front().verdict, ClaimVerdict::yes);
    EXPECT_NEAR(*answer->front().figures[0].now, -21.2, 0.1);
    EXPECT_NEAR(*answer->front().figures[1].stock, 10.0 * std::log10(std::pow(10.0, -1.96) + std::pow(10.0, -3.82)),
                0.1);
}

/// Noise at the output 7.8 to 9.6 uV with D, whose gain at 1 kHz is 0.36 dB more: 20 log10(9.6/7.8) - 0.36.
TEST(Claims, NoiseIsComparedAtEqualGain) {
    const auto answer = checkClaims(lampWith("D"), {"less noisy"});
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->front().verdict, ClaimVerdict::theOtherWay);
    EXPECT_NEAR(*answer->front().figures.front().change(), 20.0 * std::log10(9.6 / 7.8) - 0.36, 0.1);
}

/// A resistor of 5 % more in the divider is 0.21 dB quieter: with limits of a tenth of a dB the verdict would be yes,
/// were it not within what two units differ by.
TEST(Claims, AResponseWithinTheSpreadIsNeverBetterThanPartly) {
    Job job = lampWith("");
    job.plan = {Mod{"mod-x", "X", "Rg", SwapValue{"r5", 3.6e3}, true}};
    ClaimLimits limits = houseClaimLimits();
    for (Claim& claim : limits.claims) {
        if (claim.rule == ClaimRule::brighter) {
            claim.yes = 0.2;
            claim.partly = 0.1;
        }
    }
    const auto answer = checkClaims(job, {"brighter"}, limits);
    ASSERT_TRUE(answer) << answer.error().message;
    EXPECT_EQ(answer->front().verdict, ClaimVerdict::partly);
    EXPECT_TRUE(answer->front().isHeldBack);
    EXPECT_NE(answer->front().sentence.find("within the spread"), std::string::npos) << answer->front().sentence;
}

TEST(Claims, WhatTheCircuitHasNotHasNoAnswer) {
    const auto answers = checkClaims(lampWith("A"), {"less scooped", "copies alike", "not gated"});
    ASSERT_TRUE(answers) << answers.error().message;
    for (const ClaimAnswer& answer : *answers) {
        EXPECT_EQ(answer.verdict, ClaimVerdict::noAnswer) << answer.sentence;
        EXPECT_TRUE(answer.figures.empty());
        EXPECT_NE(answer.sentence.find(": no answer. "), std::string::npos) << answer.sentence;
    }
}

TEST(Claims, AnUnknownWordNamesTheKnownOnes) {
    const auto answers = checkClaims(lampWith("A"), {"greener"});
    ASSERT_FALSE(answers);
    EXPECT_EQ(answers.error().code, ErrorCode::invalidInput);
    EXPECT_NE(answers.error().message.find("greener"), std::string::npos);
    EXPECT_NE(answers.error().message.find("less squashed"), std::string::npos);
}

TEST(Claims, TheHousesTableIsSoundAndKnowsEveryWordOfTheDefinitions) {
    EXPECT_TRUE(checkClaimLimits(houseClaimLimits()));
    for (const char* word :
         {"fuller",       "more low end",  "full range",    "less woolly",     "tighter",       "brighter",
          "darker",       "less squashed", "more open",     "chords not flat", "more squashed", "more sustain",
          "more gain",    "more drive",    "more headroom", "louder",          "quieter",       "less fizzy",
          "less harsh",   "warmer",        "less noisy",    "cleans up",       "less scooped",  "not gated",
          "not heat-shy", "copies alike",  "muddier"}) {
        EXPECT_NE(findClaim(houseClaimLimits(), word), nullptr) << word;
    }
    EXPECT_EQ(findClaim(houseClaimLimits(), "Less Squashed"), findClaim(houseClaimLimits(), "less squashed"));
}

TEST(Claims, ATableThatCannotBeIsRefused) {
    const auto refused = [](const auto& spoil) {
        ClaimLimits limits = houseClaimLimits();
        spoil(limits);
        const auto sound = checkClaimLimits(limits);
        return sound ? std::string() : sound.error().message;
    };
    EXPECT_NE(refused([](ClaimLimits& limits) { limits.claims[0].yes = 1.0; }).find("fuller"), std::string::npos);
    EXPECT_NE(refused([](ClaimLimits& limits) { limits.claims[0].yesSecond.reset(); }).find("two figures"),
              std::string::npos);
    EXPECT_NE(refused([](ClaimLimits& limits) { limits.claims[3].words.push_back("brighter"); }).find("brighter"),
              std::string::npos);
    EXPECT_NE(refused([](ClaimLimits& limits) { limits.claims[3].words.clear(); }), "");
    EXPECT_NE(refused([](ClaimLimits& limits) { limits.claims[3].words = {"Dull"}; }), "");
    EXPECT_NE(refused([](ClaimLimits& limits) { limits.claims[2].partly = std::nan(""); }), "");
    EXPECT_NE(refused([](ClaimLimits& limits) { limits.betaLow = 900.0; }), "");
}

TEST(ClaimTable, EveryEntrySaysItsFigureAndItsLimits) {
    for (const Claim& claim : houseClaimLimits().claims) {
        const std::string sentence = claimRuleSentence(claim);
        EXPECT_FALSE(sentence.empty()) << claim.words.front();
        EXPECT_EQ(sentence.back(), '.') << claim.words.front();
    }
    // The shop's own limit is what is said.
    Claim brighter = *findClaim(houseClaimLimits(), "brighter");
    brighter.yes = 2.5;
    EXPECT_EQ(claimRuleSentence(brighter), "Response at 3 kHz against 330 Hz up by 2.50 dB; partly from 1.00 dB.");
}

TEST(Claims, AnAnswerIsSaidInTheLanguageAndKeepsItsWord) {
    const test::Spoken german{{"less squashed", "weniger gequetscht"},
                              {"the other way", "umgekehrt"},
                              {"slope", "Steigung"},
                              {"dB per dB", "dB je dB"}};
    const auto squashed = checkClaims(lampWith("ABC"), {"less squashed"});
    ASSERT_TRUE(squashed) << squashed.error().message;
    EXPECT_EQ(squashed->front().sentence, "weniger gequetscht: umgekehrt; Steigung 0.52 → 0.44 dB je dB");
    EXPECT_EQ(squashed->front().word, "less squashed");
    EXPECT_EQ(squashed->front().figures.front().unit, "dB per dB");
}

TEST(ClaimTable, ARuleIsAskedForWhole) {
    const test::Spoken german{{"Response at 82.4 Hz up by %1 dB, and by %2 dB against 1 kHz; partly from %3 and %4 dB.",
                               "82,4 Hz um %1 dB lauter, gegen 1 kHz um %2 dB; teils ab %3 und %4 dB."}};
    EXPECT_EQ(claimRuleSentence(*findClaim(houseClaimLimits(), "fuller")),
              "82,4 Hz um 3.00 dB lauter, gegen 1 kHz um 2.00 dB; teils ab 1.50 und 1.00 dB.");
}

}  // namespace
}  // namespace ohmwright
