// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/settled.h"

#include "core/solve/cold_wave.h"
#include "tests/support/csv_rows.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;

/// Amplitude of harmonic n of samples that begin one step into the period; a plain sum, apart from core/measure.
double amplitudeOf(const std::vector<double>& period, int n) {
    std::complex<double> sum = 0.0;
    for (std::size_t k = 0; k < period.size(); ++k) {
        sum += period[k] * std::polar(1.0, -2.0 * std::numbers::pi * n * double(k) / double(period.size()));
    }
    return (n == 0 ? 1.0 : 2.0) * std::abs(sum) / double(period.size());
}

std::vector<double> settledWave(const Circuit& circuit, double hertz, double volts, std::size_t steps) {
    const auto equations = Equations::compile(circuit, {});
    EXPECT_TRUE(equations) << equations.error().message;
    const auto bias = solveBias(*equations);
    EXPECT_TRUE(bias) << bias.error().message;
    auto solver = SettledSolver::make(*equations, *bias, hertz, steps);
    EXPECT_TRUE(solver);
    const auto settled = solver->solve(volts);
    EXPECT_TRUE(settled) << settled.error().message;
    return settled ? settled->wave(equations->indexOfNet("out")) : std::vector<double>(steps, 0.0);
}

TEST(Settled, DiodeClippersHaveTheirPublishedHarmonics) {
    // clipper_harmonics.csv: static rows from the Lambert W form; dynamic rows (C dv/dt = (Vi - v)/R - 2 IS sinh(v/45.3
    // mV), values of Yeh, Abel, Smith, DAFx-07) by a stiff ODE solver and a general-purpose simulator.
    int compared = 0;
    for (const auto& row : test::referenceTable("clipper_harmonics.csv")) {
        const double level = std::stod(row.at("A_source_peak"));
        const bool isDynamic = row.at("kind").rfind("dynamic", 0) == 0;
        double emission = 1.752;
        if (isDynamic) {
            emission = 45.3e-3 / 25.8649257863e-3;
        } else {
            emission = std::stod(row.at("N"));
        }
        const std::map<std::string, double> card{{"IS", std::stod(row.at("IS"))}, {"N", emission}};
        SmallCircuit circuit;
        circuit.r("R1", "in", "out", std::stod(row.at("R"))).d("D2", "0", "out", card);
        if (row.at("circuit").rfind("two series", 0) == 0) {
            circuit.d("D1", "out", "joint", card).d("D3", "joint", "0", card);
        } else {
            circuit.d("D1", "out", "0", card);
        }
        double hertz = 1000.0;
        if (isDynamic) {
            circuit.c("C1", "out", "0", 10e-9);
            hertz = std::stod(row.at("kind").substr(row.at("kind").find("f=") + 2));
        }
        const auto wave = settledWave(circuit, hertz, level, 1025);
        EXPECT_NEAR(amplitudeOf(wave, 0), std::abs(std::stod(row.at("DC"))), 2e-5) << row.at("circuit") << level;
        for (int n = 1; n <= 9; ++n) {
            EXPECT_NEAR(amplitudeOf(wave, n), std::stod(row.at("h" + std::to_string(n))), 1e-4)
                << row.at("circuit") << ", " << level << " V, harmonic " << n;
            ++compared;
        }
    }
    EXPECT_GE(compared, 80);
}

TEST(Settled, LinearCircuitsAreTheirResponseExactly) {
    // A high-pass of 0.1 Hz settles over seconds; the period closes at once all the same. Closed form of RC.
    SmallCircuit circuit;
    circuit.c("C1", "in", "out", 1e-6).r("R1", "out", "0", 1.59e6);
    const auto wave = settledWave(circuit, 220.0, 0.1, 257);
    const double ratio = 2.0 * std::numbers::pi * 220.0 * 1e-6 * 1.59e6;
    EXPECT_NEAR(amplitudeOf(wave, 1), 0.1 * ratio / std::sqrt(1.0 + ratio * ratio), 1e-7);
    EXPECT_NEAR(amplitudeOf(wave, 0), 0.0, 1e-7);
}

