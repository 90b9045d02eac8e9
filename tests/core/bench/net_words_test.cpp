// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/net_words.h"

#include "tests/support/demo_job.h"
#include "tests/support/small_circuits.h"

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

TEST(NetWords, LandmarksAreWhatIsFoundOnTheBoard) {
    // Net list of the demo: C4 from U1 pin 2 (im) to the top of R5 (leg).
    EXPECT_EQ(joinsWords(stock(), "im", "c4"), "U1 pin 2");
    EXPECT_EQ(joinsWords(stock(), "leg", "c4"), "one leg of R5 Rg");
    EXPECT_EQ(joinsWords(stock(), stock().ports.output, {}), "output jack tip");
    EXPECT_EQ(joinsWords(stock(), "no such net", {}), "no other part");
}

TEST(NetWords, AMeterStaysSilentOnlyWhereNoLowResistanceLeads) {
    test::SmallCircuit small;
    const Circuit circuit =
        small.r("R1", "a", "b", 10.0).l("L1", "b", "c", 2.8).r("R2", "c", "d", 3900.0).c("C1", "d", "e", 100e-6);
    EXPECT_FALSE(staysSilent(circuit, "a", "c"));
    EXPECT_TRUE(staysSilent(circuit, "c", "d"));
    EXPECT_TRUE(staysSilent(circuit, "d", "e"));
}

TEST(NetWords, APotKeepsTheBeeperFromBeingASignOfSilence) {
    EXPECT_FALSE(staysSilent(stock(), "vt", "w"));
    EXPECT_TRUE(staysSilent(stock(), "im", "o1"));
}

// Whose build is not known may have a plus where parts with a plus are bought: from 470 nF up.
TEST(NetWords, APartOfUnknownBuildMayHaveAPlusFrom470NanofaradUp) {
    Part part;
    part.kind = PartKind::capacitor;
    part.value = 120e-9;
    EXPECT_TRUE(isNonPolar(part));
    part.value = 680e-9;
    EXPECT_FALSE(isNonPolar(part));
    part.build = "film, 5 mm";
    EXPECT_TRUE(isNonPolar(part));
    part.value = 120e-9;
    part.build = "tantalum, 35 V";
    EXPECT_FALSE(isNonPolar(part));
}

}  // namespace
}  // namespace ohmwright
