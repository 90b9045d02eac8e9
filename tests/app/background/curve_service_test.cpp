// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/curve_service.h"

#include "core/plan/edits.h"
#include "tests/support/open_job.h"

namespace ohmwright::test {
namespace {

constexpr int patience = 60000;

bool waitFor(CurveService& service) {
    return QTest::qWaitFor([&service] { return service.isCurrent(); }, patience);
}

TEST(CurveService, SolvesWhatIsShownAndFollowsTheJob) {
    OpenJob open;
    CurveService service(open.document);
    EXPECT_EQ(service.answer(), nullptr);
    service.show(CurveKind::noise);
    ASSERT_TRUE(waitFor(service));
    const CurveTable before = service.answer()->curve->now;
    open.document.edit(setPartValue(open.job(), "r7", 15e3), "Change R7");
    EXPECT_FALSE(service.isCurrent());
    ASSERT_NE(service.answer(), nullptr) << "the old curve stays, stamped, until the new one comes";
    ASSERT_TRUE(waitFor(service));
    EXPECT_NE(service.answer()->curve->now.columns[1].values.front(), before.columns[1].values.front());
}

TEST(CurveService, AnEditOfWordsAsksForNothing) {
    OpenJob open;
    CurveService service(open.document);
    service.show(CurveKind::bias);
    ASSERT_TRUE(waitFor(service));
    Job named = open.job();
    named.unit.name = "Another";
    open.document.edit(named, "Name it", JobAspect::words);
    EXPECT_TRUE(service.isCurrent());
}

TEST(CurveService, WhatIsNotShownHasNoAnswerAndNothingToSolveIsNotAsked) {
    OpenJob open;
    CurveService service(open.document);
    service.show(CurveKind::bias);
    ASSERT_TRUE(waitFor(service));
    service.show(std::nullopt);
    EXPECT_EQ(service.answer(), nullptr);
    open.document.setJob({}, {});
    service.show(CurveKind::bias);
    EXPECT_FALSE(QTest::qWaitFor([&service] { return service.isCurrent(); }, 200));
}

TEST(CurveService, ACircuitWithoutAnAnswerSaysWhy) {
    OpenJob open;
    CurveService service(open.document);
    service.show(CurveKind::ladder);
    Job broken = open.job();
    broken.stock.ports.output = "nowhere";
    open.document.edit(broken, "Break it");
    ASSERT_TRUE(waitFor(service));
    EXPECT_FALSE(service.answer()->curve);
    EXPECT_FALSE(service.answer()->fault.isEmpty());
}

}  // namespace
}  // namespace ohmwright::test
