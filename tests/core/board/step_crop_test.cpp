// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/step_crop.h"

#include "core/bench/order_of_work.h"
#include "core/plan/board_marks.h"
#include "tests/core/board/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

using test::legNamed;

Job photographed(const std::string& letters) {
    Job job = test::demoJob();
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return *setBoardPhoto(job, BoardSide::part, {"front.jpg", "0123456789abcdef", 1000, 800});
}

struct CroppedStep {
    BenchStep step;
    std::optional<StepCrop> crop;
};

std::vector<CroppedStep> croppedSteps(const Job& job) {
    const auto work = orderOfWork(job);
    EXPECT_TRUE(work) << work.error().message;
    const auto crops = stepCrops(job, work->steps);
    EXPECT_TRUE(crops) << crops.error().message;
    std::vector<CroppedStep> steps;
    for (std::size_t k = 0; k < work->steps.size(); ++k) {
        steps.push_back({work->steps[k], (*crops)[k]});
    }
    return steps;
}

CroppedStep firstOf(const Job& job, StepKind kind) {
    const auto steps = croppedSteps(job);
    const auto found =
        std::find_if(steps.begin(), steps.end(), [kind](const CroppedStep& step) { return step.step.kind == kind; });
    EXPECT_NE(found, steps.end());
    return found != steps.end() ? *found : CroppedStep{};
}

TEST(StepCrop, ShowsBothLegsOfThePartThatIsTakenOutAndOfTheOneThatComes) {
    Job job = photographed("A");
    job = *markLeg(job, BoardSide::part, legNamed(job.stock, "C4", 0), {300, 400});
    job = *markLeg(job, BoardSide::part, legNamed(job.stock, "C4", 1), {360, 400});
    for (const StepKind kind : {StepKind::takeOut, StepKind::fit}) {
        const auto crop = firstOf(job, kind).crop;
        ASSERT_TRUE(crop);
        EXPECT_EQ(crop->side, BoardSide::part);
        EXPECT_EQ(crop->box, (DrawnRect{175, 275, 310, 250}));  // an eighth of 1000 px around the legs
        ASSERT_EQ(crop->legs.size(), 2U);
        EXPECT_EQ(crop->legs[0].words, "leg 1");
        EXPECT_EQ(crop->legs[0].at, (BoardPoint{300, 400}));
        EXPECT_EQ(crop->legs[1].words, "leg 2");
        EXPECT_EQ(crop->legs[1].at, (BoardPoint{360, 400}));
    }
}

TEST(StepCrop, StepsThatTouchNoMarkedLegShowNothing) {
    Job job = photographed("A");
    for (const CroppedStep& step : croppedSteps(job)) {
        EXPECT_FALSE(step.crop) << step.step.title;
    }
    job = *markLeg(job, BoardSide::part, legNamed(job.stock, "R1", 0), {300, 400});
    for (const CroppedStep& step : croppedSteps(job)) {
        EXPECT_FALSE(step.crop) << step.step.title;
    }
    job = *markLeg(job, BoardSide::part, legNamed(job.stock, "C4", 1), {360, 400});
    for (const CroppedStep& step : croppedSteps(job)) {
        const bool isHands = step.step.kind == StepKind::takeOut || step.step.kind == StepKind::fit;
        EXPECT_EQ(step.crop.has_value(), isHands) << step.step.title;
    }
}

TEST(StepCrop, ABoardWithoutAPhotoHasNone) {
    for (const CroppedStep& step : croppedSteps(test::demoJob())) {
        EXPECT_FALSE(step.crop) << step.step.title;
    }
}

TEST(StepCrop, TheSideOnWhichTheLegsWereMarkedIsShown) {
    Job job = photographed("A");
    job = *setBoardPhoto(job, BoardSide::solder, {"back.jpg", "0123456789abcdee", 1000, 800});
    job = *markLeg(job, BoardSide::solder, legNamed(job.stock, "C4", 0), {700, 400});
    job = *markLeg(job, BoardSide::solder, legNamed(job.stock, "C4", 1), {640, 400});
    const auto crop = firstOf(job, StepKind::takeOut).crop;
    ASSERT_TRUE(crop);
    EXPECT_EQ(crop->side, BoardSide::solder);
    EXPECT_EQ(crop->legs[0].at, (BoardPoint{700, 400}));
}

// The new diode lies on no photo yet; the leg that is lifted for it does, and its part is named: two parts are at work.
TEST(StepCrop, OfAPartInLineTheLiftedLegIsShownByItsPart) {
    Job job = photographed("B");
    for (const char* diode : {"D1", "D2"}) {
        for (const int pin : {0, 1}) {
            job = *markLeg(job, BoardSide::part, legNamed(job.stock, diode, pin), {200.0 + 50 * pin, 300});
        }
    }
    const CroppedStep fit = firstOf(job, StepKind::fit);
    ASSERT_TRUE(fit.crop);
    ASSERT_EQ(fit.crop->legs.size(), 1U);
    EXPECT_EQ(fit.step.title.substr(0, 24), "Lift the band leg of D2,");
    EXPECT_EQ(fit.crop->legs[0].words, "D2 band leg");
}

}  // namespace
}  // namespace ohmwright
