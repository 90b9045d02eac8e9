// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/net_words.h"

#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::ElementsAre;

const Circuit& stock() {
    static const Circuit circuit = test::harbourLamp().stock;
    return circuit;
}

// The words a bench uses: pins by number, ends of plain parts by what is at their other end.
TEST(NetWords, PlacesAreFoundByPinsAndEnds) {
    EXPECT_EQ(placeWords(stock(), "im"), "U1 pin 2 (inverting input)");
    EXPECT_EQ(placeWords(stock(), "ip"), "U1 pin 3 (non-inverting input)");
    EXPECT_EQ(placeWords(stock(), "o1"), "U1 pin 1 (output)");
    EXPECT_EQ(placeWords(stock(), "0"), "jack sleeve (ground)");
    EXPECT_EQ(placeWords(stock(), "leg"), "top of Rg");
    EXPECT_EQ(placeWords(stock(), "b2"), "Q2 base");
    EXPECT_EQ(placeWords(stock(), "w"), "VR2 wiper");
    EXPECT_EQ(placeWords(stock(), "in"), "input jack tip");
    EXPECT_EQ(placeWords(stock(), "lp", "c7"), "the end of Rlp away from U1 pin 1");
}

TEST(NetWords, TheLowPassCapacitorGoesToTheEndOfItsResistorAwayFromTheChip) {
    EXPECT_EQ(joinsWords(stock(), "0", "c7"), "ground (jack sleeve)");
    EXPECT_THAT(landmarks(stock(), "lp", "c7", 2), ElementsAre("one leg of R7 Rlp", "one leg of C6"));
}

TEST(NetWords, MarkingsAreThoseOnTheBodyElseThoseOfTheValue) {
    EXPECT_EQ(printedMarking(*findPart(stock(), "c4")), "563");
    Part part = *findPart(stock(), "r5");
    part.printed.clear();
    EXPECT_EQ(printedMarking(part), "orange-white-red-gold");
    part.tolerance = 0.0;
    EXPECT_EQ(printedMarking(part), "orange-white-red");
    part.kind = PartKind::capacitor;
    part.value = 120e-9;
    EXPECT_EQ(printedMarking(part), "124");
}

TEST(NetWords, APotKeepsTheBeeperFromBeingASignOfSilence) {
    EXPECT_FALSE(staysSilent(stock(), "vt", "w"));
    EXPECT_TRUE(staysSilent(stock(), "im", "o1"));
}

}  // namespace
}  // namespace ohmwright
