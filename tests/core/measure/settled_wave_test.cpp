// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/settled_wave.h"

#include "core/measure/wave.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <vector>

namespace ohmwright {
namespace {

using test::SmallCircuit;

/// Diodes driven from 1 kΩ by 200 V: edges of some microseconds in a period of 1 ms.
SmallCircuit steepClipper() {
    const std::map<std::string, double> card{{"IS", 2.52e-9}, {"N", 1.752}};
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).d("D1", "out", "0", card).d("D2", "0", "out", card).c("C1", "out", "0", 1e-9);
    return circuit;
}

TEST(SettledWave, SaysWhatTheFinestStepsLeaveOpen) {
    // Where steps cannot be made finer, thirty times the share was once accepted without a word.
    constexpr int harmonics = 10;
    const SmallCircuit circuit = steepClipper();
    const auto solved = solveCircuit(circuit, {});
    ASSERT_TRUE(solved) << solved.error().message;
    const int out = solved->equations->indexOfNet("out");
    const SettledTone tone{1000.0, 200.0, {}};
    bool wasOpen = false;
    bool wasRefused = false;
    for (double share = 1e-4; share > 1e-13 && !wasRefused; share /= 4.0) {
        const auto wave = settleWithin(*solved, tone, out, 257, harmonics, {}, share);
        if (!wave) {
            EXPECT_EQ(wave.error().code, ErrorCode::noConvergence) << wave.error().message;
            wasRefused = true;
            continue;
        }
        EXPECT_LE(wave->unsteadyShare, 30.0 * share);
        if (wave->unsteadyShare <= share || wasOpen) {
            continue;
        }
        wasOpen = true;
        EXPECT_GT(2 * wave->steps, 16385U) << "finer steps were left untried";
        // Four times as fine, sixteen times as exact: the truth for what was left open.
        const std::size_t finer = oddSteps(4.0 * double(wave->steps));
        const auto truth = SettledSolver::make(*solved->equations, *solved->bias, 1000.0, finer)->solve(200.0);
        ASSERT_TRUE(truth) << truth.error().message;
        const auto exact = truth->wave(out);
        const auto ours = wave->wave(out);
        const auto a = harmonicsOf(exact, harmonics, 1.0 / double(exact.size()));
        const auto b = harmonicsOf(ours, harmonics, 1.0 / double(ours.size()));
        double off = 0.0;
        for (std::size_t n = 0; n < a.size(); ++n) {
            off = std::max(off, std::abs(a[n] - b[n]));
        }
        EXPECT_LE(off, 3.0 * wave->unsteadyShare * alternatingRms(ours));
    }
    EXPECT_TRUE(wasOpen);
    EXPECT_TRUE(wasRefused);
}

TEST(SettledWave, ADecibelIsTwelvePercent) {
    SettledWave wave;
    wave.unsteadyShare = 0.0122;  // of a harmonic at a tenth of the RMS, 10^(1/20) - 1 is 12.2 %
    EXPECT_NEAR(wave.steadyAboveDb(), -20.0, 0.01);
}

}  // namespace
}  // namespace ohmwright
