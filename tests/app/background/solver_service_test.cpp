// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/solver_service.h"

#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "core/circuit/circuit.h"
#include "core/measure/figures.h"
#include "core/plan/edits.h"

#include <gtest/gtest.h>
#include <QSignalSpy>
#include <QTest>

#include <memory>
#include <optional>

namespace ohmwright {
namespace {

constexpr int patience = 60'000;

QString demoPath() {
    return QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob";
}

class SolverServiceTest : public testing::Test {
protected:
    void SetUp() override {
        const Result<void> opened = document.open(demoPath());
        ASSERT_TRUE(opened) << opened.error().message;
        service = std::make_unique<SolverService>(document, selection);
        ASSERT_TRUE(waitUntilCurrent());
    }

    bool waitUntilCurrent() {
        return QTest::qWaitFor([this] { return service->isCurrent() && !service->isBusy(); }, patience);
    }

    PartId idOf(const char* reference) const {
        const Part* part = findPartByReference(document.job()->stock, reference);
        return part ? part->id : PartId();
    }

    JobDocument document;
    Selection selection;
    std::unique_ptr<SolverService> service;
};

TEST_F(SolverServiceTest, AnswersBelongToTheJobThatIsOpen) {
    EXPECT_EQ(service->linear()->job, document.job());
    EXPECT_EQ(service->largeSignal()->job, document.job());
    EXPECT_EQ(service->fault(), "");
    EXPECT_GT(service->lastSolveMilliseconds(), 0.0);
}

TEST_F(SolverServiceTest, AnEditMakesTheAnswersOldAtOnceAndNewOnesFollow) {
    ASSERT_TRUE(document.edit(setPartValue(*document.job(), idOf("C4"), 150e-9), "Change C4"));
    EXPECT_FALSE(service->isCurrent());
    EXPECT_NE(service->linear(), nullptr);
    ASSERT_TRUE(waitUntilCurrent());
    const Figure* tag = findFigure(service->linear()->now.figures, "gain_leg_corner");
    ASSERT_TRUE(tag && tag->value);
    // 1/(2 pi 3900 ohm 150 nF)
    EXPECT_NEAR(*tag->value, 272.06, 0.1);
}

TEST_F(SolverServiceTest, OfManyQuickEditsTheLastIsShown) {
    for (int i = 1; i <= 20; ++i) {
        document.edit(setPartValue(*document.job(), idOf("C4"), i * 10e-9), "Change C4", JobAspect::electrical,
                      MergeKind::value, "c4");
        QCoreApplication::processEvents();
    }
    ASSERT_TRUE(waitUntilCurrent());
    // 1/(2 pi 3900 ohm 200 nF)
    EXPECT_NEAR(*findFigure(service->linear()->now.figures, "gain_leg_corner")->value, 204.05, 0.1);
}

TEST_F(SolverServiceTest, WordsStartNoSolve) {
    QSignalSpy linear(service.get(), &SolverService::linearReady);
    Job job = *document.job();
    job.customer.name = "B. M.";
    document.edit(job, "Change customer", JobAspect::words);
    EXPECT_TRUE(service->isCurrent());
    EXPECT_FALSE(service->isBusy());
    QTest::qWait(50);
    EXPECT_EQ(linear.count(), 0);
}

TEST_F(SolverServiceTest, CursorAsksTheLinearLaneAlone) {
    QSignalSpy linear(service.get(), &SolverService::linearReady);
    QSignalSpy largeSignal(service.get(), &SolverService::largeSignalReady);
    selection.setCursorHz(1000.0);
    ASSERT_TRUE(QTest::qWaitFor([&] { return linear.count() > 0 && !service->isBusy(); }, patience));
    EXPECT_EQ(largeSignal.count(), 0);
    EXPECT_EQ(service->linear()->now.cursorHz, 1000.0);
    EXPECT_TRUE(service->isCurrent());
}

TEST_F(SolverServiceTest, AGhostIsAnsweredAndGoesAgain) {
    selection.setGhost(SwapValue{idOf("C4"), 150e-9});
    ASSERT_TRUE(QTest::qWaitFor([&] { return service->linear()->ghost && service->largeSignal()->ghost; }, patience));
    selection.setGhost(std::nullopt);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !service->linear()->ghost && !service->largeSignal()->ghost; }, patience));
}

TEST_F(SolverServiceTest, AJobThatCannotBeSolvedSaysWhyAndKeepsTheLastGoodAnswers) {
    const auto good = service->linear();
    Job job = *document.job();
    // The foot of the gain leg ends at a net that nothing else joins.
    for (Part& part : job.stock.parts) {
        if (part.reference == "R5") {
            part.nets[1] = "nowhere";
        }
    }
    document.edit(job, "Break the gain leg");
    ASSERT_TRUE(QTest::qWaitFor([&] { return !service->fault().isEmpty(); }, patience));
    EXPECT_FALSE(service->isCurrent());
    EXPECT_EQ(service->linear(), good);
    document.undoStack().undo();
    ASSERT_TRUE(waitUntilCurrent());
    EXPECT_EQ(service->fault(), "");
}

TEST_F(SolverServiceTest, AnotherJobForgetsTheAnswersOfTheOneBefore) {
    ASSERT_TRUE(document.open(demoPath()));
    EXPECT_EQ(service->linear(), nullptr);
    EXPECT_EQ(service->largeSignal(), nullptr);
    EXPECT_TRUE(waitUntilCurrent());
}

TEST_F(SolverServiceTest, MayBeGivenUpWhileItSolves) {
    document.edit(setPartValue(*document.job(), idOf("C4"), 150e-9), "Change C4");
    QCoreApplication::processEvents();
    service.reset();
    QTest::qWait(20);
    SUCCEED();
}

}  // namespace
}  // namespace ohmwright
