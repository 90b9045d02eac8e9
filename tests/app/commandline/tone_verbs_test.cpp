// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::answered;
using test::expectedFigure;
using test::numberIn;
using test::rowsOf;
using test::rowWith;
using testing::HasSubstr;

const std::string job = test::harbourLampPath();

std::vector<std::string> tone(const std::string& verb, const std::vector<std::string>& more = {}) {
    std::vector<std::string> args = {verb, job, "--tone", "220", "--level", "0.1"};
    args.insert(args.end(), more.begin(), more.end());
    return args;
}

TEST(HarmonicsVerb, AgreesWithTheDemosFigures) {
    const std::string condition = "hz=220;mvpk=100";
    for (const char* state : {"stock", "A", "B", "A+B+C"}) {
        const std::string csv = answered(tone("harmonics", {"--variant", state}));
        const auto rows = rowsOf(csv);
        ASSERT_EQ(rows.size(), 10U) << "nine harmonics and the distortion";
        for (int n : {3, 5, 7})
            EXPECT_NEAR(numberIn(rowWith(rows, "harmonic", std::to_string(n)), "level_db_re_fundamental"),
                        expectedFigure(state, "harmonic", "out", condition + ";n=" + std::to_string(n)), 0.1)
                << state << " harmonic " << n;
        EXPECT_EQ(rows.back().at("harmonic"), "thd_percent");
        const double thd = expectedFigure(state, "thd", "out", condition);
        EXPECT_NEAR(numberIn(rows.back(), "amplitude_v_peak"), thd, 0.005 * thd) << state;
    }
}

TEST(HarmonicsVerb, TheFundamentalIsItsOwnReference) {
    const auto rows = rowsOf(answered(tone("harmonics", {"--count", "3"})));
    ASSERT_EQ(rows.size(), 4U);
    EXPECT_DOUBLE_EQ(numberIn(rows[0], "level_db_re_fundamental"), 0.0);
}

TEST(HarmonicsVerb, ASmallToneHasTheSmallSignalGainAndPhase) {
    const auto rows = rowsOf(answered({"harmonics", job, "--tone", "330", "--level", "10u"}));
    const auto response = rowsOf(answered({"response", job, "--at", "330"}));
    EXPECT_NEAR(20.0 * std::log10(numberIn(rows[0], "amplitude_v_peak") / 10e-6), numberIn(response[0], "magnitude_db"),
                0.002);
    EXPECT_NEAR(numberIn(rows[0], "phase_deg"), numberIn(response[0], "phase_deg"), 0.05);
}

TEST(HarmonicsVerb, AToneThatIsNoneIsRefused) {
    for (const char* level : {"0", "-1", "x", "1e6"})
        test::refused({"harmonics", job, "--tone", "220", "--level", level}, ExitStatus::callWrong);
    test::refused({"harmonics", job, "--tone", "0", "--level", "0.1"}, ExitStatus::callWrong);
    test::refused({"harmonics", job, "--tone", "220"}, ExitStatus::callWrong);
    test::refused(tone("harmonics", {"--count", "0"}), ExitStatus::callWrong);
}

TEST(WaveformVerb, TheSettledWaveHasTheDemosPeaksAndLevel) {
    for (const char* state : {"stock", "A+B+C"}) {
        const auto rows = rowsOf(answered(tone("waveform", {"--variant", state, "--rate", "56320"})));
        ASSERT_EQ(rows.size(), 256U);
        double highest = -1e9, sum = 0.0, squares = 0.0;
        for (const test::CsvRow& row : rows) {
            const double volts = numberIn(row, "output_v");
            highest = std::max(highest, volts);
            sum += volts;
            squares += volts * volts;
        }
        const double mean = sum / 256.0;
        const double dbv = 10.0 * std::log10(squares / 256.0 - mean * mean);
        EXPECT_NEAR(highest, expectedFigure(state, "peak_positive", "out", "hz=220;mvpk=100"), 0.001) << state;
        EXPECT_NEAR(dbv, expectedFigure(state, "level", "out", "hz=220;mvpk=100"), 0.05) << state;
    }
}

TEST(WaveformVerb, TheOutputIncludesItsBias) {
    const auto rows = rowsOf(answered(tone("waveform", {"--output", "o1"})));
    double sum = 0.0;
    for (const test::CsvRow& row : rows) sum += numberIn(row, "output_v");
    EXPECT_NEAR(sum / static_cast<double>(rows.size()), expectedFigure("stock", "bias", "o1", ""), 0.02);
}

