// What the planning panel asks for: shares of a plan of six mods with bands, and the claim check.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/spread.h"
#include "core/plan/claims.h"
#include "core/plan/knob_translation.h"
#include "core/plan/shares.h"
#include "tests/benchmarks/demo.h"

#include <benchmark/benchmark.h>

#include <array>

namespace ohmwright {
namespace {

Job lampWithSixMods() {
    Job job = benchmarks::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    job.plan.push_back(Mod{"mod-e", "E", "Coupling", SwapValue{"c8", 470e-9}, true});
    job.plan.push_back(Mod{"mod-f", "F", "Feedback cap", SwapValue{"c5", 220e-12}, true});
    return job;
}

void sharesOfSixModsAndClaims(benchmark::State& state) {
    const Job job = lampWithSixMods();
    for (auto _ : state) {
        benchmark::DoNotOptimize(shareFigures(job));
        benchmark::DoNotOptimize(checkClaims(job, {"fuller", "less squashed", "brighter"}));
    }
}
BENCHMARK(sharesOfSixModsAndClaims)->Unit(benchmark::kMillisecond);

void spreadBands(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    const std::array<double, 4> hertz{82.41, 220.0, 1000.0, 3000.0};
    for (auto _ : state) {
        if (state.range(0) == 0) {
            benchmark::DoNotOptimize(quickBand(job.stock, job.setting, hertz));
        } else {
            benchmark::DoNotOptimize(sampledBand(job.stock, job.setting, hertz));
        }
    }
}
BENCHMARK(spreadBands)->ArgName("sampled")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void knobsTranslated(benchmark::State& state) {
    const Job job = benchmarks::harbourLamp();
    for (auto _ : state) {
        benchmark::DoNotOptimize(translateKnobs(job));
    }
}
BENCHMARK(knobsTranslated)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ohmwright
