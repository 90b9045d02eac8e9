// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/cold_wave.h"

#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;

/// A jump of 1 V at `delay` into 1 kΩ and 100 nF; the wave at "out" for 1 ms, 48,000 samples a second.
Result<ColdWave> waveAfterJump(double delay, double rise, double width) {
    SmallCircuit circuit;
    circuit.v("V2", "step", "0", 0.0).r("R1", "step", "out", 1e3).c("C1", "out", "0", 100e-9).r("R2", "in", "0", 1e3);
    SourceWave pulse;
    pulse.shape = SourceWave::Shape::pulse;
    pulse.high = 1.0;
    pulse.delay = delay;
    pulse.rise = pulse.fall = rise;
    pulse.width = width;
    findPart(circuit.circuit(), "V2")->wave = pulse;
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    return coldWave(*equations, *bias, 1000.0, 0.0, 1e-3, 48e3, equations->indexOfNet("out"));
}

TEST(ColdWave, AJumpInsideAStepIsWhereItIs) {
    // Once a jump was put at the next half-step's end, up to 1.7 us late here: 17 mV beside the closed form.
    constexpr double tau = 1e-4;
    constexpr double leftByHalfSteps = 4e-4;  // h²/(4 tau²) of 1 V is 0.3 mV for the step after the jump
    for (const double delay : {100.1e-6, 101.3e-6, 102.7e-6, 125e-6}) {
        for (const double rise : {0.0, 1e-12, 1e-9}) {
            const double width = 300.37e-6;
            const auto wave = waveAfterJump(delay, rise, width);
            ASSERT_TRUE(wave) << wave.error().message;
            for (std::size_t k = 0; k < wave->seconds.size(); ++k) {
                const double t = wave->seconds[k];
                const auto since = [t](double moment) { return t > moment ? -std::expm1(-(t - moment) / tau) : 0.0; };
                EXPECT_NEAR(wave->outputVolts[k], since(delay + rise / 2.0) - since(delay + width + 1.5 * rise),
                            leftByHalfSteps)
                    << delay << ' ' << rise << ' ' << t;
            }
        }
    }
}

TEST(ColdWave, ASlowEdgeIsARampBetweenItsCorners) {
    // Closed form of a ramp of 1 V in 150.3 us into a time constant of 100 us.
    constexpr double tau = 1e-4;
    constexpr double rise = 150.3e-6;
    constexpr double delay = 101.3e-6;
    const auto wave = waveAfterJump(delay, rise, 10.0);
    ASSERT_TRUE(wave) << wave.error().message;
    const auto ramp = [](double t) { return t > 0.0 ? (t + tau * std::expm1(-t / tau)) / rise : 0.0; };
    for (std::size_t k = 0; k < wave->seconds.size(); ++k) {
        const double t = wave->seconds[k] - delay;
        EXPECT_NEAR(wave->outputVolts[k], ramp(t) - ramp(t - rise), 2e-4) << wave->seconds[k];
    }
}

TEST(ColdWave, AToneThatStartsDoesNotRingInAFastPole) {
    // 100 Ω into 10 pF, a pole far above the steps: the current through 100 Ω is C dv/dt, w C V cos(w t), closed form.
    // Once the trapezoidal rule answered the kink at the start with a ringing that no step damped.
    SmallCircuit circuit;
    circuit.c("C1", "in", "out", 10e-12).r("R1", "out", "0", 100.0);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const auto wave = coldWave(*equations, *bias, 1000.0, 1.0, 1e-3, 48e3, equations->indexOfNet("out"));
    ASSERT_TRUE(wave) << wave.error().message;
    const double omega = 2.0 * std::numbers::pi * 1000.0;
    for (std::size_t k = 1; k < wave->seconds.size(); ++k) {
        const double expected = 100.0 * 10e-12 * omega * std::cos(omega * wave->seconds[k]);
        EXPECT_NEAR(wave->outputVolts[k], expected, 0.01 * 100.0 * 10e-12 * omega) << wave->seconds[k];
    }
}

TEST(ColdWave, ASourceThatJumpsAwayFromItsBiasStartsThere) {
    // 1 kHz cosine of 1 V switched onto 10 kΩ and 10 nF: nothing has happened at t = 0; then the closed form.
    SmallCircuit circuit;
    circuit.v("V2", "cosine", "0", 0.0)
        .r("R1", "cosine", "out", 10e3)
        .c("C1", "out", "0", 10e-9)
        .r("R2", "in", "0", 1e3);
    SourceWave cosine;
    cosine.high = 1.0;
    cosine.hertz = 1000.0;
    cosine.degrees = 90.0;
    findPart(circuit.circuit(), "V2")->wave = cosine;
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const auto wave = coldWave(*equations, *bias, 1000.0, 0.0, 1e-3, 48e3, equations->indexOfNet("out"));
    ASSERT_TRUE(wave) << wave.error().message;
    EXPECT_NEAR(wave->outputVolts[0], 0.0, 1e-5);
    const double omega = 2.0 * std::numbers::pi * 1000.0;
    const double tau = 1e-4;
    const double scale = 1.0 / (1.0 + omega * tau * omega * tau);
    for (std::size_t k = 1; k < wave->seconds.size(); ++k) {
        const double t = wave->seconds[k];
        const double expected = scale * (std::cos(omega * t) + omega * tau * std::sin(omega * t) - std::exp(-t / tau));
        EXPECT_NEAR(wave->outputVolts[k], expected, 5e-4) << t;
    }
}

}  // namespace
}  // namespace ohmwright
