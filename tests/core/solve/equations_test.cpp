// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/equations.h"

#include "tests/support/small_circuits.h"
#include "tests/support/spoken.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <random>
#include <string>

namespace ohmwright {
namespace {

using test::SmallCircuit;

/// A bit of everything that is not linear.
Circuit mixedCircuit() {
    SmallCircuit circuit(0.3);
    circuit.r("R1", "in", "b", 10e3)
        .c("C1", "in", "b", 33e-9)
        .q("Q1", "vcc", "b", "e", test::card2N3904())
        .r("R2", "e", "0", 1e3)
        .q("Q2", "c2", "e", "0", {{"POLARITY", -1.0}, {"IS", 1e-14}, {"RE", 2.0}})
        .r("R3", "c2", "0", 5e3)
        .opamp("U1", {"e", "im", "o", "vcc", "0"}, {})
        .r("R4", "im", "o", 100e3)
        .r("R5", "im", "0", 10e3)
        .d("D1", "im", "o", {{"IS", 2.52e-9}, {"N", 1.752}, {"RS", 0.568}, {"CJO", 4e-12}, {"TT", 20e-9}})
        .d("D2", "o", "im", {{"IS", 2.52e-9}, {"N", 1.752}})
        .l("L1", "o", "out", 2.8)
        .r("R6", "out", "0", 10e3)
        .v("VCC", "vcc", "0", 9.0);
    return circuit.circuit();
}

TEST(Equations, TheMatrixIsTheDerivativeOfTheCurrents) {
    const auto equations = Equations::compile(mixedCircuit(), {});
    ASSERT_TRUE(equations) << equations.error().message;
    const auto size = std::size_t(equations->size());
    std::mt19937 random(3);
    std::uniform_real_distribution<double> volts(-0.4, 0.4);
    for (int trial = 0; trial < 20; ++trial) {
        std::vector<double> x(size + 1, 0.0);
        for (std::size_t k = 0; k < size; ++k) {
            x[k] = volts(random);
        }
        Evaluation at;
        const EvaluationOptions exact{.junctions = Junctions::exact};
        equations->evaluate(x, exact, at);
        for (std::size_t column = 0; column < size; ++column) {
            const double step = 1e-7;
            Evaluation above, below;
            x[column] += step;
            equations->evaluate(x, exact, above);
            x[column] -= 2.0 * step;
            equations->evaluate(x, exact, below);
            x[column] += step;
            for (std::size_t row = 0; row < size; ++row) {
                double entry = 0.0;
                for (const int slot : equations->pattern().slotsOfRow(int(row))) {
                    if (equations->pattern().columnOf(std::size_t(slot)) == int(column)) {
                        entry = at.conductances[std::size_t(slot)];
                    }
                }
                const double difference = (above.residual[row] - below.residual[row]) / (2.0 * step);
                EXPECT_NEAR(entry, difference, 1e-5 * std::abs(difference) + 1e-7 * std::abs(at.residual[row]) + 1e-8)
                    << equations->unknownName(int(row)) << " by " << equations->unknownName(int(column));
            }
        }
    }
}

TEST(Equations, ChargeSlopesAreTheDerivativesOfCharges) {
    const auto equations = Equations::compile(mixedCircuit(), {});
    ASSERT_TRUE(equations) << equations.error().message;
    std::vector<double> x(std::size_t(equations->size()) + 1, 0.0);
    for (std::size_t k = 0; k + 1 < x.size(); ++k) {
        x[k] = 0.1 * std::sin(double(k));
    }
    const EvaluationOptions exact{.junctions = Junctions::exact};
    Evaluation at;
    equations->evaluate(x, exact, at);
    const auto& slopes = equations->chargeSlopes();
    const double step = 1e-6;
    for (std::size_t unknown = 0; unknown + 1 < x.size(); ++unknown) {
        std::vector<double> expected(at.charges.size(), 0.0);
        for (std::size_t k = 0; k < slopes.size(); ++k) {
            const double sign = slopes[k].controlPlus == int(unknown)    ? 1.0
                                : slopes[k].controlMinus == int(unknown) ? -1.0
                                                                         : 0.0;
            expected[std::size_t(slopes[k].charge)] += sign * at.slopes[k];
        }
        auto moved = x;
        Evaluation above, below;
        moved[unknown] += step;
        equations->evaluate(moved, exact, above);
        moved[unknown] -= 2.0 * step;
        equations->evaluate(moved, exact, below);
        for (std::size_t q = 0; q < at.charges.size(); ++q) {
            EXPECT_NEAR((above.charges[q] - below.charges[q]) / (2.0 * step), expected[q],
                        1e-5 * std::abs(expected[q]) + 1e-9 * std::abs(at.charges[q]) / step);
        }
    }
}

TEST(Equations, AFaultIsNamedBeforeAnythingIsSolved) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).c("C1", "out", "0", 1e-9).c("C2", "out", "nowhere", 1e-9);
    circuit.c("C3", "nowhere", "0", 1e-9);
    const auto equations = Equations::compile(circuit, {});
    ASSERT_FALSE(equations);
    EXPECT_EQ(equations.error().code, ErrorCode::unsolvable);
    EXPECT_NE(equations.error().message.find("nowhere"), std::string::npos) << equations.error().message;
}