TEST(WaveformVerb, TheInputIsTheToneThatWasAskedFor) {
    const auto rows = rowsOf(answered(tone("waveform", {"--periods", "2", "--rate", "22k"})));
    ASSERT_EQ(rows.size(), 200U);
    for (std::size_t k = 0; k < rows.size(); ++k) {
        EXPECT_NEAR(numberIn(rows[k], "time_s"), static_cast<double>(k) / 22000.0, 1e-12);
        EXPECT_NEAR(numberIn(rows[k], "input_v"),
                    0.1 * std::sin(2.0 * std::numbers::pi * static_cast<double>(k) / 100.0), 1e-9);
    }
    EXPECT_NEAR(numberIn(rows[10], "output_v"), numberIn(rows[110], "output_v"), 1e-9) << "settled: periods repeat";
}

TEST(WaveformVerb, UnaskedItHas48000SamplesASecondOr256APeriod) {
    EXPECT_EQ(rowsOf(answered({"waveform", job, "--tone", "1000", "--level", "0.1"})).size(), 256U);
    EXPECT_EQ(rowsOf(answered({"waveform", job, "--tone", "100", "--level", "0.1"})).size(), 480U);
}

TEST(WaveformVerb, FromColdItBeginsAtTheBiasAndComesToTheSettledWave) {
    const auto cold = rowsOf(answered(tone("waveform", {"--cold", "--periods", "120", "--rate", "22k"})));
    const auto settled = rowsOf(answered(tone("waveform", {"--settled", "--rate", "22k"})));
    ASSERT_EQ(cold.size(), 12000U);
    EXPECT_NEAR(numberIn(cold.front(), "output_v"), 0.0, 1e-4);
    EXPECT_NEAR(numberIn(cold.front(), "time_s"), 0.0, 1e-12);
    for (std::size_t k = 0; k < 100; k += 7)
        EXPECT_NEAR(numberIn(cold[11900 + k], "output_v"), numberIn(settled[k], "output_v"), 1e-3) << k;
}

TEST(WaveformVerb, MoreThanCanBeAnsweredInTimeIsRefusedAtOnce) {
    test::refused(tone("waveform", {"--periods", "100000", "--rate", "1e6"}), ExitStatus::callWrong);
    test::refused(tone("waveform", {"--rate", "0"}), ExitStatus::callWrong);
    test::refused(tone("waveform", {"--periods", "0"}), ExitStatus::callWrong);
    EXPECT_THAT(test::refused(tone("waveform", {"--cold", "--settled"}), ExitStatus::callWrong), HasSubstr("--cold"));
}

// v + v^2/10 of a sine of 1 V: the square is (1 - cos 2wt)/2, so 0.05 V at twice the tone, a quarter turn late.
TEST(HarmonicsVerb, OfASquarerAreThoseOfAlgebra) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("squarer.cir", test::netlists::squarer);
    const auto rows = rowsOf(answered({"harmonics", file, "--tone", "1k", "--level", "1"}));
    ASSERT_EQ(rows.size(), 10U);
    EXPECT_NEAR(numberIn(rows[0], "amplitude_v_peak"), 1.0, 1e-6);
    EXPECT_DOUBLE_EQ(numberIn(rows[0], "level_db_re_fundamental"), 0.0);
    EXPECT_NEAR(numberIn(rows[0], "phase_deg"), 0.0, 1e-3);
    EXPECT_NEAR(numberIn(rows[1], "amplitude_v_peak"), 0.05, 1e-6);
    EXPECT_NEAR(numberIn(rows[1], "level_db_re_fundamental"), 20.0 * std::log10(0.05), 1e-4);
    EXPECT_NEAR(numberIn(rows[1], "phase_deg"), -90.0, 1e-3);
    EXPECT_LT(numberIn(rows[2], "level_db_re_fundamental"), -100.0);
    EXPECT_TRUE(std::isfinite(numberIn(rows[2], "level_db_re_fundamental")));
    EXPECT_EQ(rows[9].at("harmonic"), "thd_percent");
    EXPECT_NEAR(numberIn(rows[9], "amplitude_v_peak"), 5.0, 1e-4);
}

