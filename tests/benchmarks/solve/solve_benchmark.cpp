// Bias, response and settled states of the demo.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"
#include "core/solve/settled.h"
#include "tests/benchmarks/demo.h"

#include <benchmark/benchmark.h>

#include <cmath>

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

void response600(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    const auto grid = logarithmicGrid(20.0, 20000.0, 200);
    for (auto _ : state) {
        benchmark::DoNotOptimize(frequencyResponse(*solved->equations, *solved->bias, {"out"}, grid));
    }
}
BENCHMARK(response600);

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
