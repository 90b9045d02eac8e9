// Two parts sought among a hundred values each with all their pairs: what the window asks while a corner is dragged.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/preferred_numbers.h"
#include "core/plan/targets.h"
#include "tests/benchmarks/demo.h"

#include <benchmark/benchmark.h>

namespace ohmwright {
namespace {

/// A hundred values of each kind, five of each in stock.
Drawer hundredOfEach() {
    Drawer drawer;
    const auto fill = [&drawer](PartKind kind, double lowest) {
        double value = lowest;
        for (int i = 0; i < 100; ++i) {
            DrawerLot lot;
            lot.id = std::to_string(drawer.lots.size());
            lot.kind = kind;
            lot.value = value;
            lot.quantity = 5;
            drawer.lots.push_back(lot);
            value = nextPreferred(value, Series::e24);
        }
    };
    fill(PartKind::resistor, 100.0);
    fill(PartKind::capacitor, 1e-9);
    return drawer;
}

void targetsOfAHundredByAHundred(benchmark::State& state, const char* first, const char* second) {
    const Job job = benchmarks::harbourLamp();
    TargetRequest request;
    request.wants = {*readWant(first), *readWant(second)};
    request.parts = {"r5", "c4"};
    request.drawer = hundredOfEach();
    for (auto _ : state) {
        benchmark::DoNotOptimize(findTargets(job, request));
    }
}
BENCHMARK_CAPTURE(targetsOfAHundredByAHundred, cornerAndGain, "gain_leg_corner=590", "plateau_gain=29")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(targetsOfAHundredByAHundred, responses, "response@82.41=-6", "response@1000=7")
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ohmwright
