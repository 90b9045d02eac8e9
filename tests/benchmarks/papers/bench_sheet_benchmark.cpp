// The whole bench sheet of the demo with four mods, from the job to the bytes of its PDF; then what of it is left when
// the window has solved the figures already, and the setting and writing alone.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/theme.h"
#include "app/papers/make_paper.h"
#include "tests/benchmarks/demo.h"

#include <benchmark/benchmark.h>
#include <QApplication>

namespace ohmwright {
namespace {

PaperRequest allMods() {
    Job job = benchmarks::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    PaperRequest request;
    request.kind = PaperKind::bench;
    request.job = std::make_shared<const Job>(std::move(job));
    return request;
}

PaperAnswers answered(const PaperRequest& request) {
    Result<PaperAnswers> answers = answersOfPaper(request);
    if (!answers) {
        std::fprintf(stderr, "%s\n", answers.error().message.c_str());
        std::exit(1);
    }
    return *std::move(answers);
}

void benchSheetFromTheJob(benchmark::State& state) {
    const PaperRequest request = allMods();
    for (auto _ : state) {
        benchmark::DoNotOptimize(pdfOf(layOut(answered(request), PaperSize::a4)));
    }
}
BENCHMARK(benchSheetFromTheJob)->Unit(benchmark::kMillisecond);

void benchSheetAfterTheSolve(benchmark::State& state) {
    PaperRequest request = allMods();
    const PaperAnswers first = answered(request);
    request.lastLinear = first.linear;
    request.lastLargeSignal = first.largeSignal;
    for (auto _ : state) {
        benchmark::DoNotOptimize(pdfOf(layOut(answered(request), PaperSize::a4)));
    }
}
BENCHMARK(benchSheetAfterTheSolve)->Unit(benchmark::kMillisecond);

void benchSheetLayout(benchmark::State& state) {
    const PaperAnswers answers = answered(allMods());
    for (auto _ : state) {
        benchmark::DoNotOptimize(layOut(answers, PaperSize::a4).flow.pageCount());
    }
}
BENCHMARK(benchSheetLayout)->Unit(benchmark::kMillisecond);

void benchSheetPdf(benchmark::State& state) {
    const Paper sheet = layOut(answered(allMods()), PaperSize::a4);
    for (auto _ : state) {
        benchmark::DoNotOptimize(pdfOf(sheet));
    }
}
BENCHMARK(benchSheetPdf)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ohmwright

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application(argc, argv);
    ohmwright::Theme::install();
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
