// Summit, corners and dip of a stage: closed forms, and the demo Three Hills.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/stage_sweep.h"

#include "tests/support/demo_netlists.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

const Stage whole{"", "in", "out", {}, 0};

/// A low-pass of 10k and 10n: highest at the bottom of the band, its corner at 1/(2 pi R C) but for what 20 Hz has
/// lost.
TEST(StageSweep, CornerOfALowPass) {
    test::SmallCircuit circuit;
    circuit.r("R1", "in", "out", 10e3).c("C1", "out", "0", 10e-9);
    const auto solved = solveCircuit(circuit, {});
    ASSERT_TRUE(solved);
    const double cornerHz = 1.0 / (2.0 * std::numbers::pi * 10e3 * 10e-9);
    const auto corners = findCorners(*solved, whole);
    ASSERT_TRUE(corners);
    EXPECT_FALSE(corners->lowHz);
    EXPECT_NEAR(*corners->highHz, cornerHz, 1e-3 * cornerHz);
    EXPECT_NEAR(corners->highestHz, 20.0, 0.01);
    const auto highest = findHighest(*solved, whole);
    EXPECT_NEAR(highest->highestDb, corners->highestDb, 1e-9);
    const auto dip = findDip(*solved, whole);
    ASSERT_TRUE(dip);
    EXPECT_FALSE(*dip) << "a gain that only falls has no dip";
}

/// A trap of 1 H, 253.3 nF and 1k: the source through 9k leaves 1k/(9k + 1k), -20 dB, at 1/(2 pi sqrt(L C)) = 316.2 Hz.
TEST(StageSweep, DipOfATrap) {
    test::SmallCircuit circuit;
    circuit.r("R1", "in", "out", 9e3).l("L1", "out", "m", 1.0).c("C1", "m", "k", 253.3e-9).r("R2", "k", "0", 1e3);
    const auto solved = solveCircuit(circuit, {});
    ASSERT_TRUE(solved) << solved.error().message;
    const auto dip = findDip(*solved, whole);
    ASSERT_TRUE(dip);
    ASSERT_TRUE(*dip);
    EXPECT_NEAR((*dip)->depthDb, -20.0, 1e-3);
    EXPECT_NEAR((*dip)->hertz, 1.0 / (2.0 * std::numbers::pi * std::sqrt(253.3e-9)), 0.2);
    EXPECT_GT((*dip)->underDb, 15.0);
}

/// Three Hills: -11.863 dB at 822.6 Hz from o1 to out.
TEST(StageSweep, DipOfTheDemosToneNetwork) {
    const Circuit circuit = test::DemoNetlist::circuitOf(test::DemoNetlist::stock("three-hills").text(), "out");
    const auto solved = solveCircuit(circuit, {});
    ASSERT_TRUE(solved);
    const auto dip = findDip(*solved, {"", "o1", "out", {}, 0});
    ASSERT_TRUE(dip);
    ASSERT_TRUE(*dip);
    EXPECT_NEAR((*dip)->depthDb, -11.8625, 0.005);
    EXPECT_NEAR((*dip)->hertz, 822.6, 4.1);
}

}  // namespace
}  // namespace ohmwright
