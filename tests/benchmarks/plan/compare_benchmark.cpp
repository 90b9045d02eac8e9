// What the window asks for when a value turns: both lanes, with and without an earlier answer at hand.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/compare.h"
#include "tests/benchmarks/demo.h"

#include <benchmark/benchmark.h>

namespace ohmwright {
namespace {

CompareRequest requestOfDemo() {
    auto job = std::make_shared<const Job>(benchmarks::harbourLamp());
    return {.job = job,
            .selected = findPartByReference(job->stock, "C4")->id,
            .candidateValues = {68e-9, 82e-9, 100e-9, 120e-9, 150e-9, 180e-9, 220e-9}};
}

/// The same job with the gain capacitor at another value, as a wheel step leaves it.
std::shared_ptr<const Job> turned(const Job& job, double farads) {
    Job next = job;
    std::get<SwapValue>(next.plan[0].change).value = farads;
    return std::make_shared<const Job>(next);
}

void linearLane(benchmark::State& state) {
    CompareRequest request = requestOfDemo();
    if (state.range(0) != 0) {
        request.lastLinear = std::make_shared<const LinearAnswer>(*compareLinear(request));
    }
    request.job = turned(*request.job, 150e-9);
    for (auto _ : state) {
        benchmark::DoNotOptimize(compareLinear(request));
    }
}
BENCHMARK(linearLane)->ArgName("stock_known")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void largeSignalLane(benchmark::State& state) {
    CompareRequest request = requestOfDemo();
    if (state.range(0) != 0) {
        request.lastLargeSignal = std::make_shared<const LargeSignalAnswer>(*compareLargeSignal(request));
    }
    request.job = turned(*request.job, 150e-9);
    for (auto _ : state) {
        benchmark::DoNotOptimize(compareLargeSignal(request));
    }
}
BENCHMARK(largeSignalLane)->ArgName("stock_known")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ohmwright
