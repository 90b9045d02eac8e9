// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/time_step.h"

#include "core/solve/settled.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;

struct Rest {
    Equations equations;
    OperatingPoint bias;
};

Rest restOf(const Circuit& circuit) {
    auto equations = Equations::compile(circuit, {});
    EXPECT_TRUE(equations) << equations.error().message;
    auto bias = solveBias(*equations);
    EXPECT_TRUE(bias) << bias.error().message;
    return {*std::move(equations), *std::move(bias)};
}

TEST(TimeStep, SeriesResonatorRingsAsItsClosedForm) {
    // Series 100 ohm, 10 mH, 100 nF after a unit step: v(10 us) .0479751, v(50) .8678628, v(100) 1.6045658, v(200)
    // .6346377 (closed form, computed independently). The rule's own error at h = 0.05 us is under 1e-5.
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 100.0).l("L1", "a", "out", 10e-3).c("C1", "out", "0", 100e-9);
    const Rest rest = restOf(circuit);
    const double h = 0.05e-6;
    auto stepper = TimeStepper::make(rest.equations, h);
    ASSERT_TRUE(stepper);
    stepper->startAtRest(rest.bias);
    const auto out = std::size_t(rest.equations.indexOfNet("out"));
    for (int k = 1; k <= 4000; ++k) {
        // The rule sees the step as a ramp of one h: the wave is half a step late.
        ASSERT_TRUE(stepper->step(1.0));
        const double microseconds = (k - 0.5) * 0.05;
        const double sigma = 100.0 / (2.0 * 10e-3);
        const double omega = std::sqrt(1.0 / (10e-3 * 100e-9) - sigma * sigma);
        const double t = microseconds * 1e-6;
        const double closed = 1.0 - std::exp(-sigma * t) * (std::cos(omega * t) + sigma / omega * std::sin(omega * t));
        ASSERT_NEAR(stepper->x()[out], closed, 2e-5) << microseconds;
    }
    const auto closedAt = [](double t) {
        const double sigma = 5000.0;
        const double omega = std::sqrt(1e9 - sigma * sigma);
        return 1.0 - std::exp(-sigma * t) * (std::cos(omega * t) + sigma / omega * std::sin(omega * t));
    };
    EXPECT_NEAR(closedAt(10e-6), 0.0479751, 1e-7);
    EXPECT_NEAR(closedAt(100e-6), 1.6045658, 1e-7);
}

TEST(TimeStep, SensitivityIsTheDerivativeOfTheState) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 2.2e3)
        .c("C1", "a", "0", 10e-9)
        .d("D1", "a", "0", {{"IS", 2.52e-9}, {"N", 1.752}, {"CJO", 4e-12}, {"TT", 20e-9}})
        .d("D2", "0", "a", {{"IS", 2.52e-9}, {"N", 1.752}})
        .c("C2", "a", "out", 1e-6)
        .r("R2", "out", "0", 10e3);
    const Rest rest = restOf(circuit);
    const double h = 1.0 / (1000.0 * 129.0);
    auto stepper = TimeStepper::make(rest.equations, h);
    ASSERT_TRUE(stepper);
    stepper->startAtRest(rest.bias);
    const auto start = stepper->companions();
    const auto run = [&](const std::vector<double>& companions) {
        stepper->start(companions, rest.bias.x, rest.bias.state);
        stepper->beginSensitivity();
        for (int k = 1; k <= 40; ++k) {
            const auto stepped = stepper->step(std::sin(2.0 * std::numbers::pi * k / 129.0));
            EXPECT_TRUE(stepped) << stepped.error().message;
            stepper->carrySensitivity();
        }
        return stepper->companions();
    };
    run(start);
    const auto carried = stepper->sensitivity();
    const std::size_t count = start.size();
    // C1 and C2 carry the memory; both are moved by about a millivolt's worth.
    for (const std::size_t j : {std::size_t(0), std::size_t(1)}) {
        const double move = 1e-3 / stepper->voltsPerCompanion(j) * 1e-3;
        auto above = start;
        auto below = start;
        above[j] += move;
        below[j] -= move;
        const auto high = run(above);
        const auto low = run(below);
        for (std::size_t k = 0; k < count; ++k) {
            const double difference = (high[k] - low[k]) / (2.0 * move);
            EXPECT_NEAR(carried[k * count + j], difference, 1e-3 * std::abs(difference) + 1e-4) << k << " by " << j;
        }
    }
}

