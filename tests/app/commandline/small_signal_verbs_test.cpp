// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::answered;
using test::numberIn;
using test::rowsOf;
using test::rowWith;
using testing::HasSubstr;

const std::string job = test::harbourLampPath();

TEST(ResponseVerb, AgreesWithTheDemosFiguresForEveryPlan) {
    int tested = 0;
    for (const test::CsvRow& expected : test::referenceTable("harbour-lamp-figures.csv")) {
        const std::string& state = expected.at("state");
        const std::string& condition = expected.at("condition");
        const bool isPlan = state == "stock" || state.find_first_not_of("ABCD+") == std::string::npos;
        const bool onlyFrequency = condition.starts_with("hz=") && condition.find(';') == std::string::npos;
        if (expected.at("figure") != "response" || !isPlan || !onlyFrequency || expected.at("where") != "VSIG to out")
            continue;
        const auto rows = rowsOf(answered({"response", job, "--variant", state, "--at", condition.substr(3)}));
        ASSERT_EQ(rows.size(), 1U);
        EXPECT_NEAR(numberIn(rows[0], "magnitude_db"), std::stod(expected.at("value")),
                    std::stod(expected.at("tolerance")))
            << state << " " << condition;
        ++tested;
    }
    EXPECT_GE(tested, 100);
}

TEST(ResponseVerb, TheGridIsFromTimesTenToTheKOverN) {
    const auto rows = rowsOf(answered({"response", job, "--from", "100", "--to", "1k", "--per-decade", "4"}));
    ASSERT_EQ(rows.size(), 5U);
    for (std::size_t k = 0; k < rows.size(); ++k)
        EXPECT_NEAR(numberIn(rows[k], "frequency_hz"), 100.0 * std::pow(10.0, static_cast<double>(k) / 4.0), 1e-6);
}

TEST(ResponseVerb, UnaskedItCoversTheAudioRange) {
    const auto rows = rowsOf(answered({"response", job}));
    ASSERT_GE(rows.size(), 60U) << "three decades of at least 20 points";
    EXPECT_NEAR(numberIn(rows.front(), "frequency_hz"), 20.0, 1e-9);
    EXPECT_NEAR(numberIn(rows.back(), "frequency_hz"), 20000.0, 1e-6);
    for (const test::CsvRow& row : rows) EXPECT_LE(std::abs(numberIn(row, "phase_deg")), 180.0);
}

// What the unit does from the jack on is the gain from the pickup less the pickup's gain to the jack.
TEST(ResponseVerb, DrivenAtTheJackThePickupIsLeftOut) {
    const std::string at = "82.41,330,1000,5000";
    const auto whole = rowsOf(answered({"response", job, "--at", at}));
    const auto toJack = rowsOf(answered({"response", job, "--at", at, "--output", "in"}));
    const auto unit = rowsOf(answered({"response", job, "--at", at, "--set", "source=jack"}));
    ASSERT_EQ(unit.size(), 4U);
    for (std::size_t k = 0; k < unit.size(); ++k)
        EXPECT_NEAR(numberIn(unit[k], "magnitude_db"),
                    numberIn(whole[k], "magnitude_db") - numberIn(toJack[k], "magnitude_db"), 1e-6);
}

TEST(ResponseVerb, AFrequencyThatIsNoneIsRefused) {
    for (const char* at : {"0", "-3", "x", "1e999"})
        test::refused({"response", job, "--at", at}, ExitStatus::callWrong);
    test::refused({"response", job, "--from", "100", "--to", "50"}, ExitStatus::callWrong);
    test::refused({"response", job, "--from", "0"}, ExitStatus::callWrong);
    test::refused({"response", job, "--per-decade", "0"}, ExitStatus::callWrong);
    test::refused({"response", job, "--from", "1e-300", "--to", "1e300", "--per-decade", "10000"},
                  ExitStatus::callWrong);
}

TEST(ResponseVerb, OfALowPassIsItsFormula) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    const auto rows = rowsOf(answered({"response", file, "--at", "100,1000,10k,1e6"}));
    ASSERT_EQ(rows.size(), 4U);
    for (const test::CsvRow& row : rows) {
        const double x = numberIn(row, "frequency_hz") / 1000.0;
        EXPECT_NEAR(numberIn(row, "magnitude_db"), -10.0 * std::log10(1.0 + x * x), 1e-9) << x;
        EXPECT_NEAR(numberIn(row, "phase_deg"), -std::atan(x) * 180.0 / std::numbers::pi, 1e-7) << x;
    }
}

