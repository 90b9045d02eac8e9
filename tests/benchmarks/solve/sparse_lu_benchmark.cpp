// The sparse kernel by itself: on the demo's equations (argument 0) and on ladders of so many nodes.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_lu.h"

#include "core/measure/solved_circuit.h"
#include "tests/benchmarks/demo.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

namespace ohmwright {
namespace {

struct Matrix {
    SparsePattern pattern;
    std::vector<double> conductances, capacitances;
};

/// Sections of a series and a shunt conductance, driven by a voltage source whose current is the last unknown.
Matrix ladder(int nodes) {
    Matrix made{SparsePattern(nodes + 1), {0.0}, {}};
    const auto add = [&](int row, int column, double value) {
        const auto slot = std::size_t(made.pattern.slot(row, column));
        made.conductances.resize(made.pattern.valueCount(), 0.0);
        made.conductances[slot] += value;
    };
    for (int k = 0; k < nodes; ++k) {
        add(k, k, 1e-5);
        if (k > 0) {
            const double siemens = 1e-3 * (1 + k % 7);
            add(k, k, siemens);
            add(k - 1, k - 1, siemens);
            add(k, k - 1, -siemens);
            add(k - 1, k, -siemens);
        }
    }
    add(0, nodes, 1.0);
    add(nodes, 0, 1.0);
    made.capacitances.assign(made.conductances.size(), 0.0);
    return made;
}

Matrix demo() {
    const Job job = benchmarks::harbourLamp();
    const auto solved = solveCircuit(job.stock, job.setting);
    const Equations& equations = *solved->equations;
    Matrix made{equations.pattern(), solved->bias->state.conductances, {}};
    made.capacitances.assign(made.conductances.size(), 0.0);
    equations.addCharges(solved->bias->state, 1.0, made.capacitances);
    return made;
}

Matrix matrixOf(benchmark::State& state) {
    return state.range(0) == 0 ? demo() : ladder(int(state.range(0)));
}

void sparseAnalyse(benchmark::State& state) {
    const Matrix matrix = matrixOf(state);
    SparseLu<double> lu;
    for (auto _ : state) {
        benchmark::DoNotOptimize(lu.analyse(matrix.pattern, matrix.conductances));
    }
    state.counters["unknowns"] = double(lu.size());
    state.counters["entries"] = double(lu.order()->positionCount());
    state.counters["multiply-subtracts"] = double(lu.order()->factorOperations());
}
BENCHMARK(sparseAnalyse)->Arg(0)->Arg(500)->Arg(2000)->Arg(20000)->Unit(benchmark::kMicrosecond);

void sparseFactor(benchmark::State& state) {
    const Matrix matrix = matrixOf(state);
    SparseLu<double> lu;
    lu.analyse(matrix.pattern, matrix.conductances);
    for (auto _ : state) {
        benchmark::DoNotOptimize(lu.factor(matrix.conductances));
    }
}
BENCHMARK(sparseFactor)->Arg(0)->Arg(500)->Arg(2000)->Arg(20000)->Unit(benchmark::kMicrosecond);

void sparseSolve(benchmark::State& state) {
    const Matrix matrix = matrixOf(state);
    SparseLu<double> lu;
    lu.analyse(matrix.pattern, matrix.conductances);
    lu.factor(matrix.conductances);
    std::vector<double> side(lu.size() + 1);
    for (auto _ : state) {
        std::fill(side.begin(), side.end(), 0.0);
        side[lu.size() - 1] = 1.0;
        lu.solve(side);
        benchmark::DoNotOptimize(side.data());
    }
}
BENCHMARK(sparseSolve)->Arg(0)->Arg(500)->Arg(2000)->Arg(20000)->Unit(benchmark::kMicrosecond);

/// As many right-hand sides as the argument, on the demo.
void sparseSolveMany(benchmark::State& state) {
    const Matrix matrix = demo();
    SparseLu<double> lu;
    lu.analyse(matrix.pattern, matrix.conductances);
    lu.factor(matrix.conductances);
    const auto count = std::size_t(state.range(0));
    std::vector<double> sides((lu.size() + 1) * count);
    for (auto _ : state) {
        std::fill(sides.begin(), sides.end(), 1.0);
        lu.solveMany(sides, count);
        benchmark::DoNotOptimize(sides.data());
    }
}
BENCHMARK(sparseSolveMany)->Arg(1)->Arg(4)->Arg(16)->Arg(18)->Arg(50)->Unit(benchmark::kMicrosecond);

/// 600 frequencies of the demo, eight a pass: factors and one right-hand side each.
void sparseFrequencies600(benchmark::State& state) {
    const Matrix matrix = demo();
    std::vector<std::complex<double>> middle(matrix.conductances.size());
    for (std::size_t slot = 0; slot < middle.size(); ++slot) {
        middle[slot] = {matrix.conductances[slot], 2.0 * std::numbers::pi * 1000.0 * matrix.capacitances[slot]};
    }
    SparseLu<std::complex<double>> at1000;
    at1000.analyse(matrix.pattern, middle);
    SparseLu<ComplexLanes> lu;
    lu.adopt(at1000.order());
    std::vector<double> omegas(600);
    for (std::size_t k = 0; k < omegas.size(); ++k) {
        omegas[k] = 2.0 * std::numbers::pi * 20.0 * std::pow(10.0, double(k) / 200.0);
    }
    std::vector<ComplexLanes> side(lu.size() + 1);
    for (auto _ : state) {
        for (std::size_t k = 0; k < omegas.size(); k += ComplexLanes::count) {
            std::fill(side.begin(), side.end(), ComplexLanes{});
            side[lu.size() - 1] = ComplexLanes(1.0);
            const std::span<const double, ComplexLanes::count> eight(&omegas[k], ComplexLanes::count);
            if (!lu.factorAt(matrix.conductances, matrix.capacitances, eight)) {
                state.SkipWithError("the order does not suit");
            }
            lu.solve(side);
            benchmark::DoNotOptimize(side.data());
        }
    }
}
BENCHMARK(sparseFrequencies600)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace ohmwright
