// Bias, response and settled states of the demo.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/solved_circuit.h"
#include "core/solve/cold_wave.h"
#include "core/solve/influence.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"
#include "core/solve/settled.h"
#include "tests/benchmarks/demo.h"
#include "tests/support/small_circuits.h"

#include <benchmark/benchmark.h>

#include <cmath>
#include <random>
#include <string>

namespace ohmwright {
namespace {

void compileEquations(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    for (auto _ : state) {
        benchmark::DoNotOptimize(Equations::compile(job.stock, job.setting));
    }
}
BENCHMARK(compileEquations);

void biasFromCold(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto equations = Equations::compile(job.stock, job.setting);
    for (auto _ : state) {
        benchmark::DoNotOptimize(solveBias(*equations));
    }
}
BENCHMARK(biasFromCold);

void compileSameTopology(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto equations = Equations::compile(job.stock, job.setting);
    for (auto _ : state) {
        benchmark::DoNotOptimize(Equations::compileLike(*equations, job.stock, job.setting));
    }
}
BENCHMARK(compileSameTopology);

/// A base resistor of the first transistor turned to and fro, each bias starting from the last.
void biasAfterOnePartChanged(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    Circuit other = job.stock;
    for (Part& part : other.parts) {
        if (part.reference == "R2") {
            part.value *= 1.1;
        }
    }
    const auto stock = Equations::compile(job.stock, job.setting);
    const auto changed = Equations::compileLike(*stock, other, job.setting);
    const auto stockBias = solveBias(*stock);
    for (auto _ : state) {
        benchmark::DoNotOptimize(solveBias(*changed, &*stockBias));
    }
}
BENCHMARK(biasAfterOnePartChanged);

void response600(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    const auto grid = logarithmicGrid(20.0, 20000.0, 200);
    for (auto _ : state) {
        benchmark::DoNotOptimize(frequencyResponse(*solved->equations, *solved->bias, {"out"}, grid));
    }
}
BENCHMARK(response600);

void responseAndInfluence600(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    const auto grid = logarithmicGrid(20.0, 20000.0, 200);
    const int output = solved->equations->indexOfNet("out");
    for (auto _ : state) {
        benchmark::DoNotOptimize(solveInfluence(*solved->equations, *solved->bias, output, grid));
    }
}
BENCHMARK(responseAndInfluence600);

void noise600(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    const auto grid = logarithmicGrid(20.0, 20000.0, 200);
    const int output = solved->equations->indexOfNet("out");
    for (auto _ : state) {
        benchmark::DoNotOptimize(solveNoise(*solved->equations, *solved->bias, output, grid));
    }
}
BENCHMARK(noise600);

/// What one edited value costs core before anything is painted: equations, bias, curve and influence.
void onePartEdited(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    Circuit circuit = job.stock;
    Part* part = &circuit.parts.front();
    for (Part& candidate : circuit.parts) {
        part = candidate.reference == "C4" ? &candidate : part;
    }
    const auto stock = Equations::compile(job.stock, job.setting);
    const auto grid = logarithmicGrid(20.0, 20000.0, 100);
    const int output = stock->indexOfNet("out");
    for (auto _ : state) {
        part->value *= 1.001;
        const auto equations = Equations::compileLike(*stock, circuit, job.setting);
        const auto bias = solveBias(*equations);
        benchmark::DoNotOptimize(solveInfluence(*equations, *bias, output, grid));
    }
}
BENCHMARK(onePartEdited);

/// Builds of the unit within tolerance: values drawn, bias solved anew, 200 frequencies.
void builds1000(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto stock = Equations::compile(job.stock, job.setting);
    const auto stockBias = solveBias(*stock);
    const auto grid = logarithmicGrid(20.0, 20000.0, 66);
    for (auto _ : state) {
        std::mt19937 random(1);
        std::uniform_real_distribution<double> share(0.9, 1.1);
        for (int build = 0; build < 1000; ++build) {
            Circuit circuit = job.stock;
            for (Part& part : circuit.parts) {
                part.value *= hasValue(part.kind) ? share(random) : 1.0;
            }
            const auto equations = Equations::compileLike(*stock, circuit, job.setting);
            const auto bias = solveBias(*equations, &*stockBias);
            benchmark::DoNotOptimize(frequencyResponse(*equations, *bias, {"out"}, grid));
        }
    }
}
BENCHMARK(builds1000)->Unit(benchmark::kMillisecond)->Iterations(3);

/// A tenth of a second at four times 48 kHz, from the bias on.
void wave(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    const int output = solved->equations->indexOfNet("out");
    for (auto _ : state) {
        benchmark::DoNotOptimize(coldWave(*solved->equations, *solved->bias, 1000.0, 0.1, 0.1, 192e3, output));
    }
}
BENCHMARK(wave)->Unit(benchmark::kMillisecond);

/// From the netlist's parts to the answer: compiling, bias and 50 frequencies of a resistor-capacitor ladder.
void ladderOf(benchmark::State& state) {
    test::SmallCircuit circuit;
    std::string last = "in";
    for (int k = 1; k <= state.range(0); ++k) {
        const std::string net = k == state.range(0) ? "out" : "n" + std::to_string(k);
        circuit.r("R" + std::to_string(k), last, net, 100.0).c("C" + std::to_string(k), net, "0", 1e-9);
        last = net;
    }
    circuit.r("RL", "out", "0", 1e6);
    const auto grid = logarithmicGrid(20.0, 20000.0, 16);
    for (auto _ : state) {
        const auto solved = solveCircuit(circuit, {});
        benchmark::DoNotOptimize(frequencyResponse(*solved->equations, *solved->bias, {"out"}, grid));
    }
    state.SetComplexityN(state.range(0));
}
BENCHMARK(ladderOf)->RangeMultiplier(2)->Range(500, 4000)->Unit(benchmark::kMillisecond)->Complexity();

void settledState(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    for (auto _ : state) {
        auto solver = SettledSolver::make(*solved->equations, *solved->bias, 1000.0, std::size_t(state.range(0)));
        benchmark::DoNotOptimize(solver->solve(0.1));
    }
}
BENCHMARK(settledState)->Arg(129)->Arg(257)->Arg(513);

void levelLadder40(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    for (auto _ : state) {
        auto solver = SettledSolver::make(*solved->equations, *solved->bias, 1000.0, 257);
        for (int k = 0; k < 40; ++k) {
            benchmark::DoNotOptimize(solver->solve(2e-3 * std::pow(500.0, k / 39.0)));
        }
    }
}
BENCHMARK(levelLadder40)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ohmwright
