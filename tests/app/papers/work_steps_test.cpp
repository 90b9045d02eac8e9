// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/work_steps.h"

#include "app/papers/bench_sheet.h"
#include "core/bench/work_log.h"
#include "tests/app/papers/paper_text.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

using test::demoJob;
using test::withOnly;

WorkPlan workFor(const std::string& letters) {
    auto work = orderOfWork(withOnly(demoJob("harbour-lamp"), letters));
    EXPECT_TRUE(work) << work.error().message;
    return work ? *std::move(work) : WorkPlan{};
}

std::vector<PrintedStep> stepsFor(const std::string& letters) {
    return printedSteps(workFor(letters), {});
}

QString textOf(const PrintedStep& step) {
    QStringList lines(step.title);
    for (const PrintedLine& line : step.lines) {
        lines.append(line.word + ": " + line.text);
    }
    return lines.join("\n");
}

TEST(WorkSteps, WithoutAModThereIsNoWork) {
    EXPECT_TRUE(stepsFor("").empty());
}

TEST(WorkSteps, BeginWithPhotographAndDischargeAndStopBeforePower) {
    const auto steps = stepsFor("A");
    ASSERT_GE(steps.size(), 5U);
    EXPECT_EQ(steps[0].title, "Photograph, then power off and discharge");
    EXPECT_TRUE(textOf(steps[0]).contains("Discharge: supply line through 1 k\u03A9 to ground"))
        << textOf(steps[0]).toStdString();
    EXPECT_EQ(steps[1].title, "Take C4 Cg out, 56n, printed 563");
    EXPECT_EQ(steps[2].picture.marking, "124");
    EXPECT_TRUE(steps[3].isStop);
    EXPECT_TRUE(steps[4].title.startsWith("Power on without signal, 9.00 V")) << steps[4].title.toStdString();
    ASSERT_FALSE(steps[4].probes.empty());
    const bool hasOutput = std::any_of(steps[4].probes.begin(), steps[4].probes.end(), [](const PrintedProbe& probe) {
        return probe.place == "U1 pin 1 (output)" && probe.low < probe.nominal && probe.nominal < probe.high;
    });
    EXPECT_TRUE(hasOutput);
}

TEST(WorkSteps, ReadingsStandBesideTheirWork) {
    const auto steps = stepsFor("B");
    const auto fit =
        std::find_if(steps.begin(), steps.end(), [](const PrintedStep& step) { return step.title.contains("set D3"); });
    ASSERT_NE(fit, steps.end());
    EXPECT_EQ(fit->letter, "B");
    EXPECT_EQ(fit->picture.kind, PrintedPicture::Kind::diode);
    EXPECT_TRUE(textOf(*fit).contains("Diode range: red U1 pin 1 (output), black U1 pin 2 (inverting input): 1.12 V"))
        << textOf(*fit).toStdString();
}

// What was signed at the check list stands on the paper with its reading; what was skipped stays marked.
TEST(WorkSteps, SignedSkippedAndFailedStepsStandOnThePaper) {
    const WorkPlan work = workFor("A");
    const std::vector<std::string> keys = stepKeys(work.steps);
    Visit visit;
    for (std::size_t k = 0; k < work.steps.size(); ++k) {
        StepMark mark;
        mark.step = keys[k];
        mark.who = "T. O.";
        mark.when = "2026-11-29T10:05:00";
        mark.result = work.steps[k].kind == StepKind::takeOut   ? StepResult::skipped
                      : work.steps[k].kind == StepKind::reading ? StepResult::failed
                                                                : StepResult::passed;
        mark.read = work.steps[k].kind == StepKind::fit ? "118 nF" : "";
        visit.marks.push_back(mark);
    }
    const std::vector<PrintedStep> steps = printedSteps(work, visit);
    EXPECT_EQ(steps[1].box, BoxState::skipped);
    EXPECT_EQ(steps[1].signedBy, "T. O., 29 Nov 2026 10:05");
    EXPECT_EQ(steps[2].lines.front().read, "118 nF");
    EXPECT_EQ(steps[2].lines.front().box, BoxState::passed);
    EXPECT_EQ(steps[2].lines.back().box, BoxState::failed);

    PaperAnswers answers = test::answersOf(PaperKind::bench, withOnly(demoJob("harbour-lamp"), "A"));
    Job job = *answers.job;
    job.visit.marks = visit.marks;
    answers.job = std::make_shared<const Job>(job);
    const QString text = test::pdfTextOf(benchSheet(answers, PaperSize::a4));
    EXPECT_TRUE(text.contains("skipped")) << text.toStdString();
    EXPECT_TRUE(text.contains("failed")) << text.toStdString();
    EXPECT_TRUE(text.contains("118 nF")) << text.toStdString();
    EXPECT_TRUE(text.contains("signed T. O., 29 Nov 2026 10:05")) << text.toStdString();
}

// A resistor's code is told without colour; from memory: letters of IEC 60757. 2k7 5 % is red, violet, red, gold.
TEST(WorkSteps, ColourBandsHaveTheirLetters) {
    const auto steps = stepsFor("C");
    const auto fit = std::find_if(steps.begin(), steps.end(),
                                  [](const PrintedStep& step) { return step.title.startsWith("Fit R5"); });
    ASSERT_NE(fit, steps.end());
    ASSERT_EQ(fit->picture.kind, PrintedPicture::Kind::bands);
    QStringList letters;
    for (const QString& band : fit->picture.bands) {
        letters << colourLetters(band);
    }
    EXPECT_EQ(letters, QStringList({"RD", "VT", "RD", "GD"}));
    EXPECT_TRUE(colourLetters("pale").isEmpty());
}

// The smallest set of checks has a line each that says what its failing means.
TEST(WorkSteps, AFailedCheckNamesItsLikelyMistakes) {
    const std::vector<PrintedFailure> failures = printedFailures(workFor("B"));
    ASSERT_FALSE(failures.empty());
    const bool namesReversed = std::any_of(failures.begin(), failures.end(), [](const PrintedFailure& failure) {
        return failure.letter == "B" && failure.suspicions.contains("D3 reversed");
    });
    EXPECT_TRUE(namesReversed);
}

}  // namespace
}  // namespace ohmwright
