// The legs at the inverting input of Harbour Lamp are those of its netlist, tests/reference/demos.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/board_legs.h"

#include "tests/core/board/demo_job.h"

#include <algorithm>
#include <set>

namespace ohmwright {
namespace {

using test::demoJob;
using test::legNamed;

TEST(BoardLegs, EveryPartOnTheBoardStandsOnItsLegs) {
    const Circuit stock = demoJob().stock;
    const std::vector<Leg> legs = legsOnBoard(stock);
    const std::set<Leg> once(legs.begin(), legs.end());
    EXPECT_EQ(once.size(), legs.size());
    EXPECT_TRUE(once.contains(legNamed(stock, "C4", 0)));
    EXPECT_TRUE(once.contains(legNamed(stock, "U1A", 1)));
    // Pickup, cable and battery are not on it.
    for (const char* reference : {"LPU", "CCABLE", "VG", "VBAT", "RLOAD"}) {
        EXPECT_FALSE(once.contains(legNamed(stock, reference, 0))) << reference;
    }
}

TEST(BoardLegs, ANetIsNamedWithAllItsLegs) {
    const Circuit stock = demoJob().stock;
    EXPECT_EQ(netWords(stock, "im"), "inverting input: 6 legs: U1 pin 2, C4, C5, R6, D1, D2");
    EXPECT_EQ(netTitle(stock, "0"), "ground");
    EXPECT_EQ(netTitle(stock, "b1"), "Q1 base");
    EXPECT_EQ(netTitle(stock, "leg"), "leg");
    EXPECT_EQ(netLegsWords(stock, "leg"), "2 legs: C4, R5");
}

TEST(BoardLegs, LegsAreCalledAsTheyAreFound) {
    const Circuit stock = demoJob().stock;
    EXPECT_EQ(legWords(stock, legNamed(stock, "C4", 0)), "C4 Cg leg 1");
    EXPECT_EQ(legWords(stock, legNamed(stock, "U1A", 1)), "U1 pin 2");
    EXPECT_EQ(legWords(stock, legNamed(stock, "D1", 1)), "D1 band leg");
    EXPECT_EQ(legWords(stock, legNamed(stock, "C2", 0)), "C2 plus leg");
    EXPECT_EQ(legWords(stock, legNamed(stock, "Q1", 1)), "Q1 base");
    EXPECT_EQ(markPrompt(stock, legNamed(stock, "C4", 0)), "C4 Cg: not marked: click leg 1");
}

TEST(BoardLegs, ALegIsFoundByEveryNameThatItHas) {
    const Circuit stock = demoJob().stock;
    const auto pin = [&stock](const char* part, const char* word) {
        return pinOfWord(*findPartByReference(stock, part), word);
    };
    EXPECT_EQ(pin("C4", "leg 2"), 1);
    EXPECT_EQ(pin("C4", "2"), 1);
    EXPECT_EQ(pin("U1A", "2"), 1);  // The number on the chip, not the count of its pins.
    EXPECT_EQ(pin("U1A", "pin 3"), 0);
    EXPECT_EQ(pin("Q1", "Base"), 1);
    EXPECT_EQ(pin("D1", "cathode"), 1);
    EXPECT_EQ(pin("C4", "3"), std::nullopt);
    EXPECT_EQ(pin("U1A", "5"), std::nullopt);
}

TEST(BoardLegs, APinThatBothHalvesShareIsOneLeg) {
    Circuit stock = demoJob().stock;
    Part other = *findPartByReference(stock, "U1A");
    other.id = "u1b";
    other.reference = "U1B";
    other.pins = {"5", "6", "7", "8", "4"};
    stock.parts.push_back(other);
    EXPECT_EQ(standingLeg(stock, {"u1b", 3}), legNamed(stock, "U1A", 3));
    EXPECT_EQ(standingLeg(stock, {"u1b", 2}), (Leg{"u1b", 2}));
    const std::vector<Leg> legs = legsOnBoard(stock);
    EXPECT_EQ(std::count_if(legs.begin(), legs.end(), [](const Leg& leg) { return leg.part == "u1b"; }), 3);
}

TEST(BoardLegs, AProbeStandsOnTheLegThatTheOtherOneReaches) {
    const Circuit stock = demoJob().stock;
    const Probe pin{"u1a", 1, {}, "U1 pin 2"};
    const Probe either{"c4", Probe::eitherLeg, {}, "one leg of C4 Cg"};
    EXPECT_EQ(legOfProbe(stock, either, pin), legNamed(stock, "C4", 0));
    EXPECT_EQ(legOfProbe(stock, either, Probe{"r5", 0, {}, ""}), legNamed(stock, "C4", 1));
    EXPECT_EQ(legOfProbe(stock, pin, either), legNamed(stock, "U1A", 1));
    // Ground is the jack's sleeve, beside the board.
    EXPECT_EQ(legOfProbe(stock, Probe{{}, 0, "0", "jack sleeve (ground)"}, pin), std::nullopt);
    EXPECT_EQ(legOfProbe(stock, Probe{{}, 0, "o1", "U1 pin 1"}, pin), legNamed(stock, "U1A", 2));
}

}  // namespace
}  // namespace ohmwright
