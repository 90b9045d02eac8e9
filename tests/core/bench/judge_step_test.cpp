// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/judge_step.h"

#include "core/bench/capacitor_charging.h"
#include "core/files/job_file.h"
#include "tests/support/planned_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using testing::HasSubstr;

struct Bench {
    explicit Bench(const Job& of) : job(of) {
        auto made = orderOfWork(job);
        if (!made) {
            ADD_FAILURE() << made.error().message;
            return;
        }
        work = *std::move(made);
    }

    template <class Wanted>
    std::size_t find(Wanted wanted) const {
        for (std::size_t k = 0; k < work.steps.size(); ++k) {
            if (wanted(work.steps[k])) {
                return k;
            }
        }
        ADD_FAILURE() << "no such step";
        return 0;
    }
    std::size_t find(StepKind kind) const {
        return find([&](const BenchStep& step) { return step.kind == kind; });
    }
    Judgement judge(std::size_t step, CheckReading reading) const {
        auto judged = judgeStep(work, step, reading, job.setting);
        if (!judged) {
            ADD_FAILURE() << judged.error().message;
            return {};
        }
        return *std::move(judged);
    }

    Job job;
    WorkPlan work;
};

Job demo(const std::string& name) {
    const std::string path = std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/" + name + "/" + name + ".ohmjob";
    auto loaded = loadJob(path);
    if (!loaded) {
        ADD_FAILURE() << loaded.error().message;
        return {};
    }
    return loaded->job;
}

// Reference: the demo's third diode in line reads 1.17 V one way; none the one way says it is the wrong way round.
TEST(JudgeStep, NoReadingOfADiodeInLineSuspectsItReversedFirst) {
    const Bench bench(harbourLampWith("B"));
    const std::size_t step = bench.find([](const BenchStep& each) {
        return each.check && each.check->kind == CheckKind::diode && each.nominal && *each.nominal > 1.0;
    });
    EXPECT_TRUE(bench.judge(step, 1.17).isInBand);
    const Judgement none = bench.judge(step, std::nullopt);
    EXPECT_FALSE(none.isInBand);
    EXPECT_THAT(none.sentence, HasSubstr("First suspicion: D3 reversed"));
}

// References: base 1.12, emitter 0.46, collector 4.43 V; 9.00 V with the base's 330k or the emitter open.
TEST(JudgeStep, AProbeNearTheSupplyNamesThePartsToLookAt) {
    const Bench bench(demo("small-rooster"));
    const std::size_t step = bench.find([](const BenchStep& each) { return each.title == "Volts at Q1 collector"; });
    EXPECT_NEAR(*bench.work.steps[step].nominal, 4.43, 0.006);
    EXPECT_TRUE(bench.judge(step, 4.5).isInBand);
    const Judgement high = bench.judge(step, 8.9);
    EXPECT_FALSE(high.isInBand);
    EXPECT_THAT(high.sentence, HasSubstr("Q1 is off or its bias path is open"));
    EXPECT_THAT(high.sentence, HasSubstr("330k open"));
    EXPECT_THAT(high.sentence, HasSubstr("Q1 emitter open"));
    EXPECT_THAT(high.sentence, HasSubstr("Q1 with collector and emitter exchanged"));
}

// 56 nF and 10 %: 50.4 to 61.6 nF.
TEST(JudgeStep, APartInTheHandIsHeldAgainstItsTolerance) {
    const Bench bench(harbourLampWith("A"));
    const std::size_t out = bench.find(StepKind::takeOut);
    EXPECT_EQ(allowedWords(bench.work.steps[out]), "50.4 nF to 61.6 nF");
    EXPECT_TRUE(bench.judge(out, 55.1e-9).isInBand);
    EXPECT_THAT(bench.judge(out, 47e-9).sentence, HasSubstr("another one than drawn"));
    const std::size_t fit = bench.find(StepKind::fit);
    EXPECT_TRUE(bench.judge(fit, 118e-9).isInBand);
    const Judgement tenth = bench.judge(fit, 12e-9);
    EXPECT_FALSE(tenth.isInBand);
    EXPECT_THAT(tenth.sentence, HasSubstr("A tenth or less of the value"));
    EXPECT_THAT(tenth.sentence, HasSubstr("Do not fit it"));
}

