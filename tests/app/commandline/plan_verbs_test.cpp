// The planning verbs on the demo Harbour Lamp; expected figures: tests/reference and the demo's walk-throughs.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/curve_csv.h"
#include "core/plan/compare_curves.h"
#include "tests/app/commandline/called.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

namespace ohmwright {
namespace {

using test::answered;
using test::numberIn;
using test::rowsOf;
using test::rowWith;

const std::string job = test::harbourLampPath();

test::CsvRow rowOf(const std::vector<test::CsvRow>& rows, const std::string& figure, const std::string& mod) {
    for (const test::CsvRow& row : rows)
        if (row.at("figure") == figure && row.at("mod") == mod) return row;
    ADD_FAILURE() << "no row of " << figure << " and " << mod;
    return {};
}

/// Half the distance of both ends is the sampled band, within the 3 % that seeds differ by.
TEST(SpreadVerb, TwoStockUnitsDifferByTheBand) {
    const auto rows = rowsOf(answered({"spread", job, "--at", "82.41,110,1k"}));
    ASSERT_EQ(rows.size(), 3U);
    const double expected[] = {1.09992, 1.18667, 1.05863};
    for (std::size_t k = 0; k < rows.size(); ++k) {
        const double band = (numberIn(rows[k], "high_db") - numberIn(rows[k], "low_db")) / 2.0;
        EXPECT_NEAR(band, expected[k], 0.03 * expected[k]);
    }
}

TEST(SpreadVerb, AVariantHasItsOwnBandAndSmallModsAreNotes) {
    const test::Called called = test::call({"spread", job, "--variant", "A+B", "--at", "1k,110"});
    EXPECT_EQ(called.status, ExitStatus::answered);
    const auto rows = rowsOf(called.out);
    const double band = (numberIn(rows[0], "high_db") - numberIn(rows[0], "low_db")) / 2.0;
    EXPECT_NEAR(band, 1.04808, 0.03 * 1.04808);
    EXPECT_NE(called.err.find("mod B within spread: +0.0"), std::string::npos) << called.err;
    EXPECT_EQ(called.err.find("mod A"), std::string::npos) << called.err;
}

TEST(CurveVerb, EveryKindHasStockNowAndChange) {
    for (const char* kind : {"response", "clip", "level", "harmonics", "time", "noise", "bias"}) {
        const std::string out = answered({"curve", job, "--variant", "A", "--kind", kind});
        EXPECT_NE(out.find(",change_"), std::string::npos) << kind;
        EXPECT_GT(rowsOf(out).size(), 1U) << kind;
    }
    const auto rows = rowsOf(answered({"curve", job, "--variant", "A", "--kind", "harmonics"}));
    EXPECT_NEAR(numberIn(rowWith(rows, "harmonic", "3"), "stock_level_db_re_fundamental"), -19.6186, 0.1);
}

// A curve that the window exports is the same text (core/files/curve_csv.h).
TEST(CurveVerb, AnExportedCurveIsTheSameText) {
    const Job lamp = test::harbourLamp();
    for (const auto& [kind, id] : {std::pair{CurveKind::harmonics, "harmonics"}, std::pair{CurveKind::bias, "bias"}}) {
        const Result<ComparedCurve> curve = compareCurve(lamp, kind);
        ASSERT_TRUE(curve);
        EXPECT_EQ(answered({"curve", job, "--variant", "A", "--kind", id}), writeCurveCsv(sideBySide(*curve)));
    }
}

TEST(CurveVerb, AKindThatIsNoneIsTheCallsFaultAndNamesThoseThatAre) {
    const std::string said = test::refused({"curve", job, "--kind", "loudness"}, ExitStatus::callWrong);
    EXPECT_NE(said.find("level, harmonics, time"), std::string::npos) << said;
}

TEST(SharesVerb, AloneShareTogetherAndInteraction) {
    const auto rows = rowsOf(answered({"shares", job, "--variant", "A+B+C+D", "--figures", "level,response_1k"}));
    EXPECT_NEAR(numberIn(rowOf(rows, "level", "A"), "alone"), 2.08, 0.05);
    EXPECT_NEAR(numberIn(rowOf(rows, "level", "A"), "share"), 2.67, 0.05);
    EXPECT_NEAR(numberIn(rowOf(rows, "level", "B"), "share"), 1.80, 0.05);
    EXPECT_NEAR(numberIn(rowOf(rows, "level", "together"), "share"), 4.49, 0.05);
    EXPECT_NEAR(numberIn(rowOf(rows, "level", "interaction"), "share"), 1.26, 0.05);
    EXPECT_EQ(rowOf(rows, "level", "together").at("alone"), "");
    EXPECT_NEAR(numberIn(rowOf(rows, "response_1k", "D"), "alone"), 0.36, 0.05);
}

TEST(SharesVerb, AnUnknownFigureIsTheCallsFault) {
    test::refused({"shares", job, "--figures", "loudness"}, ExitStatus::callWrong);
}

TEST(ClaimsVerb, VerdictsWithTheirFigures) {
    const auto rows = rowsOf(answered({"claims", job, "--variant", "A", "--words", "fuller,less squashed"}));
    const test::CsvRow fuller = rowWith(rows, "figure", "response_82");
    EXPECT_EQ(fuller.at("word"), "fuller");
    EXPECT_EQ(fuller.at("verdict"), "yes");
    EXPECT_NEAR(numberIn(fuller, "now") - numberIn(fuller, "stock"), 5.77, 0.05);
    EXPECT_DOUBLE_EQ(numberIn(fuller, "limit"), 3.0);
    const test::CsvRow squashed = rowWith(rows, "figure", "level_slope");
    EXPECT_EQ(squashed.at("verdict"), "the other way");
    EXPECT_NEAR(numberIn(squashed, "stock"), 0.521, 0.005);
    EXPECT_NEAR(numberIn(squashed, "now"), 0.364, 0.005);
}

TEST(ClaimsVerb, WhatTheUnitHasNotIsANoteAndAnUnknownWordAnError) {
    const test::Called called = test::call({"claims", job, "--words", "less scooped"});
    EXPECT_EQ(called.status, ExitStatus::answered);
    EXPECT_EQ(rowsOf(called.out).front().at("verdict"), "no answer");
    EXPECT_NE(called.err.find("less scooped"), std::string::npos);
    const std::string unknown = test::refused({"claims", job, "--words", "greener"}, ExitStatus::callWrong);
    EXPECT_NE(unknown.find("greener"), std::string::npos);
    test::refused({"claims", job, "--words", " , "}, ExitStatus::callWrong);
    test::refused({"claims", job}, ExitStatus::callWrong);
}

TEST(KnobsVerb, OldPositionsAsNewOnes) {
    const test::Called called = test::call({"knobs", job, "--variant", "A+B+C"});
    ASSERT_EQ(called.status, ExitStatus::answered);
    // The drive cannot take the level back: said, and no row without a position.
    EXPECT_NE(called.err.find("old Drive 5.0 is out of travel"), std::string::npos) << called.err;
    const auto rows = rowsOf(called.out);
    const test::CsvRow gain = rowWith(rows, "kept_equal", "stage_gain_1k");
    EXPECT_EQ(gain.at("knob"), "drive");
    EXPECT_DOUBLE_EQ(numberIn(gain, "old"), 5.0);
    EXPECT_NEAR(numberIn(gain, "new"), 2.417, 0.02);
    bool levelIsThere = false;
    for (const test::CsvRow& row : rows) {
        if (row.at("knob") == "level" && row.at("kept_equal") == "level") {
            EXPECT_NEAR(numberIn(row, "new"), 3.821, 0.02);
            levelIsThere = true;
        }
    }
    EXPECT_TRUE(levelIsThere);
}

TEST(SumsVerb, FormulasWithValues) {
    const auto rows = rowsOf(answered({"sums", job, "--variant", "stock"}));
    const test::CsvRow corner = rowWith(rows, "figure", "gain_leg_corner");
    EXPECT_EQ(corner.at("formula"), "1/(2π·Rg·Cg)");
    EXPECT_EQ(corner.at("with_values"), "1/(2π·3k9·56n)");
    EXPECT_NEAR(numberIn(corner, "result"), 728.7, 0.05);
    EXPECT_EQ(corner.at("unit"), "Hz");
    EXPECT_NEAR(numberIn(corner, "solved"), 679.2, 3.5);
    EXPECT_NEAR(numberIn(corner, "difference"), 100.0 * (679.2 - 728.7) / 679.2, 0.6);
    EXPECT_NE(corner.at("approximation").find("tag"), std::string::npos);
}

TEST(PlanVerbs, AreForJobsAlone) {
    const test::ScratchFolder folder;
    const std::string netlist = folder.write("divider.cir", test::netlists::divider);
    for (const char* verb : {"spread", "shares", "knobs", "sums"})
        test::refused({verb, netlist}, ExitStatus::callWrong);
    test::refused({"claims", netlist, "--words", "fuller"}, ExitStatus::callWrong);
}

}  // namespace
}  // namespace ohmwright
