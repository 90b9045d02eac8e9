// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/unpowered_board.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

TEST(UnpoweredBoard, InstrumentSupplyLoadAndChipsAreAway) {
    const Circuit board = unpoweredBoard(test::harbourLamp().stock);
    for (const char* gone : {"vsig", "lpu", "rpu", "cpu", "vg", "ccable", "vbat", "rload", "u1a", "iu1b"}) {
        EXPECT_EQ(findPart(board, gone), nullptr) << gone;
    }
    for (const char* stays : {"r1", "c1", "q1", "d1", "vr1", "vr2", "c10"}) {
        EXPECT_NE(findPart(board, stays), nullptr) << stays;
    }
}

TEST(UnpoweredBoard, AnIslandHoldsWhatCarriesCurrentAndBlackIsGround) {
    const Circuit stock = test::harbourLamp().stock;
    const Circuit board = unpoweredBoard(stock);
    const ProbedIsland leg = probedIsland(stock, board, "leg", "0");
    EXPECT_TRUE(leg.isJoined);
    EXPECT_FALSE(leg.hasChip);
    const ProbedIsland loop = probedIsland(stock, board, "o1", "im");
    EXPECT_TRUE(loop.isJoined);
    EXPECT_TRUE(loop.hasChip);
    EXPECT_TRUE(loop.hasJunction);
    EXPECT_EQ(findPart(loop.circuit, "r5"), nullptr);
    EXPECT_EQ(findPart(loop.circuit, "d1")->nets[0], "0");
    EXPECT_FALSE(probedIsland(stock, board, "im", "0").isJoined);
}

}  // namespace
}  // namespace ohmwright
