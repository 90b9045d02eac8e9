// Laws that hold in any circuit and need no reference figures, on random ones.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/constants.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"
#include "core/solve/impedance.h"
#include "core/solve/influence.h"
#include "core/solve/noise.h"
#include "core/solve/poles.h"
#include "core/solve/response.h"
#include "tests/support/random_networks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace ohmwright {
namespace {

using test::Chance;
using test::RandomStages;
using test::SmallCircuit;
using Complex = std::complex<double>;

constexpr unsigned circuits = 1000;

struct Solved {
    Equations equations;
    OperatingPoint bias;

    [[nodiscard]] int net(const NetName& name) const { return equations.indexOfNet(name); }
};

std::optional<Solved> solve(const Circuit& circuit) {
    auto equations = Equations::compile(circuit, {});
    if (!equations) {
        ADD_FAILURE() << equations.error().message;
        return std::nullopt;
    }
    auto bias = solveBias(*equations);
    if (!bias) {
        ADD_FAILURE() << bias.error().message;
        return std::nullopt;
    }
    return Solved{std::move(*equations), std::move(*bias)};
}

Complex gainOf(const Equations& equations, const OperatingPoint& bias, int output, double hertz) {
    SmallSignal signal(equations, bias);
    const auto solution = signal.at(hertz);
    if (!solution) {
        ADD_FAILURE() << solution.error().message;
        return 0.0;
    }
    return (*solution)[std::size_t(output)];
}

/// The input source replaced by one of current into a net, all else as it was.
Circuit drivenAt(Circuit circuit, const NetName& net) {
    circuit.parts.front().kind = PartKind::currentSource;
    circuit.parts.front().value = 0.0;
    circuit.parts.front().nets = {"0", net};
    return circuit;
}

std::vector<double> randomFrequencies(Chance& chance) {
    std::vector<double> hertz;
    for (int k = 0; k < 5; ++k) {
        hertz.push_back(chance.between(1.0, 1e6));
    }
    return hertz;
}

TEST(Physics, CurrentsIntoEveryNodeSumToNothing) {
    // Kirchhoff's law at the solved bias, from what the parts themselves say of their terminals: 1 nA, or a millionth
    // of the currents that meet.
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const SmallCircuit small = RandomStages(chance).chain(int(seed) % RandomStages::kinds);
        const Circuit& circuit = small;
        const auto solved = solve(circuit);
        ASSERT_TRUE(solved) << "seed " << seed;
        std::map<NetName, std::pair<double, double>> sums;  // what enters the parts, and the largest of it
        for (const Part& part : circuit.parts) {
            const auto amperes = solved->equations.terminalCurrents(part, solved->bias.x);
            for (std::size_t pin = 0; pin < amperes.size(); ++pin) {
                ASSERT_TRUE(std::isfinite(amperes[pin])) << part.id;
                auto& [sum, largest] = sums[part.nets[pin]];
                sum += amperes[pin];
                largest = std::max(largest, std::abs(amperes[pin]));
            }
        }
        for (const auto& [net, sum] : sums) {
            if (net != "0") {
                EXPECT_LE(std::abs(sum.first), std::max(1e-9, 1e-6 * sum.second)) << "seed " << seed << ", net " << net;
            }
        }
    }
}

TEST(Physics, PassiveNetworksAreReciprocal) {
    // The voltage at "out" by a current into "in" is that at "in" by the same current into "out".
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const SmallCircuit network = test::randomPassiveNetwork(chance);
        const auto there = solve(drivenAt(network, "in"));
        const auto back = solve(drivenAt(network, "out"));
        ASSERT_TRUE(there && back);
        for (const double hertz : randomFrequencies(chance)) {
            const Complex forward = gainOf(there->equations, there->bias, there->net("out"), hertz);
            const Complex backward = gainOf(back->equations, back->bias, back->net("in"), hertz);
            EXPECT_LE(std::abs(forward - backward), 1e-9 * std::abs(forward)) << "seed " << seed << " at " << hertz;
        }
    }
}

