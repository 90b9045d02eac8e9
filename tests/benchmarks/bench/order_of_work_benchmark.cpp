// A bench sheet's whole content: readings, mistakes, checks, polarity, probes and steps of the demo with four mods.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/order_of_work.h"
#include "core/bench/way_back.h"
#include "tests/benchmarks/demo.h"

#include <benchmark/benchmark.h>

namespace ohmwright {
namespace {

Job jobWithAllMods() {
    Job job = benchmarks::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    return job;
}

void benchSheetContent(benchmark::State& state) {
    const Job job = jobWithAllMods();
    for (auto _ : state) {
        benchmark::DoNotOptimize(orderOfWork(job));
    }
}
BENCHMARK(benchSheetContent)->Unit(benchmark::kMillisecond);

void wayBackContent(benchmark::State& state) {
    const Job job = jobWithAllMods();
    for (auto _ : state) {
        benchmark::DoNotOptimize(wayBack(job));
    }
}
BENCHMARK(wayBackContent)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ohmwright
