// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/board_edits.h"

#include "tests/support/planned_jobs.h"
#include "tests/support/small_circuits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using test::nowOf;
using testing::ElementsAre;
using testing::IsEmpty;

std::vector<BoardEdit> editsOf(const std::string& letters) {
    const Job job = harbourLampWith(letters);
    return boardEdits(job.stock, nowOf(job));
}

TEST(BoardEdits, NoModIsNoWork) {
    EXPECT_THAT(editsOf(""), IsEmpty());
}

TEST(BoardEdits, AnotherValueIsASwap) {
    const std::vector<BoardEdit> edits = editsOf("A");
    ASSERT_EQ(edits.size(), 1u);
    EXPECT_EQ(edits[0].kind, EditKind::partSwapped);
    EXPECT_EQ(edits[0].before.value, 56e-9);
    EXPECT_EQ(edits[0].after.value, 120e-9);
}

TEST(BoardEdits, APartInLineMovesALegAndComesIn) {
    const Job job = harbourLampWith("B");
    const Circuit now = nowOf(job);
    const std::vector<BoardEdit> edits = boardEdits(job.stock, now);
    ASSERT_EQ(edits.size(), 2u);
    EXPECT_EQ(edits[0].kind, EditKind::legMoved);
    EXPECT_EQ(edits[0].after.id, "d2");
    EXPECT_THAT(edits[0].legs, ElementsAre(1));
    EXPECT_EQ(edits[1].kind, EditKind::partIn);
    EXPECT_EQ(edits[1].after.reference, "D3");
    EXPECT_EQ(inLineWith(now, edits, edits[1].after.id), "d2");
    EXPECT_THAT(touchedNets(now, edits), ElementsAre("im", edits[0].after.nets[1]));
}

TEST(BoardEdits, APartTakenOutAndALegFreedAreSeen) {
    test::SmallCircuit small;
    const Circuit before = small.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3).c("C1", "out", "0", 1e-9).circuit();
    Circuit after = before;
    after.parts.pop_back();
    findPart(after, "R2")->nets[1] = "R2.2 open";
    after.openNets.push_back("R2.2 open");
    const std::vector<BoardEdit> edits = boardEdits(before, after);
    ASSERT_EQ(edits.size(), 2u);
    EXPECT_EQ(edits[0].kind, EditKind::partOut);
    EXPECT_EQ(edits[0].part().id, "C1");
    EXPECT_EQ(edits[1].kind, EditKind::legMoved);
    EXPECT_THAT(touchedNets(after, edits), ElementsAre("out", "0"));
}

TEST(BoardEdits, WhatIsOnlyKnownBetterIsNoWork) {
    Circuit circuit = test::harbourLamp().stock;
    const Circuit before = circuit;
    Part* part = findPart(circuit, "r5");
    part->measured = 3910.0;
    part->knowledge = Knowledge::measured;
    EXPECT_THAT(boardEdits(before, circuit), IsEmpty());
}

TEST(BoardEdits, AntiparallelDiodesAreAcrossEachOther) {
    const Circuit stock = test::harbourLamp().stock;
    EXPECT_THAT(partsAcross(stock, "d2"), ElementsAre("c5", "d1"));
}

}  // namespace
}  // namespace ohmwright