TEST(TimeStep, ADriveThatIsNoNumberIsAnErrorWithoutDevicesToo) {
    // Only devices' voltages were looked at: a linear circuit stepped on with no numbers at all.
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-6);
    const Rest rest = restOf(circuit);
    auto stepper = TimeStepper::make(rest.equations, 1e-6);
    ASSERT_TRUE(stepper);
    for (const double drive : {std::nan(""), std::numeric_limits<double>::infinity(), 1.7e308}) {
        stepper->startAtRest(rest.bias);
        const auto stepped = stepper->step(drive);
        if (drive == 1.7e308) {
            EXPECT_TRUE(!stepped || std::isfinite(stepper->x()[std::size_t(rest.equations.indexOfNet("out"))]));
        } else {
            ASSERT_FALSE(stepped) << drive;
            EXPECT_EQ(stepped.error().code, ErrorCode::noConvergence);
        }
    }
}

TEST(TimeStep, AnotherStepGoesOnWhereTheFirstStopped) {
    // A resonator left to ring: after 50 us in steps of 50 ns it goes on in steps of 20 ns; closed form as above.
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 100.0).l("L1", "a", "out", 10e-3).c("C1", "out", "0", 100e-9);
    const Rest rest = restOf(circuit);
    auto coarse = TimeStepper::make(rest.equations, 50e-9);
    auto fine = TimeStepper::make(rest.equations, 20e-9);
    coarse->startAtRest(rest.bias);
    for (int k = 0; k < 1000; ++k) {
        ASSERT_TRUE(coarse->step(1.0));
    }
    fine->continueFrom(*coarse);
    for (int k = 0; k < 2500; ++k) {
        ASSERT_TRUE(fine->step(1.0));
    }
    const double sigma = 5000.0;
    const double omega = std::sqrt(1e9 - sigma * sigma);
    const double t = 100e-6 - 25e-9;  // half the first step late, as above
    const double closed = 1.0 - std::exp(-sigma * t) * (std::cos(omega * t) + sigma / omega * std::sin(omega * t));
    EXPECT_NEAR(fine->x()[std::size_t(rest.equations.indexOfNet("out"))], closed, 2e-5);
}

TEST(TimeStep, GivesTheSameBitsWhateverStepWasAskedForBefore) {
    // The pivot order is shared by all steppers of a topology, and was that of the first one's step.
    const std::map<std::string, double> card{{"IS", 2.52e-9}, {"N", 1.752}, {"CJO", 4e-12}};
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 2.2e3).c("C1", "a", "b", 1e-6).r("R2", "b", "0", 47e3).d("D1", "b", "0", card);
    circuit.r("R3", "b", "out", 1e3).c("C2", "out", "0", 10e-9).l("L1", "out", "d", 1e-3).r("R4", "d", "0", 10.0);
    const auto run = [&](const std::vector<double>& before) {
        const Rest rest = restOf(circuit);
        for (const double seconds : before) {
            EXPECT_TRUE(TimeStepper::make(rest.equations, seconds));
        }
        auto stepper = TimeStepper::make(rest.equations, 4e-6);
        stepper->startAtRest(rest.bias);
        for (int k = 1; k <= 300; ++k) {
            EXPECT_TRUE(stepper->step(std::sin(0.02 * k)));
        }
        return stepper->x();
    };
    const std::vector<double> alone = run({});
    EXPECT_EQ(run({1e-12}), alone);
    EXPECT_EQ(run({1.0, 1e-9}), alone);
}

}  // namespace
}  // namespace ohmwright