TEST(Equations, EveryDeviceOfManyMayHaveATypeOfItsOwn) {
    // Each type was searched for in the list of all, twice a device: the work grew with their square.
    constexpr int count = 60'000;
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3);
    for (int k = 1; k <= count; ++k) {
        circuit.d("D" + std::to_string(k), "out", "0", {{"IS", 1e-15 * k}});
    }
    const std::clock_t begin = std::clock();
    const auto equations = Equations::compile(circuit, {});
    const double processorSeconds = double(std::clock() - begin) / CLOCKS_PER_SEC;
    ASSERT_TRUE(equations) << equations.error().message;
    EXPECT_LT(processorSeconds, 10.0);
}

TEST(Equations, ALiftedLegHasAVoltageAndNoEffect) {
    SmallCircuit circuit(1.0);
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3).c("C1", "out", "C1.2 open", 1e-6);
    circuit.circuit().openNets = {"C1.2 open"};
    EXPECT_TRUE(Equations::compile(circuit, {}));
}

TEST(Equations, AnUnknownIsNamedInTheLanguageWhateverWasSpokenWhenItWasMade) {
    const auto equations = Equations::compile(mixedCircuit(), {});
    ASSERT_TRUE(equations) << equations.error().message;
    const auto names = [&equations] {
        std::vector<std::string> all;
        for (int unknown = 0; unknown < equations->size(); ++unknown) {
            all.push_back(equations->unknownName(unknown));
        }
        return all;
    };
    const auto has = [](const std::vector<std::string>& all, const char* name) {
        return std::find(all.begin(), all.end(), name) != all.end();
    };
    const std::vector<std::string> english = names();
    EXPECT_EQ(english[std::size_t(equations->indexOfNet("vcc"))], "net vcc");
    EXPECT_TRUE(has(english, "the inner emitter of Q2"));
    EXPECT_TRUE(has(english, "the inner gain node of U1"));
    EXPECT_TRUE(has(english, "the current of VCC"));
    const test::Spoken german{{"the inner %2 of %1", "%1, innen: %2"},
                              {"emitter", "Emitter"},
                              {"gain node", "Verstärkungsknoten"},
                              {"net %1", "Netz %1"}};
    EXPECT_EQ(names()[std::size_t(equations->indexOfNet("vcc"))], "Netz vcc");
    EXPECT_TRUE(has(names(), "Q2, innen: Emitter"));
    EXPECT_TRUE(has(names(), "U1, innen: Verstärkungsknoten"));
}

}  // namespace
}  // namespace ohmwright