TEST(Physics, PassiveNetworksGiveNoPower) {
    // Re Z >= 0 at both ends, and a load takes no more than the source's available power: behind Rs,
    // 4 Rs |V|^2 / RL <= |E|^2.
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        SmallCircuit network = test::randomPassiveNetwork(chance);
        const double source = chance.between(100.0, 1e5);
        const double load = chance.between(100.0, 1e5);
        network.circuit().parts.front().nets[0] = "e";
        network.r("RSOURCE", "e", "in", source).r("RLOAD", "out", "0", load);
        const auto solved = solve(network);
        ASSERT_TRUE(solved);
        const auto hertz = randomFrequencies(chance);
        const auto input = inputImpedance(solved->equations, solved->bias, hertz);
        const auto output = nodeImpedance(solved->equations, solved->bias, solved->net("out"), hertz);
        ASSERT_TRUE(input && output);
        for (std::size_t k = 0; k < hertz.size(); ++k) {
            EXPECT_GE((*input)[k].real(), -1e-12) << "seed " << seed;
            EXPECT_GE((*output)[k].real(), -1e-12) << "seed " << seed;
            const double gain = std::abs(gainOf(solved->equations, solved->bias, solved->net("out"), hertz[k]));
            EXPECT_LE(4.0 * source / load * gain * gain, 1.0 + 1e-9) << "seed " << seed;
        }
    }
}

TEST(Physics, WithoutCoilsAndTransformersNoNodeRisesAboveTheSource) {
    // In a network of resistors alone every voltage lies between those of its neighbours; the same of capacitors at one
    // phase: at DC, no gain is above 1 or below 0.
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const auto solved = solve(test::randomPassiveNetwork(chance, false));
        ASSERT_TRUE(solved);
        for (int k = 0; k < int(solved->equations.nets().size()); ++k) {
            const Complex gain = gainOf(solved->equations, solved->bias, k, 0.0);
            EXPECT_LE(gain.real(), 1.0 + 1e-12);
            EXPECT_GE(gain.real(), -1e-12);
        }
    }
}

TEST(Physics, NoiseOfAPassivePortIsThatOfItsResistance) {
    // Nyquist: 4kT Re Z at any frequency. H. Nyquist, Phys. Rev. 32 (1928) 110.
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const auto solved = solve(test::randomPassiveNetwork(chance));
        ASSERT_TRUE(solved);
        const auto hertz = randomFrequencies(chance);
        const auto noise = solveNoise(solved->equations, solved->bias, solved->net("out"), hertz);
        const auto impedance = nodeImpedance(solved->equations, solved->bias, solved->net("out"), hertz);
        ASSERT_TRUE(noise && impedance);
        for (std::size_t k = 0; k < hertz.size(); ++k) {
            const double expected = 4.0 * boltzmann * nominalKelvin * (*impedance)[k].real();
            // Where a port is nearly a reactance, its real part is what is left of it.
            const double rounding = 1e-12 * 4.0 * boltzmann * nominalKelvin * std::abs((*impedance)[k]);
            EXPECT_NEAR(noise->output[k] * noise->output[k], expected, 1e-9 * expected + rounding) << "seed " << seed;
        }
    }
}

/// d(dB)/d(ln p) by solving anew: central differences at two steps, and Richardson's combination.
std::optional<double> solvedAnew(const Solved& solved, const Circuit& circuit, std::size_t part, double hertz) {
    const auto levelAt = [&](double factor) -> std::optional<double> {
        Circuit changed = circuit;
        changed.parts[part].value *= factor;
        Setting setting;
        const auto equations = Equations::compileLike(solved.equations, changed, setting);
        if (!equations) {
            return std::nullopt;
        }
        auto bias = solveBias(*equations, &solved.bias);
        if (bias) {
            bias = solveBias(*equations, &*bias);  // once more from there: differences need the last digits
        }
        if (!bias) {
            return std::nullopt;
        }
        return 20.0 * std::log10(std::abs(gainOf(*equations, *bias, equations->indexOfNet("out"), hertz)));
    };
    // What the combination leaves grows with the step's fourth power, what rounding leaves shrinks with the step.
    constexpr double step = 4e-4;
    const auto slope = [&](double width) -> std::optional<double> {
        const auto up = levelAt(1.0 + width);
        const auto down = levelAt(1.0 - width);
        return up && down ? std::optional((*up - *down) / (std::log1p(width) - std::log1p(-width))) : std::nullopt;
    };
    const auto fine = slope(step);
    const auto coarse = slope(2.0 * step);
    return fine && coarse ? std::optional((4.0 * *fine - *coarse) / 3.0) : std::nullopt;
}