TEST(HarmonicsVerb, AnOutputWithoutTheToneItselfIsSaid) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("doubler.cir", "doubler\nVIN in 0 AC 1\nR1 in 0 1k\nB1 out 0 V=v(in)*v(in)\nR2 out 0 1k\n.end\n");
    EXPECT_THAT(test::refused({"harmonics", file, "--tone", "1k", "--level", "1"}, ExitStatus::unsolvable),
                HasSubstr("out"));
}

// H = 1/(1 + j) at the corner: 1/sqrt 2 of the input, an eighth of a period late.
TEST(WaveformVerb, OfALowPassIsItsFormula) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    const auto rows = rowsOf(answered({"waveform", file, "--tone", "1k", "--level", "2", "--periods", "2"}));
    ASSERT_EQ(rows.size(), 512U);
    for (const test::CsvRow& row : rows) {
        const double angle = 2.0 * std::numbers::pi * 1000.0 * numberIn(row, "time_s");
        EXPECT_NEAR(numberIn(row, "input_v"), 2.0 * std::sin(angle), 1e-8);
        EXPECT_NEAR(numberIn(row, "output_v"), std::numbers::sqrt2 * std::sin(angle - std::numbers::pi / 4.0), 1e-5);
    }
}

TEST(WaveformVerb, TheInputRestsOnItsOwnDcValue) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("divider.cir", test::netlists::divider);
    for (const char* start : {"--settled", "--cold"}) {
        const auto rows = rowsOf(answered({"waveform", file, "--tone", "1k", "--level", "1", start}));
        ASSERT_EQ(rows.size(), 256U) << start;
        EXPECT_NEAR(numberIn(rows[0], "time_s"), 0.0, 1e-15);
        EXPECT_NEAR(numberIn(rows[0], "input_v"), 10.0, 1e-9);
        EXPECT_NEAR(numberIn(rows[64], "input_v"), 11.0, 1e-9);
        EXPECT_NEAR(numberIn(rows[64], "output_v"), 4.4, 1e-6);
    }
}

// R C at rest, then a sine at the corner: the settled wave less a transient that dies with the time constant.
TEST(WaveformVerb, FromColdALowPassHasItsTransient) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    const auto rows = rowsOf(answered({"waveform", file, "--tone", "1k", "--level", "1", "--cold"}));
    ASSERT_EQ(rows.size(), 256U);
    for (const test::CsvRow& row : rows) {
        const double angle = 2.0 * std::numbers::pi * 1000.0 * numberIn(row, "time_s");
        const double exact = std::sin(angle - std::numbers::pi / 4.0) / std::numbers::sqrt2 + 0.5 * std::exp(-angle);
        EXPECT_NEAR(numberIn(row, "output_v"), exact, 2e-4);
    }
}

TEST(WaveformVerb, TonesFarFromAudioEndInTime) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    EXPECT_EQ(rowsOf(answered({"waveform", file, "--tone", "1e9", "--level", "1"})).size(), 256U);
    EXPECT_EQ(rowsOf(answered({"waveform", file, "--tone", "1e-3", "--level", "1", "--rate", "0.1"})).size(), 100U);
    EXPECT_THAT(test::refused({"waveform", file, "--tone", "1e-3", "--level", "1"}, ExitStatus::callWrong),
                HasSubstr("--rate"));
    EXPECT_EQ(rowsOf(answered({"harmonics", file, "--tone", "1e-3", "--level", "1"})).size(), 10U);
}

TEST(HarmonicsVerb, ALadderOfThreeHundredDiodesEndsInTime) {
    // Every capacitance's share in every other was carried through every fine step: it ran into the deadline.
    std::string text = "ladder\nVIN n0 0 DC 0 AC 1\n";
    for (int k = 1; k <= 300; ++k) {
        const std::string n = std::to_string(k);
        text += "R" + n + " n" + std::to_string(k - 1) + " n" + n + " 100\nD" + n + " n" + n + " 0 DX\n";
    }
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("ladder.cir", text + "RL n300 0 10k\n.model DX D(IS=2.52n N=1.752 CJO=4p TT=20n)\n.end\n");
    const auto begin = std::chrono::steady_clock::now();
    const test::Called called = test::call({"harmonics", file, "--tone", "1k", "--level", "1", "--output", "n5"});
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(20));
    if (called.status == ExitStatus::answered) {
        EXPECT_EQ(rowsOf(called.out).size(), 10U);
    } else {
        EXPECT_THAT(called.err, HasSubstr("capacitances"));
    }
}

}  // namespace
}  // namespace ohmwright