// Gain is against the input's own phasor, whatever its card says of size and phase.
TEST(ResponseVerb, TheSourcesOwnAcValueCancels) {
    const test::ScratchFolder folder;
    const std::string one = folder.write("one.cir", test::netlists::lowPass);
    std::string text = test::netlists::lowPass;
    text.replace(text.find("AC 1"), 4, "AC 2 90");
    EXPECT_EQ(answered({"response", folder.write("two.cir", text)}), answered({"response", one}));
}

TEST(ResponseVerb, AnyNodeOfANetlistCanBeTheOutput) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("called.cir", test::netlists::called);
    const auto at = [&file](const std::string& net) {
        return numberIn(rowsOf(answered({"response", file, "--at", "1k", "--output", net})).at(0), "magnitude_db");
    };
    EXPECT_NEAR(at("out"), -20.0 * std::log10(3.0), 1e-9);
    EXPECT_NEAR(at("MID"), 20.0 * std::log10(2.0 / 3.0), 1e-9);
    std::string deeper = test::netlists::called;
    deeper.replace(deeper.find("R1 a o 1k"), 9, "R1 a n2 400\nR3 n2 o 600");
    const std::string inner = folder.write("deeper.cir", deeper);
    const auto rows = rowsOf(answered({"response", inner, "--at", "1k", "--output", "x1.n2"}));
    EXPECT_NEAR(numberIn(rows.at(0), "magnitude_db"), 20.0 * std::log10(1.6 / 3.0), 1e-9);
}

TEST(ResponseVerb, WhereNothingArrivesThereIsNoLevel) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("silent.cir", "silent\nVIN in 0 AC 1\nR1 in 0 1k\nVB bat 0 9\nR2 bat out 1k\nR3 out 0 1k\n.end\n");
    EXPECT_THAT(test::refused({"response", file, "--at", "1k"}, ExitStatus::unsolvable), HasSubstr("out"));
    test::refused({"influence", file, "--at", "1k"}, ExitStatus::unsolvable);
    test::refused({"harmonics", file, "--tone", "1k", "--level", "1"}, ExitStatus::unsolvable);
    test::refused({"ladder", file, "--tone", "1k", "--points", "3"}, ExitStatus::unsolvable);
    test::refused({"two-tone", file, "--tones", "1k,2k", "--level", "1"}, ExitStatus::unsolvable);
}

// sqrt at 0 V was answered with the slope of the chord that Newton goes by: 240 dB.
TEST(ResponseVerb, AFormulaWithAnInfiniteSlopeAtTheBiasIsNamed) {
    const test::ScratchFolder folder;
    for (const char* formula : {"sqrt(v(in))", "v(in)**0.5", "sgn(v(in))"}) {
        const std::string file =
            folder.write("steep.cir", std::string("steep\nVIN in 0 AC 1\nR1 in 0 1k\nB7 out 0 V=") + formula +
                                          "\nR2 out 0 1k\n.end\n");
        for (const std::vector<std::string>& call : {std::vector<std::string>{"response", file, "--at", "1k"},
                                                     {"noise", file, "--at", "1k"},
                                                     {"influence", file, "--at", "1k"},
                                                     {"impedance", file, "--at", "1k", "--side", "out"},
                                                     {"poles", file}})
            EXPECT_THAT(test::refused(call, ExitStatus::unsolvable), HasSubstr("B7")) << call.front() << formula;
        EXPECT_EQ(numberIn(rowWith(rowsOf(answered({"bias", file})), "node", "out"), "voltage_v"), 0.0);
    }
}

// ln(0) and 1/0 have no value at all, so that there is no bias either.
TEST(ResponseVerb, AFormulaWithoutAValueAtTheBiasIsNamed) {
    const test::ScratchFolder folder;
    for (const char* formula : {"ln(v(in))", "1/v(in)", "v(in)**-0.5", "sqrt(v(in)-1)"}) {
        const std::string file = folder.write("none.cir", std::string("none\nVIN in 0 AC 1\nR1 in 0 1k\nB7 out 0 V=") +
                                                              formula + "\nR2 out 0 1k\n.end\n");
        for (const char* verb : {"response", "bias", "noise", "poles"})
            EXPECT_THAT(test::refused({verb, file}, ExitStatus::unsolvable), HasSubstr("B7")) << verb << formula;
    }
}

