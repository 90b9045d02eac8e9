// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/work_steps.h"

#include "core/files/job_file.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

std::vector<PrintedStep> stepsFor(const std::string& letters) {
    auto loaded = loadJob(OHMWRIGHT_SOURCE_DIR "/demo-projects/harbour-lamp/harbour-lamp.ohmjob");
    EXPECT_TRUE(loaded);
    Job job = loaded->job;
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    const auto work = orderOfWork(job);
    EXPECT_TRUE(work) << work.error().message;
    return work ? printedSteps(*work) : std::vector<PrintedStep>{};
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
    EXPECT_TRUE(textOf(steps[4]).contains("Volts: U1 pin 1 (output)")) << textOf(steps[4]).toStdString();
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

}  // namespace
}  // namespace ohmwright
