// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board_walk.h"

#include "core/plan/papers.h"
#include "tests/support/demo_job.h"
#include "tests/support/disguise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

using testing::ElementsAre;

Circuit stockOf(const std::string& demo) {
    return test::jobIn(test::demoJobPath(demo)).stock;
}

// As the drawing of the demo shows them: input capacitor to level pot, then the supply's capacitor. Pickup, guitar,
// cable, battery and the next box have nothing that could be looked at on the board.
TEST(BoardWalk, FollowsTheSignalOfSmallRooster) {
    EXPECT_THAT(walkOrder(stockOf("small-rooster")),
                ElementsAre("r5", "c1", "r1", "r2", "q1", "r3", "r4", "c2", "vr1", "c3"));
}

TEST(BoardWalk, OfEveryDemoComesToEveryPartOfItsBoardOnce) {
    for (const std::string& demo : test::allDemos()) {
        SCOPED_TRACE(demo);
        const Circuit stock = stockOf(demo);
        std::vector<PartId> order = walkOrder(stock);
        EXPECT_EQ(walkProgress(stock).all(), static_cast<int>(order.size()));
        std::sort(order.begin(), order.end());
        EXPECT_EQ(std::adjacent_find(order.begin(), order.end()), order.end());
        for (const Part& part : stock.parts) {
            // A part whose place on the board is written down is on the board.
            if (!part.boardNote.empty()) {
                EXPECT_TRUE(std::binary_search(order.begin(), order.end(), part.id)) << part.id;
            }
        }
        EXPECT_FALSE(std::binary_search(order.begin(), order.end(), stock.ports.source));
    }
}

TEST(BoardWalk, ANextUnseenPartIsSoughtFromHereAndOnceAround) {
    Circuit stock = stockOf("small-rooster");
    for (Part& part : stock.parts) {
        part.knowledge = Knowledge::seen;
    }
    EXPECT_EQ(nextUnseen(stock, "r1"), std::nullopt);
    findPart(stock, "c1")->knowledge = Knowledge::drawn;
    findPart(stock, "vsig")->knowledge = Knowledge::drawn;
    EXPECT_EQ(nextUnseen(stock, ""), "c1");
    EXPECT_EQ(nextUnseen(stock, "r1"), "c1");
    EXPECT_EQ(nextUnseen(stock, "c1"), "c1");
    EXPECT_EQ(walkProgress(stock), (WalkProgress{1, 9, 0}));
}

TEST(BoardWalk, EndsWhenEachOfItsStepsWasSeen) {
    Job job = test::jobIn(test::demoJobPath("harbour-lamp"));
    for (Part& part : job.stock.parts) {
        part.knowledge = Knowledge::drawn;
    }
    int steps = 0;
    PartId here;
    while (const auto next = nextUnseen(job.stock, here)) {
        here = *next;
        job = *markSeen(job, {here});
        ++steps;
    }
    EXPECT_EQ(steps, static_cast<int>(walkOrder(job.stock).size()));
    EXPECT_EQ(walkProgress(job.stock).drawn, 0);
}

}  // namespace
}  // namespace ohmwright
