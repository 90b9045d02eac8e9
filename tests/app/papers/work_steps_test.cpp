// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/work_steps.h"

#include "core/files/job_file.h"
#include "core/plan/edits.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

Job demoJob() {
    const auto loaded = loadJob(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob");
    return loaded ? loaded->job : Job{};
}

Job withOnly(Job job, const std::string& letters) {
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

std::vector<WorkStep> stepsFor(const Job& job, const std::vector<std::pair<NetName, double>>& bias = {}) {
    const auto steps = workSteps(job, bias);
    EXPECT_TRUE(steps) << steps.error().message;
    return steps ? *steps : std::vector<WorkStep>{};
}

/// All lines of a step as one text.
QString textOf(const WorkStep& step) {
    QStringList lines(step.title);
    for (const StepLine& line : step.lines) {
        lines.append(line.word + ": " + line.text);
    }
    return lines.join("\n");
}

TEST(WorkSteps, WithoutAModThereIsNoWork) {
    EXPECT_TRUE(stepsFor(withOnly(demoJob(), "")).empty());
}

TEST(WorkSteps, BeginWithDischargeAndStopBeforePower) {
    const auto steps = stepsFor(withOnly(demoJob(), "A"));
    ASSERT_EQ(steps.size(), 5U);
    EXPECT_TRUE(textOf(steps[0]).contains("Discharge: supply line through 1 k\u2126 to ground"))
        << textOf(steps[0]).toStdString();
    EXPECT_TRUE(steps[3].isStop);
    EXPECT_TRUE(steps[4].title.startsWith("Power on without signal, 9.00 V")) << steps[4].title.toStdString();
}

TEST(WorkSteps, ASwapSaysWhatToLookForAndWhichLegsJoinWhat) {
    const auto steps = stepsFor(withOnly(demoJob(), "A"));
    EXPECT_EQ(steps[1].title.toStdString(), "Take C4 Cg out, 56n, printed 563");
    EXPECT_EQ(steps[1].letter, "A");
    // 56 nF and 10 %
    EXPECT_TRUE(textOf(steps[1]).contains("50.4 nF to 61.6 nF")) << textOf(steps[1]).toStdString();
    const QString fit = textOf(steps[2]);
    EXPECT_TRUE(fit.startsWith("Fit C4 Cg 120n, printed 124")) << fit.toStdString();
    EXPECT_TRUE(fit.contains("Must beep: one leg to U1 pin 2; other leg to one leg of R5 Rg")) << fit.toStdString();
    EXPECT_TRUE(fit.contains("Silent: leg to leg")) << fit.toStdString();
    EXPECT_EQ(steps[2].picture.marking, "124");
}

TEST(WorkSteps, ADiodeInSeriesSaysLegJointAndBands) {
    const auto steps = stepsFor(withOnly(demoJob(), "B"));
    ASSERT_EQ(steps.size(), 4U);
    const QString text = textOf(steps[1]);
    EXPECT_TRUE(text.contains("of D2, set D3 1N4148 in line")) << text.toStdString();
    EXPECT_TRUE(text.contains("U1 pin 2")) << text.toStdString();
    EXPECT_TRUE(text.contains("Bands: both bands point the same way")) << text.toStdString();
    EXPECT_EQ(steps[1].picture.kind, BodyPicture::Kind::diode);
}

TEST(WorkSteps, ModsComeInTheOrderOfThePlan) {
    QString letters;
    for (const WorkStep& step : stepsFor(withOnly(demoJob(), "ABCD"))) {
        letters += step.letter;
    }
    EXPECT_EQ(letters, "AABCCDD");
}

TEST(WorkSteps, PolarityComesFromTheSolvedVoltages) {
    Job job = demoJob();
    const Part* part = findPartByReference(job.stock, "C9");
    ASSERT_NE(part, nullptr);
    const Result<Job> edited = setPartValue(withOnly(job, ""), part->id, 4.7e-6);
    ASSERT_TRUE(edited) << edited.error().message;
    Job unknownBuild = *edited;
    findPart(unknownBuild.stock, part->id)->build.clear();
    const auto steps = stepsFor(unknownBuild, {{part->nets[0], 2.76}, {part->nets[1], 0.0}});
    // Emitter of the output follower 2.76 V, output jack 0 V (demo figures: own solver, checked against an independent
    // circuit simulator).
    EXPECT_TRUE(textOf(steps[2]).contains("plus to Q2 emitter (2.76 V more there)")) << textOf(steps[2]).toStdString();
}

TEST(WorkSteps, LiftAndBridgeNameTheirPlace) {
    Job job = withOnly(demoJob(), "");
    const Part* part = findPartByReference(job.stock, "R10");
    ASSERT_NE(part, nullptr);
    const Result<Job> lifted = addMod(job, Lift{part->id, 1});
    ASSERT_TRUE(lifted) << lifted.error().message;
    const QString lift = textOf(stepsFor(*lifted)[1]);
    EXPECT_TRUE(lift.contains("Lift the one leg of R10") || lift.contains("Lift one leg of R10")) << lift.toStdString();
    EXPECT_TRUE(lift.contains("ground (jack sleeve)")) << lift.toStdString();

    const Result<Job> bridged = addMod(job, Bridge{part->id, 0, 1});
    ASSERT_TRUE(bridged) << bridged.error().message;
    EXPECT_TRUE(textOf(stepsFor(*bridged)[1]).contains("Join two legs of R10"));
}

TEST(WorkSteps, TheWayBackIsTheReverseOfFitting) {
    const QString words = wayBackWords(withOnly(demoJob(), "ABCD"));
    const qsizetype low = words.indexOf("C7");
    const qsizetype gain = words.indexOf("R5");
    const qsizetype diode = words.indexOf("D3 out");
    const qsizetype cap = words.indexOf("C4 Cg back to 56n");
    EXPECT_GE(low, 0) << words.toStdString();
    EXPECT_LT(low, gain) << words.toStdString();
    EXPECT_LT(gain, diode) << words.toStdString();
    EXPECT_LT(diode, cap) << words.toStdString();
}

}  // namespace
}  // namespace ohmwright
