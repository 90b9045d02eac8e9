// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board_walk.h"

#include "core/plan/papers.h"
#include "tests/support/demo_job.h"
#include "tests/support/disguise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

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

/// What of a demo's netlist is no part of its board: pickup, guitar's pot and cable, next box, battery with what is
/// inside it, the other half of a double op-amp. Read off the drawings, where these stand outside the board; the
/// dropper R5 of Night Ferry lies on its turret board.
std::set<PartId> offBoard(const std::string& demo) {
    std::set<PartId> parts{"vsig", "lpu", "rpu", "cpu", "vg", "ccable", "rload"};
    if (demo == "night-ferry") {
        parts.insert("vht");
    } else {
        parts.insert({"vbat", "rbat"});
    }
    if (demo == "harbour-lamp" || demo == "quarry-bell" || demo == "three-hills") {
        parts.insert("iu1b");
    }
    return parts;
}

TEST(BoardWalk, OfEveryDemoComesToEveryPartOfItsBoardOnce) {
    for (const std::string& demo : test::allDemos()) {
        SCOPED_TRACE(demo);
        const Circuit stock = stockOf(demo);
        std::set<PartId> wanted;
        for (const Part& part : stock.parts) {
            wanted.insert(part.id);
        }
        for (const PartId& part : offBoard(demo)) {
            EXPECT_EQ(wanted.erase(part), 1U) << part;
        }
        const std::vector<PartId> order = walkOrder(stock);
        EXPECT_EQ(std::set<PartId>(order.begin(), order.end()), wanted);
        EXPECT_EQ(order.size(), wanted.size());
        EXPECT_EQ(walkProgress(stock).all(), static_cast<int>(wanted.size()));
    }
}

Part partOf(const PartId& id, PartKind kind, double value, std::vector<NetName> nets) {
    Part part;
    part.id = part.reference = id;
    part.kind = kind;
    part.value = value;
    part.nets = std::move(nets);
    return part;
}

// Two resistors straight at the battery's plus were taken for the inside of the battery: none was ever walked.
TEST(BoardWalk, ResistorsAtTheBatteryAreOnTheBoard) {
    Circuit circuit;
    circuit.ports.battery = "b1";
    circuit.parts = {partOf("b1", PartKind::voltageSource, 9.0, {"vcc", "0"}),
                     partOf("r1", PartKind::resistor, 10e3, {"vcc", "half"}),
                     partOf("r2", PartKind::resistor, 10e3, {"half", "0"})};
    EXPECT_THAT(walkOrder(circuit), ElementsAre("r1", "r2"));  // A dropper of 10k is alone there, and no battery's.
    circuit.parts.push_back(partOf("r3", PartKind::resistor, 33.0, {"vcc", "led"}));
    EXPECT_THAT(walkOrder(circuit), ElementsAre("r1", "r2", "r3"));
    // Alone between battery and circuit and of a few ohms: inside it.
    circuit.parts = {partOf("b1", PartKind::voltageSource, 9.0, {"plus", "0"}),
                     partOf("rb", PartKind::resistor, 3.0, {"plus", "vcc"}),
                     partOf("r1", PartKind::resistor, 10e3, {"vcc", "0"})};
    EXPECT_THAT(walkOrder(circuit), ElementsAre("r1"));
    circuit.parts[1].boardNote = "beside the battery clip";
    EXPECT_THAT(walkOrder(circuit), ElementsAre("rb", "r1"));
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
