// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/target_service.h"

#include "core/plan/edits.h"
#include "tests/support/open_job.h"

namespace ohmwright::test {
namespace {

constexpr int patience = 60000;

TargetRequest requestFor(const char* want, std::vector<PartId> parts) {
    TargetRequest request;
    request.wants = {*readWant(want)};
    request.parts = std::move(parts);
    return request;
}

TEST(TargetService, FindsAndSaysWhenTheJobHasMovedOn) {
    OpenJob open;
    TargetService service(open.document);
    service.search(requestFor("gain_leg_corner=590", {"c4"}));
    EXPECT_TRUE(service.isRunning());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !service.isRunning(); }, patience));
    ASSERT_TRUE(service.isCurrent());
    ASSERT_TRUE(service.outcome()->list) << service.outcome()->list.error().message;
    EXPECT_FALSE(service.outcome()->list->answers.empty());
    open.document.edit(setPartValue(open.job(), "r5", 3300.0), "Change R5");
    EXPECT_FALSE(service.isCurrent());
    open.document.undoStack().undo();
    EXPECT_TRUE(service.isCurrent());
}

TEST(TargetService, AStoppedSearchAnswersNothing) {
    OpenJob open;
    TargetService service(open.document);
    service.search(requestFor("clip_threshold_positive=0.3", {"c4", "r5", "r6"}));
    service.stop();
    EXPECT_FALSE(service.isRunning());
    QTest::qWait(200);
    EXPECT_EQ(service.outcome(), nullptr);
}

TEST(TargetService, TheLatestRequestWins) {
    OpenJob open;
    TargetService service(open.document);
    service.search(requestFor("gain_leg_corner=590", {"c4", "r5"}));
    service.search(requestFor("gain_leg_corner=300", {"c4"}));
    ASSERT_TRUE(QTest::qWaitFor([&] { return !service.isRunning() && service.outcome() != nullptr; }, patience));
    EXPECT_EQ(service.outcome()->request.wants.front().value, 300.0);
}

TEST(TargetService, ARequestThatMakesNoSenseIsAnsweredInWords) {
    OpenJob open;
    TargetService service(open.document);
    service.search(requestFor("gain_leg_corner=590", {"d1"}));
    ASSERT_TRUE(QTest::qWaitFor([&] { return service.outcome() != nullptr; }, patience));
    EXPECT_FALSE(service.outcome()->list);
}

}  // namespace
}  // namespace ohmwright::test