TEST(Physics, InfluenceIsWhatSolvingAnewGives) {
    int compared = 0;
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const SmallCircuit small = RandomStages(chance).chain(int(seed) % RandomStages::kinds);
        const Circuit& circuit = small;
        const auto solved = solve(circuit);
        ASSERT_TRUE(solved) << "seed " << seed;
        const std::vector<double> hertz{chance.between(50.0, 5e4)};
        const auto curves = solveInfluence(solved->equations, solved->bias, solved->net("out"), hertz);
        ASSERT_TRUE(curves) << "seed " << seed << ": " << curves.error().message;
        // Three parts a circuit, another three in the next.
        for (int n = 0; n < 3; ++n) {
            const auto part = std::size_t(chance.below(int(circuit.parts.size())));
            if (curves->dbPerTenPercent[part].empty() || circuit.parts[part].value == 0.0) {
                continue;
            }
            const auto expected = solvedAnew(*solved, circuit, part, hertz[0]);
            ASSERT_TRUE(expected) << "seed " << seed;
            const double found = curves->dbPerTenPercent[part][0];
            EXPECT_NEAR(found, 0.1 * *expected, 1e-6 * std::max(0.1, std::abs(found)))
                << "seed " << seed << ", " << circuit.parts[part].id << " at " << hertz[0];
            ++compared;
        }
    }
    EXPECT_GE(compared, 2000);
}

TEST(Physics, ScalingEveryImpedanceOrEveryFrequencyChangesNothing) {
    // A gain of voltages is blind to the size of all impedances (R, L times k, C over k) and sees only the product of
    // frequency and time constants: sum over R + sum over L - sum over C of d ln|H|/d ln p = 0, and sum over L + sum
    // over C = d ln|H|/d ln w. Coils, capacitors and resistors only; ratios are not among them.
    unsigned compared = 0;
    for (unsigned seed = 0; compared < circuits; ++seed) {
        Chance chance(seed);
        const SmallCircuit small = test::randomPassiveNetwork(chance);
        const Circuit& circuit = small;
        const auto solved = solve(circuit);
        ASSERT_TRUE(solved);
        const double at = chance.between(10.0, 1e5);
        if (gainOf(solved->equations, solved->bias, solved->net("out"), at) == 0.0) {
            continue;  // nothing joins the two ends
        }
        const std::vector<double> hertz{at, at * (1.0 + 1e-4), at * (1.0 - 1e-4), at * (1.0 + 2e-4), at * (1.0 - 2e-4)};
        const auto curves = solveInfluence(solved->equations, solved->bias, solved->net("out"), hertz);
        ASSERT_TRUE(curves);
        ++compared;
        double ofImpedance = 0.0;
        double ofFrequency = 0.0;
        double total = 0.0;
        for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
            const PartKind kind = circuit.parts[k].kind;
            if (kind != PartKind::resistor && kind != PartKind::capacitor && kind != PartKind::inductor) {
                continue;
            }
            const double db = curves->dbPerTenPercent[k].empty() ? 0.0 : curves->dbPerTenPercent[k][0];
            ofImpedance += kind == PartKind::capacitor ? -db : db;
            ofFrequency += kind == PartKind::resistor ? 0.0 : db;
            total += std::abs(db);
        }
        EXPECT_NEAR(ofImpedance, 0.0, 1e-10 * (1.0 + total)) << "seed " << seed;
        const auto slope = [&](std::size_t up, std::size_t down, double width) {
            return (curves->gainDb[up] - curves->gainDb[down]) / (std::log1p(width) - std::log1p(-width));
        };
        const double expected = (4.0 * slope(1, 2, 1e-4) - slope(3, 4, 2e-4)) / 3.0;
        EXPECT_NEAR(ofFrequency, 0.1 * expected, 1e-6 * (1.0 + std::abs(expected))) << "seed " << seed;
    }
    EXPECT_GE(compared, circuits);
}

