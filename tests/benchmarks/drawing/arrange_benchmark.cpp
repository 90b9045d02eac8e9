// A netlist made a drawing: stages of chance of some 10 to 80 parts; 40 parts are meant to take under a second.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/arrange.h"
#include "tests/support/random_networks.h"

#include <benchmark/benchmark.h>

namespace ohmwright {
namespace {

void arrangeNetlist(benchmark::State& state) {
    test::Chance chance(7);
    const Circuit circuit = test::RandomStages(chance).chain(0, static_cast<int>(state.range(0))).circuit();
    for (auto _ : state) {
        benchmark::DoNotOptimize(arrange(circuit));
    }
    state.counters["parts"] = static_cast<double>(circuit.parts.size());
    state.SetComplexityN(static_cast<benchmark::IterationCount>(circuit.parts.size()));
}
BENCHMARK(arrangeNetlist)->Arg(1)->Arg(3)->Arg(6)->Arg(12)->Unit(benchmark::kMillisecond)->Complexity();

}  // namespace
}  // namespace ohmwright
