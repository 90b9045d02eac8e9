// Sums on paper of the demo Harbour Lamp; worked values by hand from the parts, solved figures from
// reference/harbour-lamp-figures.csv.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sums.h"

#include "core/plan/apply.h"
#include "tests/support/demo_job.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

std::vector<Sum> sumsOf(const Circuit& circuit, const Setting& setting) {
    const auto sums = showSums(circuit, setting);
    if (!sums) {
        ADD_FAILURE() << sums.error().message;
        return {};
    }
    return *sums;
}

std::vector<Sum> lampSums() {
    const Job job = test::harbourLamp();
    return sumsOf(job.stock, job.setting);
}

Sum sumOf(const std::vector<Sum>& sums, const std::string& figure) {
    const auto found = std::find_if(sums.begin(), sums.end(), [&](const Sum& sum) { return sum.figure == figure; });
    if (found == sums.end()) {
        ADD_FAILURE() << "no sum " << figure;
        return {};
    }
    return *found;
}

/// 3k9, 56n: 728.7 Hz, beside the solved 679.2; zero at half drive 38.2 Hz.
TEST(Sums, GainLeg) {
    const auto sums = lampSums();
    const Sum corner = sumOf(sums, "gain_leg_corner");
    EXPECT_EQ(corner.formula, "1/(2π·Rg·Cg)");
    EXPECT_EQ(corner.withValues, "1/(2π·3k9·56n)");
    EXPECT_NEAR(corner.result, 728.7, 0.05);
    EXPECT_EQ(corner.unit, "Hz");
    EXPECT_NEAR(corner.solved.value(), 679.2, 3.5);
    EXPECT_NEAR(corner.difference.value(), 100.0 * (679.2 - 728.7) / 679.2, 0.6);
    EXPECT_NE(corner.approximation, "");
    const Sum zero = sumOf(sums, "gain_zero");
    EXPECT_EQ(zero.withValues, "1/(2π·56n·(3k9 + 70k5))");
    EXPECT_NEAR(zero.result, 38.2, 0.05);
}

/// Half drive, 1 kHz: 23.80 dB of a plateau of 25.61; solved 23.73, the resting diodes take 0.07. Highest gain 25.27.
TEST(Sums, Gain) {
    const auto sums = lampSums();
    const Sum gain = sumOf(sums, "stage_gain_1k");
    EXPECT_NEAR(gain.result, 23.80, 0.01);
    EXPECT_NEAR(gain.solved.value(), 23.73, 0.01);
    EXPECT_NEAR(gain.difference.value(), -0.07, 0.01);
    const Sum plateau = sumOf(sums, "plateau_gain");
    EXPECT_EQ(plateau.withValues, "20·log(1 + 70k5/3k9)");
    EXPECT_NEAR(plateau.result, 25.61, 0.01);
    EXPECT_NEAR(plateau.solved.value(), 25.27, 0.02);
}

/// 93 mV at the stage, 220 Hz: 6.9 uA gives 0.359 V; solved 0.365 with rider and Rf's share: 1.7 % low.
TEST(Sums, DiodeCeilingOfEachHalfWave) {
    const auto sums = lampSums();
    for (const char* figure : {"clip_level_positive", "clip_level_negative"}) {
        const Sum sum = sumOf(sums, figure);
        const double sign = sum.result < 0.0 ? -1.0 : 1.0;
        EXPECT_NEAR(sign * sum.result, 0.359, 0.001) << figure;
        EXPECT_NEAR(sign * sum.solved.value(), 0.365, 0.001) << figure;
        EXPECT_NEAR(sum.difference.value(), 1.7, 0.2) << figure;
    }
    // Two diodes in one arm: that half-wave has twice the ceiling, the other is as before.
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = mod.letter == "B";
    }
    const auto third = sumsOf(*nowCircuit(job), job.setting);
    EXPECT_NEAR(sumOf(third, "clip_level_positive").result, 2.0 * 0.359, 0.002);
    EXPECT_NEAR(sumOf(third, "clip_level_negative").result, -0.359, 0.001);
}

/// m 15 %: a = 32.1; half travel of 250k gives 37k5.
TEST(Sums, PotLaw) {
    const Sum drive = sumOf(lampSums(), "pot_drive");
    EXPECT_NEAR(drive.result, 37.5e3, 1.0);
    EXPECT_NE(drive.withValues.find("32.1"), std::string::npos) << drive.withValues;
    EXPECT_NE(drive.withValues.find("m = 15"), std::string::npos) << drive.withValues;
    EXPECT_EQ(drive.approximation, "");
    EXPECT_EQ(sumOf(lampSums(), "pot_guitar").formula, "R(x) = P·x");
}

/// 2.8 H, 610 pF: 3.85 kHz. Guitar volume, pulldown and base resistor are 132k together, so 1/Q = wL/132k + 7k/wL =
/// 0.615, and the summit lies at f0 sqrt(1 - 1/(2 Q^2)) = 3.47 kHz.
TEST(Sums, PickupsOwnResonance) {
    const Sum peak = sumOf(lampSums(), "pickup_peak");
    EXPECT_NEAR(peak.result, 3851.0, 2.0);
    EXPECT_EQ(peak.withValues, "1/(2π·√(2.8 H·(110p + 500p)))");
    ASSERT_TRUE(peak.solved);
    EXPECT_NEAR(*peak.solved, 3470.0, 70.0);
}

/// -13/+17 %, and 11.2 % by the rule of squares, of 5 % and 10 %.
TEST(Sums, SpreadOfTheCorner) {
    const auto sums = lampSums();
    EXPECT_NEAR(sumOf(sums, "corner_lowest").result, -13.4, 0.05);
    EXPECT_NEAR(sumOf(sums, "corner_highest").result, 17.0, 0.05);
    EXPECT_NEAR(sumOf(sums, "corner_rule_of_squares").result, 11.2, 0.05);
    EXPECT_EQ(sumOf(sums, "corner_rule_of_squares").withValues, "√(5.00² + 10.0²) %");
}

TEST(Sums, FollowTheLoadedCircuit) {
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = mod.letter == "C";
    }
    const auto sums = sumsOf(*nowCircuit(job), job.setting);
    EXPECT_EQ(sumOf(sums, "gain_leg_corner").withValues, "1/(2π·2k7·56n)");
    EXPECT_NEAR(sumOf(sums, "gain_leg_corner").result, 1052.6, 0.05);
}

TEST(Sums, ACircuitWithoutTheirPartsHasNone) {
    test::SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    EXPECT_TRUE(sumsOf(circuit, {}).empty());
}

}  // namespace
}  // namespace ohmwright