TEST(Physics, PassivePolesDecayAndMakeTheResponse) {
    int closed = 0;
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const auto solved = solve(test::randomPassiveNetwork(chance));
        ASSERT_TRUE(solved);
        const auto roots = findPolesAndZeros(solved->equations, solved->bias, solved->net("out"));
        ASSERT_TRUE(roots) << "seed " << seed << ": " << roots.error().message;
        for (const Complex& pole : roots->poles) {
            EXPECT_LT(pole.real(), 0.0) << "seed " << seed;
            EXPECT_TRUE(std::find(roots->poles.begin(), roots->poles.end(), std::conj(pole)) != roots->poles.end());
        }
        EXPECT_TRUE(roots->closed) << "seed " << seed << ": " << roots->checkErrorDb << " dB";
        closed += roots->closed ? 1 : 0;
    }
    EXPECT_EQ(closed, int(circuits));
}

TEST(Physics, PolesAndZerosOfAmplifiersMakeTheirResponse) {
    // Chains of stages at their bias: the same product, with everything that devices add.
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const auto solved = solve(RandomStages(chance).chain(int(seed) % RandomStages::kinds));
        ASSERT_TRUE(solved) << "seed " << seed;
        const auto roots = findPolesAndZeros(solved->equations, solved->bias, solved->net("out"));
        ASSERT_TRUE(roots) << "seed " << seed << ": " << roots.error().message;
        EXPECT_TRUE(roots->closed) << "seed " << seed << ": " << roots->checkErrorDb << " dB";
    }
}

TEST(Physics, AValuePutBackGivesTheSameBitForBit) {
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const SmallCircuit small = RandomStages(chance).chain(int(seed) % RandomStages::kinds);
        const Circuit& circuit = small;
        const auto solved = solve(circuit);
        ASSERT_TRUE(solved);
        const double hertz = chance.between(20.0, 2e4);
        const Complex before = gainOf(solved->equations, solved->bias, solved->net("out"), hertz);

        Circuit changed = circuit;
        changed.parts[2 + std::size_t(chance.below(int(circuit.parts.size()) - 2))].value *= 1.3;
        const auto there = Equations::compileLike(solved->equations, changed, {});
        if (!there) {
            continue;  // a coupling beyond 1
        }
        if (const auto moved = solveBias(*there)) {
            gainOf(*there, *moved, solved->net("out"), hertz);
        }
        const auto back = Equations::compileLike(*there, circuit, {});
        ASSERT_TRUE(back);
        const auto bias = solveBias(*back);
        ASSERT_TRUE(bias);
        EXPECT_EQ(bias->x, solved->bias.x) << "seed " << seed;
        EXPECT_EQ(gainOf(*back, *bias, solved->net("out"), hertz), before) << "seed " << seed;
        const std::vector<double> at{hertz};
        const auto first = solveNoise(solved->equations, solved->bias, solved->net("out"), at);
        const auto second = solveNoise(*back, *bias, solved->net("out"), at);
        ASSERT_TRUE(first && second);
        EXPECT_EQ(first->output, second->output) << "seed " << seed;
    }
}

TEST(Physics, OneAdjointSolveIsTheForwardOne) {
    // The gain of the noise curve comes from the transposed equations, that of the response from the others.
    for (unsigned seed = 0; seed < circuits; ++seed) {
        Chance chance(seed);
        const auto solved = solve(RandomStages(chance).chain(int(seed) % RandomStages::kinds));
        ASSERT_TRUE(solved);
        const auto hertz = randomFrequencies(chance);
        const auto noise = solveNoise(solved->equations, solved->bias, solved->net("out"), hertz);
        ASSERT_TRUE(noise) << noise.error().message;
        for (std::size_t k = 0; k < hertz.size(); ++k) {
            const double gain = std::abs(gainOf(solved->equations, solved->bias, solved->net("out"), hertz[k]));
            EXPECT_NEAR(noise->gain[k], gain, 1e-9 * gain) << "seed " << seed;
        }
    }
}

}  // namespace
}  // namespace ohmwright