// Half of a half-wave rectifier's tone is its fundamental, at any level; a full-wave rectifier has none.
TEST(ResponseVerb, AKinkHasTheGainThatASmallToneSees) {
    const test::ScratchFolder folder;
    const auto source = [&folder](const char* formula) {
        return folder.write("kink.cir", std::string("kink\nVIN in 0 AC 1\nR1 in 0 1k\nB1 out 0 V=") + formula +
                                            "\nR2 out 0 1k\n.end\n");
    };
    const auto rows = rowsOf(answered({"response", source("max(v(in),0)"), "--at", "1k"}));
    EXPECT_NEAR(numberIn(rows.at(0), "magnitude_db"), 20.0 * std::log10(0.5), 1e-9);
    test::refused({"response", source("abs(v(in))"), "--at", "1k"}, ExitStatus::unsolvable);
}

// It was refused, although the output has its noise whatever reaches it: 4 k T R of the two resistors in parallel.
TEST(NoiseVerb, AnOutputThatTheInputDoesNotReachHasItsNoise) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("apart.cir", "apart\nVIN in 0 AC 1\nR1 in 0 1k\nVB bat 0 9\nR2 bat out 1k\nR3 out 0 1k\n.end\n");
    const test::Called called = test::call({"noise", file, "--at", "1k"});
    EXPECT_EQ(called.status, ExitStatus::answered);
    EXPECT_THAT(called.err, HasSubstr("net out"));
    const auto rows = rowsOf(called.out);
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_NEAR(numberIn(rows[0], "output_v_per_rthz"), std::sqrt(4.0 * 1.380649e-23 * 300.15 * 500.0), 1e-14);
    EXPECT_TRUE(!rows[0].contains("input_referred_v_per_rthz") || rows[0].at("input_referred_v_per_rthz").empty());
    EXPECT_THAT(test::call({"noise", file, "--at", "1k", "--format", "json"}).out,
                HasSubstr("\"input_referred_v_per_rthz\": [null]"));
}

// A low-pass of R and C has the noise of R at the output below its corner, and referred to the input at any frequency.
TEST(NoiseVerb, OfALowPassIsThatOfItsResistor) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    const auto rows = rowsOf(answered({"noise", file, "--from", "10", "--to", "10k", "--per-decade", "2"}));
    ASSERT_EQ(rows.size(), 7U);
    const double boltzmann = 1.380649e-23;
    const double density = std::sqrt(4.0 * boltzmann * 300.15 * 1000.0);  // 4kTR
    for (const test::CsvRow& row : rows) {
        const double x = numberIn(row, "frequency_hz") / 1000.0;
        EXPECT_NEAR(numberIn(row, "input_referred_v_per_rthz"), density, 1e-6 * density) << x;
        EXPECT_NEAR(numberIn(row, "output_v_per_rthz"), density / std::sqrt(1.0 + x * x), 1e-6 * density) << x;
    }
    const auto hot = rowsOf(answered({"noise", file, "--at", "10", "--temperature", "87"}));
    EXPECT_NEAR(numberIn(hot.at(0), "input_referred_v_per_rthz"), density * std::sqrt(360.15 / 300.15), 1e-6 * density);
}

TEST(NoiseVerb, OfTheDemoIsThatFromOutside) {
    const auto rows = rowsOf(answered({"noise", job, "--at", "1000"}));
    int tested = 0;
    for (const test::CsvRow& expected : test::referenceTable("harbour-lamp-figures.csv"))
        if (expected.at("state") == "stock" && expected.at("figure") == "noise_input_referred" &&
            expected.at("condition") == "hz=1000") {
            EXPECT_NEAR(numberIn(rows.at(0), "input_referred_v_per_rthz") * 1e9, std::stod(expected.at("value")),
                        0.005 * std::stod(expected.at("value")));
            ++tested;
        }
    EXPECT_EQ(tested, 1);
}

TEST(ImpedanceVerb, LooksIntoEitherSide) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    const auto in = rowsOf(answered({"impedance", file, "--at", "1000"}));
    EXPECT_NEAR(numberIn(in.at(0), "magnitude_ohm"), 1000.0 * std::sqrt(2.0), 1e-6);  // R - j R at the corner
    EXPECT_NEAR(numberIn(in.at(0), "phase_deg"), -45.0, 1e-8);
    const auto out = rowsOf(answered({"impedance", file, "--at", "1000", "--side", "out"}));
    EXPECT_NEAR(numberIn(out.at(0), "magnitude_ohm"), 1000.0 / std::sqrt(2.0), 1e-6);
    EXPECT_NEAR(numberIn(out.at(0), "phase_deg"), -45.0, 1e-8);
}

