// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/order_of_work.h"

#include "core/plan/edits.h"
#include "tests/support/planned_jobs.h"
#include "tests/support/worked_steps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using test::workOf;
using testing::HasSubstr;

std::vector<StepKind> kindsOf(const WorkPlan& work) {
    std::vector<StepKind> kinds;
    for (const BenchStep& step : work.steps) {
        kinds.push_back(step.kind);
    }
    return kinds;
}

std::string textOf(const BenchStep& step) {
    std::string text = step.title;
    for (const StepLine& line : step.lines) {
        text += "\n" + line.word + ": " + line.text;
    }
    return text;
}

const BenchStep& stepOf(const WorkPlan& work, StepKind kind, const std::string& letter = {}) {
    for (const BenchStep& step : work.steps) {
        if (step.kind == kind && (letter.empty() || step.letter == letter)) {
            return step;
        }
    }
    throw std::runtime_error("no such step");
}

TEST(OrderOfWork, WithoutAModThereIsNoWork) {
    EXPECT_TRUE(workOf(harbourLampWith("")).steps.empty());
}

TEST(OrderOfWork, BeginsWithPhotographAndDischargeAndStopsBeforePower) {
    const WorkPlan work = workOf(harbourLampWith("A"));
    const std::vector<StepKind> kinds = kindsOf(work);
    ASSERT_GT(kinds.size(), 6u);
    EXPECT_EQ(kinds[0], StepKind::photograph);
    EXPECT_EQ(kinds[1], StepKind::discharge);
    EXPECT_TRUE(work.steps[1].blocks);
    EXPECT_EQ(work.steps[1].high, 0.1);
    EXPECT_EQ(kinds[2], StepKind::takeOut);
    EXPECT_EQ(kinds[3], StepKind::fit);
    const auto stop = std::find(kinds.begin(), kinds.end(), StepKind::stop);
    const auto power = std::find(kinds.begin(), kinds.end(), StepKind::powerUp);
    ASSERT_NE(power, kinds.end());
    EXPECT_EQ(stop + 1, power);
    EXPECT_EQ(std::count(kinds.begin(), stop, StepKind::probe), 0);
    EXPECT_GT(std::count(power, kinds.end(), StepKind::probe), 3);
    EXPECT_THAT(textOf(*(work.steps.begin() + (power - kinds.begin()))), HasSubstr("Power on without signal, 9.00 V"));
}

TEST(OrderOfWork, ASwapSaysWhatToLookForAndWhichLegsJoinWhat) {
    const WorkPlan work = workOf(harbourLampWith("A"));
    const BenchStep& out = stepOf(work, StepKind::takeOut);
    EXPECT_EQ(out.title, "Take C4 Cg out, 56n, printed 563");
    EXPECT_THAT(textOf(out), HasSubstr("50.4 nF to 61.6 nF"));  // 56 nF and 10 %
    const BenchStep& fit = stepOf(work, StepKind::fit);
    EXPECT_THAT(fit.title, HasSubstr("Fit C4 Cg 120n, printed 124"));
    EXPECT_THAT(textOf(fit), HasSubstr("Must beep: one leg to U1 pin 2; other leg to one leg of R5 Rg"));
    EXPECT_THAT(textOf(fit), HasSubstr("Silent: leg to leg"));
    EXPECT_EQ(fit.picture.marking, "124");
}

TEST(OrderOfWork, ADiodeInLineSaysLegJointAndBandsAndIsReadBothWays) {
    const WorkPlan work = workOf(harbourLampWith("B"));
    const BenchStep& fit = stepOf(work, StepKind::fit, "B");
    EXPECT_EQ(fit.title, "Lift the band leg of D2, set D3 1N4148 in line");
    EXPECT_THAT(textOf(fit), HasSubstr("Bands: both bands point the same way"));
    EXPECT_TRUE(fit.needsSecondPerson);
    EXPECT_EQ(fit.picture.kind, BodyPicture::Kind::diode);
    std::vector<double> volts;
    for (const BenchStep& step : work.steps) {
        if (step.check && step.check->kind == CheckKind::diode) {
            volts.push_back(*step.nominal);
            EXPECT_EQ(step.unit, Unit::volt);
        }
    }
    std::sort(volts.begin(), volts.end());
    ASSERT_EQ(volts.size(), 2u);
    EXPECT_NEAR(volts[0], 0.585, 0.005);
    EXPECT_NEAR(volts[1], 1.17, 0.01);
}

// A, B and C share the pads of the inverting input and the leg; D is apart and gets its own power-up.
TEST(OrderOfWork, PartsOnOnePadComeTogetherWithPowerBetweenTheGroups) {
    const WorkPlan work = workOf(harbourLampWith("ABCD"));
    const std::vector<StepKind> kinds = kindsOf(work);
    EXPECT_EQ(std::count(kinds.begin(), kinds.end(), StepKind::powerUp), 2);
    EXPECT_EQ(std::count(kinds.begin(), kinds.end(), StepKind::discharge), 2);
    std::string letters;
    for (const BenchStep& step : work.steps) {
        if (!step.letter.empty() && (letters.empty() || letters.back() != step.letter[0])) {
            letters += step.letter;
        }
    }
    EXPECT_EQ(letters, "ABCD");
    EXPECT_GE(std::count(kinds.begin(), kinds.end(), StepKind::tone), 2);
}

// The resistor of the leg reads alone: 2.70 k.
TEST(OrderOfWork, ReadingsHaveTheirBands) {
    const WorkPlan work = workOf(harbourLampWith("ABC"));
    const auto reading = std::find_if(work.steps.begin(), work.steps.end(), [](const BenchStep& step) {
        return step.letter == "C" && step.check && step.check->kind == CheckKind::ohms && step.nominal;
    });
    ASSERT_NE(reading, work.steps.end());
    EXPECT_NEAR(*reading->nominal, 2700.0, 1.0);
    EXPECT_LT(*reading->low, 2700.0);
    EXPECT_GT(*reading->high, 2700.0);
    EXPECT_THAT(reading->ifItFails, HasSubstr("R5 Rg"));
}

TEST(OrderOfWork, LiftAndBridgeNameTheirPlace) {
    const Job job = harbourLampWith("");
    const Result<Job> lifted = addMod(job, Lift{"r10", 1});
    ASSERT_TRUE(lifted) << lifted.error().message;
    const BenchStep lift = stepOf(workOf(*lifted), StepKind::moveLeg);
    EXPECT_EQ(lift.title, "Lift the one leg of R10");
    EXPECT_THAT(textOf(lift), HasSubstr("ground (jack sleeve)"));
    const Result<Job> bridged = addMod(job, Bridge{"r10", 0, 1});
    ASSERT_TRUE(bridged) << bridged.error().message;
    EXPECT_EQ(stepOf(workOf(*bridged), StepKind::fit).title, "Join two legs of R10 with solder or wire");
}

TEST(OrderOfWork, AModThatCannotBeFittedIsNamed) {
    Job job = harbourLampWith("A");
    job.plan.front().change = SwapValue{"nowhere", 1.0};
    const auto work = orderOfWork(job);
    ASSERT_FALSE(work);
    EXPECT_THAT(work.error().message, HasSubstr("A "));
}

}  // namespace
}  // namespace ohmwright
