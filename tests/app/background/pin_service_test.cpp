// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/pin_service.h"

#include "core/measure/curve_read.h"
#include "core/plan/edits.h"
#include "core/plan/pinned.h"
#include "tests/support/open_job.h"

#include <algorithm>

namespace ohmwright::test {
namespace {

constexpr int patience = 60000;

bool waitFor(PinService& service) {
    return QTest::qWaitFor([&service] { return service.isCurrent(); }, patience);
}

// Stock's level at 110 Hz is -8.27 dB (tests/reference/harbour-lamp-figures.csv); the pinned state keeps it.
TEST(PinService, APinnedStateKeepsItsCurveWhileThePlanChanges) {
    OpenJob open;
    open.document.edit(setModOn(open.job(), open.job().plan[0].id, false), "Mute A");
    open.document.edit(pinState(open.job()), "Pin", JobAspect::words);
    PinService service(open.document);
    service.show({CurveKind::response});
    ASSERT_TRUE(waitFor(service));
    ASSERT_EQ(service.tables(CurveKind::response).size(), 1U);
    EXPECT_EQ(service.tables(CurveKind::response)[0].letter, "W");
    const CurveTable& table = *service.tables(CurveKind::response)[0].table;
    const std::optional<double> gain = curveValueAt(table, 1, 110.0);
    ASSERT_TRUE(gain);
    EXPECT_NEAR(*gain, -8.27, 0.01);
    open.document.edit(setModOn(open.job(), open.job().plan[0].id, true), "Mod A");
    EXPECT_TRUE(service.isCurrent()) << "nothing of it is solved again";
    EXPECT_TRUE(service.tables(CurveKind::clip).empty()) << "what is not looked at is not solved";
}

TEST(PinService, ItFollowsWhatIsPinnedAndWhatStockIs) {
    OpenJob open;
    PinService service(open.document);
    service.show({CurveKind::noise});
    EXPECT_TRUE(service.isCurrent());
    open.document.edit(pinState(open.job()), "Pin", JobAspect::words);
    EXPECT_FALSE(service.isCurrent());
    ASSERT_TRUE(waitFor(service));
    open.document.edit(renamePinned(open.job(), "W", "loud"), "Name", JobAspect::words);
    EXPECT_TRUE(service.isCurrent()) << "a name is no circuit";
    Job heavier = open.job();
    heavier.setting.loadOhms = 1e5;
    open.document.edit(heavier, "Load");
    EXPECT_TRUE(service.isCurrent()) << "the pinned setting is its own";
    Job other = open.job();
    const auto r7 = std::find_if(other.stock.parts.begin(), other.stock.parts.end(),
                                 [](const Part& part) { return part.id == "r7"; });
    ASSERT_NE(r7, other.stock.parts.end());
    r7->value = 15e3;
    open.document.edit(other, "Another stock");
    EXPECT_FALSE(service.isCurrent());
    ASSERT_TRUE(waitFor(service));
    open.document.edit(unpinState(open.job(), "W"), "Unpin", JobAspect::words);
    EXPECT_TRUE(service.tables(CurveKind::noise).empty());
}

TEST(PinService, WhatCannotBeSolvedSaysWhy) {
    OpenJob open;
    open.document.edit(pinState(open.job()), "Pin", JobAspect::words);
    Job broken = open.job();
    broken.plan.clear();
    std::erase_if(broken.stock.parts, [](const Part& part) { return part.id == "c4"; });
    open.document.edit(broken, "Without C4");
    PinService service(open.document);
    service.show({CurveKind::response});
    ASSERT_TRUE(waitFor(service));
    EXPECT_TRUE(service.tables(CurveKind::response).empty());
    EXPECT_TRUE(service.fault("W").contains("c4", Qt::CaseInsensitive)) << service.fault("W").toStdString();
}

}  // namespace
}  // namespace ohmwright::test
