// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/paper_service.h"

#include "core/plan/edits.h"
#include "tests/support/open_job.h"

namespace ohmwright::test {
namespace {

class PaperServiceTest : public testing::Test {
protected:
    [[nodiscard]] bool waitForAnswers() {
        constexpr int patience = 60000;
        return QTest::qWaitFor([this] { return service.answers() != nullptr || !service.fault().isEmpty(); }, patience);
    }

    OpenJob open;
    PaperService service{open.document, open.solver, open.shop};
};

TEST_F(PaperServiceTest, NothingIsWorkedOutWhileNobodyLooks) {
    QTest::qWait(50);
    EXPECT_EQ(service.lastAnswers(), nullptr);
    service.want(PaperKind::label);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_EQ(service.answers()->kind, PaperKind::label);
}

// Another plan makes the answers old at once; they stay to be shown pale.
TEST_F(PaperServiceTest, AnotherPlanMakesTheAnswersOld) {
    service.want(PaperKind::bench);
    ASSERT_TRUE(waitForAnswers());
    open.document.edit(setPartValue(open.job(), "c4", 150e-9), "Change C4");
    EXPECT_EQ(service.answers(), nullptr);
    EXPECT_NE(service.lastAnswers(), nullptr);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_EQ(service.answers()->job, open.document.job());
}

TEST_F(PaperServiceTest, WordsAndSignaturesAreSetAnewAndNothingIsSolved) {
    service.want(PaperKind::bench);
    ASSERT_TRUE(waitForAnswers());
    const auto linear = service.answers()->linear;
    Job signedOff = open.job();
    signedOff.visit.marks.push_back({.step = "photograph: x", .when = "2026-11-29T10:00:00"});
    open.document.edit(signedOff, "Sign", JobAspect::words);
    ASSERT_NE(service.answers(), nullptr);
    EXPECT_EQ(service.answers()->linear, linear);
    EXPECT_EQ(service.answers()->job, open.document.job());
}

TEST_F(PaperServiceTest, AnUnseenPartIsTheFault) {
    Job job = open.job();
    findPart(job.stock, "c4")->knowledge = Knowledge::drawn;
    open.document.setJob(job, {});
    service.want(PaperKind::quote);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_EQ(service.answers(), nullptr);
    EXPECT_TRUE(service.fault().contains("C4 Cg")) << service.fault().toStdString();
}

}  // namespace
}  // namespace ohmwright::test