TEST(Settled, ACoupledClipperIsWhereALongColdRunEnds) {
    // Lopsided diodes behind a coupling capacitor: its charge creeps for many periods.
    const std::map<std::string, double> card{{"IS", 2.52e-9}, {"N", 1.752}};
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 2.2e3)
        .c("C1", "a", "out", 1e-6)
        .d("D1", "out", "0", card)
        .d("D2", "0", "j", card)
        .d("D3", "j", "out", card)
        .r("R2", "out", "0", 4.7e3);
    const auto equations = Equations::compile(circuit, {});
    ASSERT_TRUE(equations);
    const auto bias = solveBias(*equations);
    ASSERT_TRUE(bias);
    const int out = equations->indexOfNet("out");
    const auto settled = settledWave(circuit, 500.0, 2.0, 257);
    const auto cold = coldWave(*equations, *bias, 500.0, 2.0, 0.2, 500.0 * 257.0, out);
    ASSERT_TRUE(cold) << cold.error().message;
    const std::size_t end = cold->outputVolts.size() - 1;
    for (std::size_t k = 0; k < 257; ++k) {
        EXPECT_NEAR(settled[k], cold->outputVolts[end - 257 + 1 + k], 2e-4) << k;
    }
}

TEST(Settled, AnEvenStepCountAndANonsenseToneAreRefused) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    EXPECT_FALSE(SettledSolver::make(*equations, *bias, 220.0, 256));
    EXPECT_FALSE(SettledSolver::make(*equations, *bias, 0.0, 257));
    EXPECT_FALSE(SettledSolver::make(*equations, *bias, std::nan(""), 257));
}

TEST(Settled, AStoppedSolveIsCancelled) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-6);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    auto solver = SettledSolver::make(*equations, *bias, 220.0, 257);
    std::stop_source source;
    source.request_stop();
    const auto settled = solver->solve(0.1, source.get_token());
    ASSERT_FALSE(settled);
    EXPECT_EQ(settled.error().code, ErrorCode::cancelled);
}

TEST(Settled, ASourceThatComesBackWithTheToneBelongsToTheSettledState) {
    // A square wave of the tone's own frequency through a resistor into a capacitor: between its edges the voltage runs
    // exponentially between two levels that follow from equal rise and fall, closed form.
    SmallCircuit circuit;
    circuit.v("V2", "square", "0", 0.0).r("R1", "square", "out", 1e3).c("C1", "out", "0", 1e-6).r("R2", "in", "0", 1e3);
    SourceWave wave;
    wave.shape = SourceWave::Shape::pulse;
    wave.high = 1.0;
    wave.delay = 3e-3;
    wave.rise = wave.fall = 1e-9;
    wave.period = 2e-3;
    wave.width = wave.period / 2.0 - 1e-9;
    findPart(circuit.circuit(), "V2")->wave = wave;
    const auto period = settledWave(circuit, 500.0, 0.0, 2049);
    const double decay = std::exp(-1.0);  // half a period over R1 C1
    const double low = decay / (1.0 + decay);
    const auto [lowest, highest] = std::minmax_element(period.begin(), period.end());
    EXPECT_NEAR(*lowest, low, 1e-3);
    EXPECT_NEAR(*highest, 1.0 - low, 1e-3);

    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const auto other = SettledSolver::make(*equations, *bias, 300.0, 129);
    ASSERT_FALSE(other);
    EXPECT_NE(other.error().message.find("V2"), std::string::npos) << other.error().message;
}

/// A square wave of 0 and 1 V at 500 Hz from net "square" to ground; it rises at 3 ms, a period's middle.
Circuit withSquare(SmallCircuit& circuit) {
    circuit.v("V2", "square", "0", 0.0).r("R9", "in", "0", 1e3);
    SourceWave wave;
    wave.shape = SourceWave::Shape::pulse;
    wave.high = 1.0;
    wave.delay = 3e-3;
    wave.rise = wave.fall = 1e-9;
    wave.period = 2e-3;
    wave.width = wave.period / 2.0 - 1e-9;
    findPart(circuit.circuit(), "V2")->wave = wave;
    return circuit;
}

