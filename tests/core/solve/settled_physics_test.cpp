// The settled state against what it stands for: the end of a long run from a cold start.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/settled.h"
#include "core/solve/time_step.h"

#include "tests/support/random_networks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;

constexpr double toneHz = 1000.0;
constexpr std::size_t steps = 129;

/// A ladder of two to five nodes with diodes and transistors. Its slowest memory is a fraction of a period and its
/// fastest about a step: what is far faster rings on from step to step by the trapezoidal rule, and a cold run with it.
class RandomClipper {
public:
    explicit RandomClipper(unsigned seed) : m_chance(seed) {}

    SmallCircuit make() {
        SmallCircuit circuit(within(-0.3, 0.3));
        const int nodes = 2 + m_chance.below(4);
        std::string last = "in";
        for (int k = 1; k <= nodes; ++k) {
            const std::string net = k == nodes ? "out" : "n" + std::to_string(k);
            circuit.r(name("R"), last, net, decade(500.0, 5e3)).r(name("R"), net, "0", decade(2e3, 20e3));
            circuit.c(name("C"), net, "0", decade(2e-9, 20e-9));
            if (m_chance.below(3) == 0) {
                circuit.c(name("C"), last, net, decade(1e-9, 20e-9));
            }
            addDevice(circuit, last, net);
            last = net;
        }
        return circuit;
    }

    double level() { return decade(0.05, 5.0); }

private:
    double within(double low, double high) { return low + (high - low) * m_chance.below(1001) / 1000.0; }
    double decade(double low, double high) { return m_chance.between(low, high); }
    std::string name(const char* letter) { return letter + std::to_string(++m_count); }

    void addDevice(SmallCircuit& circuit, const std::string& from, const std::string& net) {
        switch (m_chance.below(5)) {
            case 0:
                circuit.d(name("D"), net, "0", {{"IS", decade(1e-14, 1e-7)}, {"N", within(1.0, 2.0)}, {"CJO", 5e-12}});
                break;
            case 1:
                // Never from the source itself, which would drive amperes through it.
                circuit.d(name("D"), from == "in" ? "0" : from, net, {{"IS", 2.52e-9}, {"N", 1.752}, {"TT", 20e-9}});
                break;
            case 2:
                circuit.q(name("Q"), net, from, "0", {{"IS", 1e-15}, {"BF", within(50.0, 300.0)}, {"CJC", 4e-12}});
                break;
            default:
                break;
        }
    }

    test::Chance m_chance;
    int m_count = 0;
};

/// Of all nets over the last of the periods that it takes to come within `enough`, 200 at the most [V].
double worstDifference(const SmallCircuit& made, double level, double enough) {
    const Circuit& circuit = made;
    const auto equations = Equations::compile(circuit, {});
    EXPECT_TRUE(equations) << equations.error().message;
    const auto bias = solveBias(*equations);
    EXPECT_TRUE(bias) << bias.error().message;
    auto solver = SettledSolver::make(*equations, *bias, toneHz, steps);
    const auto settled = solver->solve(level);
    EXPECT_TRUE(settled) << settled.error().message;

    auto cold = TimeStepper::make(*equations, 1.0 / (toneHz * double(steps)));
    cold->startAtRest(*bias);
    double worst = 1.0;
    for (int period = 1; settled && worst > enough && period <= 200; ++period) {
        worst = 0.0;
        for (std::size_t k = 1; k <= steps; ++k) {
            const double drive = level * std::sin(2.0 * std::numbers::pi * double(k) / double(steps));
            const auto stepped = cold->step(drive);
            if (!stepped) {
                ADD_FAILURE() << stepped.error().message;
                return 1.0;
            }
            for (std::size_t unknown = 0; unknown < equations->nets().size(); ++unknown) {
                const double there = settled->samples[(k - 1) * settled->unknowns + unknown];
                worst = std::max(worst, std::abs(cold->x()[unknown] - there));
            }
        }
    }
    return worst;
}

TEST(SettledPhysics, TheSettledStateIsTheEndOfALongColdRun) {
    // Both walk the same steps, so that they differ by nothing but what is left of the start.
    for (unsigned seed = 1; seed <= 1000; ++seed) {
        RandomClipper random(seed);
        const SmallCircuit circuit = random.make();
        const double level = random.level();
        const double enough = 3e-6 * std::max(1.0, level);
        EXPECT_LE(worstDifference(circuit, level, enough), enough) << "seed " << seed;
    }
}

}  // namespace
}  // namespace ohmwright