TEST(ImpedanceVerb, NeedsOnlyTheEndThatItLooksInto) {
    const test::ScratchFolder folder;
    const std::string noOutput = folder.write("in.cir", "no out\nVIN in 0 AC 1\nR1 in 0 1k\n.end\n");
    EXPECT_NEAR(numberIn(rowsOf(answered({"impedance", noOutput, "--at", "1k"})).at(0), "magnitude_ohm"), 1000.0, 1e-6);
    test::refused({"impedance", noOutput, "--at", "1k", "--side", "out"}, ExitStatus::callWrong);
    const std::string twoInputs =
        folder.write("out.cir", "two\nV1 a 0 AC 1\nV2 b 0 AC 1\nR1 a out 1k\nR2 b out 1k\n.end\n");
    EXPECT_NEAR(
        numberIn(rowsOf(answered({"impedance", twoInputs, "--at", "1k", "--side", "out"})).at(0), "magnitude_ohm"),
        500.0, 1e-6);
    test::refused({"impedance", twoInputs, "--at", "1k"}, ExitStatus::callWrong);
}

// Gain of a low-pass: -10 lg(1 + x^2), x = w R C; 0.1 d(dB)/d(ln p) = -(2/ln 10) x^2/(1 + x^2) for R and for C.
TEST(InfluenceVerb, OfALowPassIsItsDerivative) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    const auto rows = rowsOf(answered({"influence", file, "--at", "1k"}));
    for (const char* part : {"R1", "C1"})
        EXPECT_NEAR(numberIn(rowWith(rows, "part", part), "db_per_ten_percent"), -1.0 / std::numbers::ln10, 1e-9);
}

TEST(InfluenceVerb, PartsInsideCallsComeLast) {
    const test::ScratchFolder folder;
    const auto rows = rowsOf(answered({"influence", folder.write("called.cir", test::netlists::called), "--at", "1k"}));
    ASSERT_GE(rows.size(), 3U);
    EXPECT_EQ(rows[rows.size() - 2].at("part"), "X1.R1");
    EXPECT_EQ(rows[rows.size() - 1].at("part"), "X1.R2");
    // out = R2/(R + R1 + R2), three alike: d ln/d ln R = -1/3, d ln/d ln R2 = 2/3.
    const double tenPercent = 0.1 * 20.0 / std::numbers::ln10;
    EXPECT_NEAR(numberIn(rowWith(rows, "part", "R1"), "db_per_ten_percent"), -tenPercent / 3.0, 1e-9);
    EXPECT_NEAR(numberIn(rowWith(rows, "part", "X1.R2"), "db_per_ten_percent"), 2.0 * tenPercent / 3.0, 1e-9);
}

TEST(InfluenceVerb, AsksForOneFrequency) {
    EXPECT_THAT(test::refused({"influence", job}, ExitStatus::callWrong), HasSubstr("--at"));
    EXPECT_THAT(test::refused({"influence", job, "--at", "100,200"}, ExitStatus::callWrong),
                HasSubstr("one frequency"));
}

// R1 to the output, R2 with C behind it to ground: pole 1/(2 pi (R1 + R2) C), zero 1/(2 pi R2 C).
TEST(PolesVerb, OfATrebleCutAreItsPoleAndZero) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("cut.cir", "treble cut\nVIN in 0 AC 1\nR1 in out 10k\nR2 out c 1k\nC1 c 0 22n\n.end\n");
    const auto rows = rowsOf(answered({"poles", file}));
    ASSERT_EQ(rows.size(), 2U);
    const double pole = -1.0 / (2.0 * std::numbers::pi * 11e3 * 22e-9);
    const double zero = -1.0 / (2.0 * std::numbers::pi * 1e3 * 22e-9);
    EXPECT_EQ(rows[0].at("kind"), "pole");
    EXPECT_NEAR(numberIn(rows[0], "real_hz"), pole, 1e-6 * std::abs(pole));
    EXPECT_NEAR(numberIn(rows[0], "imag_hz"), 0.0, 1e-6);
    EXPECT_EQ(rows[1].at("kind"), "zero");
    EXPECT_NEAR(numberIn(rows[1], "real_hz"), zero, 1e-6 * std::abs(zero));
}

}  // namespace
}  // namespace ohmwright
