// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/pick_list.h"

#include "core/files/drawer_file.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

Drawer demoDrawer() {
    return *loadDrawer(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json");
}

/// The demo with the mods of those letters on.
Job withMods(const std::string& letters) {
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) mod.on = letters.find(mod.letter) != std::string::npos;
    return job;
}

TEST(PickList, HoldsWhatTheModsThatAreOnNeed) {
    const auto lines = pickList(withMods("ABC"), demoDrawer());
    ASSERT_TRUE(lines);
    ASSERT_EQ(lines->size(), 3U);
    EXPECT_EQ((*lines)[0].sentence, "C4: 120n film, lot CF-12 (marked 124)");
    EXPECT_EQ((*lines)[1].reference, "D3");
    EXPECT_EQ((*lines)[1].lot, "1N4148");
    EXPECT_EQ((*lines)[2].modLetter, "C");
    EXPECT_EQ((*lines)[2].printed, "red-violet-red-gold");
    EXPECT_THAT(takenBy(*lines), ElementsAre(LotCount{"1N4148", 1}, LotCount{"C-120n", 1}, LotCount{"R-2k7", 1}));
    EXPECT_TRUE(pickList(withMods(""), demoDrawer())->empty());
}

TEST(PickList, WhatIsPromisedToOthersMustBeOrdered) {
    Drawer drawer = demoDrawer();
    for (DrawerLot& lot : drawer.lots)
        if (lot.id == "C-120n") lot.reserved["QB-0007/1"] = lot.quantity;
    const auto lines = pickList(withMods("A"), drawer);
    ASSERT_TRUE(lines);
    EXPECT_EQ((*lines)[0].lot, "");
    EXPECT_THAT((*lines)[0].sentence, HasSubstr("order 1"));
    // What the job itself has reserved is its own.
    const Job job = withMods("A");
    const Drawer own = *reserve(demoDrawer(), reservationName(job), {{"C-120n", 3}});
    EXPECT_EQ((*pickList(job, own))[0].lot, "C-120n");
}

// Three jobs with mod A need three of 120n; the drawer has 3, one of which a fourth job has reserved.
TEST(PickList, ShortagesAreOverAllOpenJobs) {
    std::vector<Job> jobs;
    for (const char* serial : {"HL-1", "HL-2", "HL-3"}) {
        jobs.push_back(withMods("A"));
        jobs.back().unit.serial = serial;
    }
    EXPECT_TRUE(shortageList(jobs, demoDrawer()).empty());
    Drawer drawer = *reserve(demoDrawer(), "ZZ-9/1", {{"C-120n", 1}});
    drawer = *reserve(drawer, reservationName(jobs[0]), {{"C-120n", 1}});
    const auto missing = shortageList(jobs, drawer);
    ASSERT_EQ(missing.size(), 1U);
    EXPECT_EQ(missing[0].sentence, "1 of 120n missing (HL-1/2, HL-2/2, HL-3/2): 3 needed, 2 there");
}

TEST(PickList, AJobThatCannotBeFittedIsNamed) {
    Job job = withMods("A");
    job.plan[0].change = SwapValue{"nowhere", 1.0};
    EXPECT_FALSE(pickList(job, demoDrawer()));
    std::vector<std::string> unfit;
    EXPECT_TRUE(shortageList({job}, demoDrawer(), &unfit).empty());
    ASSERT_EQ(unfit.size(), 1U);
    EXPECT_THAT(unfit[0], HasSubstr("HL-0231/2"));
}

}  // namespace
}  // namespace ohmwright
