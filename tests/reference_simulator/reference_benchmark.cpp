/// The same work on the same netlist in the same run: core/ and the reference simulator. Only the ratios count.
///
/// Reading the netlist and compiling it is outside the measured part for both; the library's own parsing of a command
/// is in it. Figures of one machine stand in DEVELOPERS.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist.h"
#include "core/measure/settled_wave.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/cold_wave.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"
#include "core/solve/settled.h"
#include "tests/reference_simulator/reference_answers.h"
#include "tests/reference_simulator/shared_simulator.h"
#include "tests/reference_simulator/suite.h"

#include <benchmark/benchmark.h>

#include <filesystem>
#include <stdexcept>

namespace ohmwright::reference {
namespace {

constexpr double toneHz = 1000.0;
constexpr double levelVolts = 0.1;
constexpr double waveSeconds = 0.1;
constexpr double sampleRate = 48000.0 * 4.0;

/// The demo Harbour Lamp: 30 nodes, 2 transistors, an op-amp macro, 3 clip diodes.
SuiteNetlist demo() {
    const std::filesystem::path root = OHMWRIGHT_SOURCE_DIR;
    return loadNetlistText(root / "tests" / "reference" / "netlists" / "demos" / "harbour-lamp-stock.cir");
}

struct CoreDemo {
    Circuit circuit;
    SolvedCircuit solved;
    int output = -1;

    CoreDemo() {
        auto netlist = readNetlist(demo().text);
        if (!netlist || !choosePorts(*netlist, "VSIG", "out")) {
            throw std::runtime_error("the demo is no netlist");
        }
        circuit = netlist->circuit;
        auto result = solveCircuit(circuit, {});
        if (!result) {
            throw std::runtime_error(result.error().message);
        }
        solved = *std::move(result);
        output = solved.equations->indexOfNet(circuit.ports.output);
    }
};

void coreBias(benchmark::State& state) {
    const CoreDemo core;
    for (auto _ : state) {
        benchmark::DoNotOptimize(solveBias(*core.solved.equations));
    }
}
BENCHMARK(coreBias);

void referenceBiasOnly(benchmark::State& state) {
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(demo().text);
    for (auto _ : state) {
        simulator.run("op");
    }
}
BENCHMARK(referenceBiasOnly);

// 20 Hz .. 20 kHz, 200 points a decade: 601 frequencies.
void coreResponse(benchmark::State& state) {
    const CoreDemo core;
    const auto grid = logarithmicGrid(20.0, 20000.0, 200);
    for (auto _ : state) {
        benchmark::DoNotOptimize(frequencyResponse(*core.solved.equations, *core.solved.bias, {"out"}, grid));
    }
}
BENCHMARK(coreResponse);

void referenceResponseOnly(benchmark::State& state) {
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(demo().text);
    for (auto _ : state) {
        simulator.run("ac dec 200 20 20k");
    }
}
BENCHMARK(referenceResponseOnly);

void coreNoise(benchmark::State& state) {
    const CoreDemo core;
    const auto grid = logarithmicGrid(20.0, 20000.0, 200);
    for (auto _ : state) {
        benchmark::DoNotOptimize(solveNoise(*core.solved.equations, *core.solved.bias, core.output, grid));
    }
}
BENCHMARK(coreNoise);

void referenceNoiseOnly(benchmark::State& state) {
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(demo().text);
    for (auto _ : state) {
        simulator.run("noise v(out) vsig dec 200 20 20k");
    }
}
BENCHMARK(referenceNoiseOnly);

// A tenth of a second at four times 48 kHz.
void coreWave(benchmark::State& state) {
    const CoreDemo core;
    for (auto _ : state) {
        benchmark::DoNotOptimize(coldWave(*core.solved.equations, *core.solved.bias, toneHz, levelVolts, waveSeconds,
                                          sampleRate, core.output));
    }
}
BENCHMARK(coreWave)->Unit(benchmark::kMillisecond);

void referenceWave(benchmark::State& state) {
    const SuiteNetlist netlist = demo();
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(withSine(netlist, drivenSource(netlist, "VSIG"), toneHz, levelVolts));
    for (auto _ : state) {
        simulator.run("tran 5.2083333u 100m 0 5.2083333u");
    }
}
BENCHMARK(referenceWave)->Unit(benchmark::kMillisecond);

void coreSettled(benchmark::State& state) {
    const CoreDemo core;
    for (auto _ : state) {
        auto solver = SettledSolver::make(*core.solved.equations, *core.solved.bias, toneHz, 257);
        benchmark::DoNotOptimize(solver->solve(levelVolts));
    }
}
BENCHMARK(coreSettled)->Unit(benchmark::kMillisecond);

// What the reference needs for the same: its start-up over after 0.4 s, 257 steps a period.
void referenceSettled(benchmark::State& state) {
    const SuiteNetlist netlist = demo();
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(withSine(netlist, drivenSource(netlist, "VSIG"), toneHz, levelVolts));
    for (auto _ : state) {
        simulator.run("tran 3.8910506u 400m 399m 3.8910506u");
    }
}
BENCHMARK(referenceSettled)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
}  // namespace ohmwright::reference