TEST(JudgeStep, ASupplyOverItsLimitIsNotTouched) {
    const Bench bench(demo("night-ferry"));
    const std::size_t step = bench.find(StepKind::discharge);
    EXPECT_EQ(allowedWords(bench.work.steps[step]), "under 30.0 V");
    EXPECT_TRUE(bench.judge(step, 4.0).isInBand);
    EXPECT_TRUE(bench.judge(step, -4.0).isInBand);
    EXPECT_FALSE(bench.judge(step, -120.0).isInBand);
    EXPECT_THAT(bench.judge(step, 120.0).sentence, HasSubstr("Do not touch"));
}

TEST(JudgeStep, TooMuchCurrentSaysPowerOff) {
    const Bench bench(harbourLampWith("A"));
    const std::size_t step = bench.find(StepKind::powerUp);
    EXPECT_TRUE(bench.judge(step, 3.91e-3).isInBand);
    EXPECT_THAT(bench.judge(step, 0.1).sentence, HasSubstr("Power off at once"));
}

TEST(JudgeStep, AStepWithoutAReadingSaysSo) {
    const Bench bench(harbourLampWith("A"));
    const auto judged = judgeStep(bench.work, bench.find(StepKind::photograph), 1.0, bench.job.setting);
    ASSERT_FALSE(judged);
    EXPECT_THAT(judged.error().message, HasSubstr("has no reading"));
}

// The references of the demo: 47 uF through 10k from 300 V falls to 30 V in 1.1 s (R C ln 10); the wait rounds up.
TEST(JudgeStep, AHighVoltageJobBeginsWithDischargeAndItsWait) {
    const Bench bench(demo("night-ferry"));
    ASSERT_EQ(bench.work.steps.front().kind, StepKind::discharge);
    EXPECT_EQ(bench.work.steps[1].kind, StepKind::photograph);
    EXPECT_DOUBLE_EQ(bench.work.steps.front().waitSeconds, 10.0);
    EXPECT_THAT(bench.work.discharge.sentence, HasSubstr("Wait 10 s"));
    EXPECT_NEAR(dischargeSeconds(47e-6, 10e3, 300.0, 30.0), 1.1, 0.02);
    const DischargeTime& first = bench.work.discharge.capacitors.front();
    const double alone = dischargeSeconds(findPart(bench.job.stock, first.part)->value, 10e3, first.fromVolts, 30.0);
    // The unit's own parts help; they cannot slow it down by more than the solver's 1 %.
    EXPECT_LT(first.withToolSeconds, 1.01 * alone);
    EXPECT_GT(first.withToolSeconds, 0.8 * alone);
}

// 270R for 2k7 moves 110 Hz by -0.08 dB and 3 kHz by +15.1 dB.
TEST(JudgeStep, WhatALowToneCannotSeeIsSaidBesideTheSuspicion) {
    const Bench bench(harbourLampWith("ABC"));
    const std::size_t ohms = bench.find([](const BenchStep& step) {
        return step.letter == "C" && step.check && step.check->kind == CheckKind::ohms && step.nominal;
    });
    const Judgement judged = bench.judge(ohms, 270.0);
    EXPECT_THAT(judged.sentence, testing::AllOf(HasSubstr("First suspicion: 270R fitted for 2k7"),
                                                HasSubstr("a tone of 110 Hz cannot see it (−0.08 dB)"),
                                                HasSubstr("3.00 kHz (+15.1 dB)")));
    // Small tones never see a diode: only the diode range does.
    const std::size_t diode = bench.find(
        [](const BenchStep& step) { return step.check && step.check->kind == CheckKind::diode && step.nominal > 1.0; });
    EXPECT_THAT(bench.judge(diode, 0.585).sentence, HasSubstr("use diode range"));
}

}  // namespace
}  // namespace ohmwright
