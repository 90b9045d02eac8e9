// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/switch_steps.h"

#include "core/bench/judge.h"
#include "core/bench/order_of_work.h"
#include "core/bench/way_back.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/worked_steps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

using test::titlesOf;
using test::workOf;
using testing::HasSubstr;

/// Quarry Bell with nothing but its clipper switch, which stands at the throw.
Job withSwitch(const std::string& throwName = {}) {
    Job job = test::demoJob("quarry-bell", "D");
    if (!throwName.empty()) {
        job.setting.throws["mod-d"] = throwName;
    }
    return job;
}

/// The diode range at a throw, one entry a direction [V]; no reading is -1.
std::vector<double> diodeVolts(const WorkPlan& work, const std::string& throwName) {
    std::vector<double> volts;
    for (const BenchStep& step : work.steps) {
        if (step.check && step.check->kind == CheckKind::diode && step.title.rfind("Switch at " + throwName, 0) == 0) {
            volts.push_back(step.nominal.value_or(-1.0));
        }
    }
    return volts;
}

// A switch that stood at the throw of the stock board gave no work at all: nothing differed there.
TEST(SwitchSteps, AreTheSameWorkAtWhicheverThrowTheSwitchStands) {
    std::vector<std::string> first;
    for (const char* throwName : {"silicon", "open", "LED"}) {
        const WorkPlan work = workOf(withSwitch(throwName));
        std::vector<std::string> ofSwitch;
        for (const BenchStep& step : work.steps) {
            if (step.letter == "D") {
                ofSwitch.push_back(step.title);
            }
        }
        EXPECT_GT(ofSwitch.size(), 6U) << throwName;
        if (first.empty()) {
            first = ofSwitch;
        }
        EXPECT_EQ(ofSwitch, first) << throwName;
    }
}

TEST(SwitchSteps, NameEveryThrowAndWhatItJoins) {
    const WorkPlan work = workOf(withSwitch());
    const auto fit = std::find_if(work.steps.begin(), work.steps.end(), [](const BenchStep& step) {
        return step.title == "Fit the switch: silicon / open / LED";
    });
    ASSERT_NE(fit, work.steps.end());
    std::string text;
    for (const StepLine& line : fit->lines) {
        text += line.word + ": " + line.text + "\n";
    }
    EXPECT_THAT(text, HasSubstr("silicon: the board as it was"));
    EXPECT_THAT(text, HasSubstr("open: D1, D2 not joined"));
    EXPECT_THAT(text, HasSubstr("LED: D1, D2 "));
    EXPECT_THAT(text, HasSubstr("no way back"));
    // The board's own diodes stay for their throw.
    for (const std::string& title : titlesOf(work)) {
        EXPECT_NE(title.rfind("Take D1 out", 0), 0U) << title;
    }
}

// 1N4148 give 0.585 V at 1 mA, the LED 1.60 V; nothing where the throw is open.
TEST(SwitchSteps, EachThrowIsReadInTheDiodeRange) {
    const WorkPlan work = workOf(withSwitch());
    const std::vector<double> silicon = diodeVolts(work, "silicon");
    const std::vector<double> led = diodeVolts(work, "LED");
    ASSERT_FALSE(silicon.empty());
    ASSERT_FALSE(led.empty());
    for (const double volts : silicon) {
        EXPECT_NEAR(volts, 0.585, 0.01);
    }
    for (const double volts : led) {
        EXPECT_NEAR(volts, 1.60, 0.02);
    }
}

TEST(SwitchSteps, ASwitchTheOtherWayUpIsFoundAtItsOuterThrows) {
    const WorkPlan work = workOf(withSwitch());
    int found = 0;
    for (std::size_t sheet = 0; sheet + 1 < work.checkPlans.size(); ++sheet) {
        const CheckPlan& plan = work.checkPlans[sheet];
        for (std::size_t row = 0; row < plan.mistakes.size(); ++row) {
            if (plan.mistakes[row].kind != MistakeKind::upsideDown) {
                continue;
            }
            ++found;
            EXPECT_EQ(std::count(plan.unseen.begin(), plan.unseen.end(), row), 0);
        }
    }
    EXPECT_EQ(found, 2);  // silicon and LED; the middle throw stays where it is

    const auto step = std::find_if(work.steps.begin(), work.steps.end(), [](const BenchStep& each) {
        return each.check && each.check->kind == CheckKind::diode && each.title.rfind("Switch at LED", 0) == 0;
    });
    ASSERT_NE(step, work.steps.end());
    const Judgement judged = judgeCheck(work.checkPlans[static_cast<std::size_t>(step->sheet)], step->line, 0.585);
    EXPECT_FALSE(judged.isInBand);
    EXPECT_THAT(judged.sentence, HasSubstr("the switch the other way up: silicon where LED should be"));
}

TEST(SwitchSteps, TheWayBackTakesItOutAndReadsTheBoardAsItWas) {
    const Result<WayBack> back = wayBack(withSwitch());
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(back->words, "the switch (silicon / open / LED) out, D1 and D2 on their own pads again");
    EXPECT_THAT(back->notExact, testing::Contains("The hole of the switch stays in the box."));
    EXPECT_THAT(titlesOf(back->work), testing::Contains("Take the switch out, with its wires: silicon / open / LED"));
    std::vector<double> volts;
    for (const BenchStep& step : back->work.steps) {
        if (step.check && step.check->kind == CheckKind::diode) {
            volts.push_back(step.nominal.value_or(-1.0));
        }
    }
    ASSERT_FALSE(volts.empty());
    for (const double each : volts) {
        EXPECT_NEAR(each, 0.585, 0.01);
    }
}

TEST(SwitchSteps, AThrowOfALiftedLegSaysSo) {
    const Job job = withSwitch();
    const Result<std::vector<ThrowCircuit>> throws = throwCircuits(job);
    ASSERT_TRUE(throws);
    EXPECT_EQ(throwWords(job.stock, (*throws)[0].circuit), "the board as it was");
    EXPECT_FALSE(switchUpsideDown(*throws, 1));
}

}  // namespace
}  // namespace ohmwright