TEST(Settled, APulsesEdgesDoNotRingInAFastPole) {
    // 10 pF into 100 Ω: a nanosecond after an edge nothing is left of it, and a microsecond after it nothing may be
    // seen. Once every edge left an alternating wave of half a volt that lasted for the whole period.
    SmallCircuit circuit;
    circuit.c("C1", "square", "out", 10e-12).r("R1", "out", "0", 100.0);
    const auto period = settledWave(withSquare(circuit), 500.0, 0.0, 513);
    // Edges at the shares 0 and 0.5; a step is a share of 1/513.
    for (std::size_t k = 0; k < period.size(); ++k) {
        const double share = double(k + 1) / double(period.size());
        const double since = std::fmod(share, 0.5);
        if (since > 2.0 / 513.0) {
            EXPECT_NEAR(period[k], 0.0, 1e-5) << share;
        }
    }
}

TEST(Settled, AWaveWithEdgesStandsAtItsPlaceInThePeriod) {
    // 1 kΩ and 1 µF: up from `low` in the second half of the period, down in the first; closed form. An edge at the
    // period's beginning makes the solver look for the period from a later moment on.
    SmallCircuit circuit;
    circuit.r("R1", "square", "out", 1e3).c("C1", "out", "0", 1e-6);
    const auto period = settledWave(withSquare(circuit), 500.0, 0.0, 2049);
    const double tau = 1e-3;
    const double decay = std::exp(-1.0);
    const double low = decay / (1.0 + decay);
    for (std::size_t k = 0; k < period.size(); ++k) {
        const double seconds = 2e-3 * double(k + 1) / double(period.size());
        const double expected = seconds <= 1e-3 ? (1.0 - low) * std::exp(-seconds / tau)
                                                : 1.0 - (1.0 - low) * std::exp(-(seconds - 1e-3) / tau);
        EXPECT_NEAR(period[k], expected, 1e-3) << seconds;
    }
}

TEST(Settled, EdgesBehindASlowCouplingCloseAtOnce) {
    // 10 µF into 1 MΩ forgets in ten seconds, 5,000 periods. A linear circuit's period closes in Newton's first pass
    // and is confirmed in the second, if the sensitivity goes through the half-steps rightly.
    SmallCircuit circuit;
    circuit.r("R1", "square", "a", 1e3).c("C1", "a", "0", 100e-9).c("C2", "a", "out", 10e-6).r("R2", "out", "0", 1e6);
    const auto equations = Equations::compile(withSquare(circuit), {});
    const auto bias = solveBias(*equations);
    auto solver = SettledSolver::make(*equations, *bias, 500.0, 513);
    ASSERT_TRUE(solver) << solver.error().message;
    const auto settled = solver->solve(0.0);
    ASSERT_TRUE(settled) << settled.error().message;
    EXPECT_LE(settled->passes, 3);
    const auto wave = settled->wave(equations->indexOfNet("out"));
    double sum = 0.0;
    for (const double volts : wave) {
        sum += volts;
    }
    EXPECT_NEAR(sum / double(wave.size()), 0.0, 2e-3);  // of 1 V; what a step's share of an edge may be
}

TEST(Settled, FinerStepsThatStartFromCoarserOnesEndWhereTheyWouldAlone) {
    const std::map<std::string, double> card{{"IS", 2.52e-9}, {"N", 1.752}, {"CJO", 4e-12}, {"TT", 20e-9}};
    SmallCircuit circuit;
    circuit.r("R1", "in", "a", 2.2e3).c("C1", "a", "out", 1e-6).d("D1", "out", "0", card).d("D2", "0", "j", card);
    circuit.d("D3", "j", "out", card).r("R2", "out", "0", 47e3);
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const int out = equations->indexOfNet("out");
    auto coarse = SettledSolver::make(*equations, *bias, 500.0, 257);
    ASSERT_TRUE(coarse->solve(2.0));
    auto fine = SettledSolver::make(*equations, *bias, 500.0, 1025);
    fine->startFrom(*coarse);
    const auto led = fine->solve(2.0);
    const auto alone = SettledSolver::make(*equations, *bias, 500.0, 1025)->solve(2.0);
    ASSERT_TRUE(led && alone);
    EXPECT_LT(led->passes, alone->passes);
    for (std::size_t k = 0; k < 1025; ++k) {
        EXPECT_NEAR(led->wave(out)[k], alone->wave(out)[k], 1e-5) << k;
    }
}

}  // namespace
}  // namespace ohmwright
