// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/demo_lessons.h"

#include "app/window/demo_jobs.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

DemoLesson lesson(const char* id, CurveKind shown) {
    const Result<Job> job = readDemoJob(id);
    EXPECT_TRUE(job);
    const Result<DemoLesson> found = lessonOf(id, *job, shown);
    EXPECT_TRUE(found) << (found ? "" : found.error().message);
    return found ? *found : DemoLesson{};
}

// Figures of tests/reference/demos, which an independent simulator solved: +5.77 dB at 82.4 Hz with Cg 120n, −5.32 with
// Ck 680n, peaks of 0.535 and 1.273 V at 100 mVpk, drains of 3.879 and 4.777 V, a collector of 4.90 and 4.51 V.
TEST(DemoLessons, TheLineIsTheChangeOfTheCurve) {
    EXPECT_EQ(lesson("harbour-lamp", CurveKind::response).change, "+5.77 dB at 82.4 Hz");
    EXPECT_EQ(lesson("night-ferry", CurveKind::response).change, "\u22125.32 dB at 82.4 Hz");
    EXPECT_EQ(lesson("quarry-bell", CurveKind::clip).change, "±0.54 → ±1.27 V at 100 mVpk");
    EXPECT_EQ(lesson("paper-boat", CurveKind::bias).change, "J1 drain 3.88 → 4.78 V");
    const DemoLesson engine = lesson("moss-engine", CurveKind::bias);
    EXPECT_EQ(engine.change, "Q2 collector 4.90 → 4.51 V");
    ASSERT_EQ(engine.resting.size(), 2U);
    EXPECT_EQ(engine.resting[0].name, "Q1 collector");
    EXPECT_EQ(engine.kind, "two-transistor fuzz");
}

TEST(DemoLessons, WhatCannotBeSolvedIsSaid) {
    Job job = *readDemoJob("harbour-lamp");
    job.stock.ports.output = "nowhere";
    EXPECT_FALSE(lessonOf("harbour-lamp", job, CurveKind::response));
}

}  // namespace
}  // namespace ohmwright
