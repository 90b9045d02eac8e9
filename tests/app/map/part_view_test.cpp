// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_view.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright::test {
namespace {

const Part& partOf(const Job& job, const char* reference) {
    const Part* part = findPartByReference(job.stock, reference);
    if (!part) {
        ADD_FAILURE() << "no " << reference;
        static const Part none;
        return none;
    }
    return *part;
}

TEST(PartView, AnActiveSwapShowsBothValuesAndAFilledMark) {
    const Job job = harbourLamp();
    const PartView view = viewOf(job, partOf(job, "C4"), false);
    EXPECT_EQ(view.stockValue, "56n");
    EXPECT_EQ(view.nowValue, "120n");
    EXPECT_TRUE(view.swapped);
    ASSERT_EQ(view.marks.size(), 1U);
    EXPECT_EQ(view.marks.front().letter, "A");
    EXPECT_TRUE(view.marks.front().on);
}

TEST(PartView, AModThatIsOffLeavesStockAndADashedMark) {
    const Job job = harbourLamp();
    const PartView view = viewOf(job, partOf(job, "R5"), false);
    EXPECT_EQ(view.nowValue, "3k9");
    EXPECT_FALSE(view.swapped);
    ASSERT_EQ(view.marks.size(), 1U);
    EXPECT_FALSE(view.marks.front().on);
}

TEST(PartView, HoldingStockLeavesThePlanOut) {
    const Job job = harbourLamp();
    const PartView view = viewOf(job, partOf(job, "C4"), true);
    EXPECT_EQ(view.nowValue, "56n");
    EXPECT_FALSE(view.swapped);
    EXPECT_TRUE(view.marks.empty());
}

// A rheostat said what its knob left of it (37k5), the pot beside it its whole track: one map, two meanings.
TEST(PartView, EveryPotSaysItsWholeTrack) {
    const Job job = harbourLamp();
    EXPECT_EQ(viewOf(job, partOf(job, "VR1"), false).stockValue, "250k");
    EXPECT_EQ(viewOf(job, partOf(job, "VR2"), false).stockValue, "50k");
}

TEST(PartView, TypesSourcesAndPackagesAreSaidAsATechnicianSaysThem) {
    const Job job = harbourLamp();
    EXPECT_EQ(viewOf(job, partOf(job, "U1A"), false).stockValue, "half TL072");
    EXPECT_EQ(viewOf(job, partOf(job, "D1"), false).stockValue, "1N4148");
    EXPECT_EQ(viewOf(job, partOf(job, "VSIG"), false).stockValue, "100 mVpk");
    EXPECT_EQ(viewOf(job, partOf(job, "VBAT"), false).stockValue, "9 V");
    EXPECT_EQ(packageName("U1A"), "U1");
    EXPECT_EQ(packageName("U1"), "U1");
}

TEST(PartView, GuitarAndBatteryAreNotOnTheBoard) {
    const Job job = harbourLamp();
    for (const char* outside : {"VSIG", "LPU", "CCABLE", "VBAT", "RBAT"}) {
        EXPECT_FALSE(viewOf(job, partOf(job, outside), false).isOnBoard) << outside;
    }
    for (const char* fitted : {"R1", "C10", "R11", "U1A"}) {
        EXPECT_TRUE(viewOf(job, partOf(job, fitted), false).isOnBoard) << fitted;
    }
}

// The dropper behind a rectifier stands where a battery has its inner resistance, and was taken for it: it lost its
// mark of what is known of it.
TEST(PartView, AResistorOfTheBoardBehindTheSupplyIsOnTheBoard) {
    Job job = harbourLamp();
    Part& dropper = *findPart(job.stock, "rbat");
    dropper.build = "metal oxide, 2 W";
    EXPECT_TRUE(viewOf(job, dropper, false).isOnBoard);
}

TEST(PartView, OnlyElectrolyticsHaveAPlus) {
    const Job job = harbourLamp();
    EXPECT_TRUE(isPolarised(partOf(job, "C2")));
    EXPECT_FALSE(isPolarised(partOf(job, "C6")));
    EXPECT_FALSE(isPolarised(partOf(job, "R1")));
}

TEST(PartView, EveryKindOfChangeIsSeenAtThePartItChanges) {
    Job job = harbourLamp();
    const PartId host = partOf(job, "R7").id;
    const NewPart fitted{"R20", PartKind::resistor, 1000.0, {}, 0.05};
    job.plan = {{"m1", "A", "", AddInSeries{host, 1, fitted, false}, true},
                {"m2", "B", "", AddAcross{host, 0, 1, fitted, false}, true},
                {"m3", "C", "", Lift{host, 0}, true},
                {"m4", "D", "", Bridge{host, 0, 1}, true}};
    const PartView view = viewOf(job, partOf(job, "R7"), false);
    ASSERT_EQ(view.fitted.size(), 2U);
    EXPECT_FALSE(view.fitted[0].across);
    EXPECT_TRUE(view.fitted[1].across);
    EXPECT_EQ(view.liftedPins, std::vector<int>{0});
    EXPECT_EQ(view.bridges.size(), 1U);
    EXPECT_EQ(view.marks.size(), 4U);
    EXPECT_FALSE(view.swapped);
}

// The drive of Quarry Bell stands at 10, where its track is out of the path; the map said "0R001".
// A mod on a part that another mod fits was seen nowhere on the map: no triangle, no part.
TEST(PartView, WhatStandsOnAFittedPartIsSeenAtTheHostOfBoth) {
    Job job = jobIn(demoJobPath("small-rooster"));
    const std::vector<Mod> branch = asSingleMods(job.plan.at(1));  // C4 across R4, R6 in series with C4
    job.plan = {job.plan[0], branch.at(0), branch.at(1)};
    job.plan[2].id = "mod-c";
    job.plan[2].letter = "C";
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    const PartView view = viewOf(job, partOf(job, "R4"), false);
    ASSERT_EQ(view.fitted.size(), 1U);
    ASSERT_EQ(view.fitted[0].links.size(), 2U);
    EXPECT_EQ(view.fitted[0].links[0].part.reference, "C4");
    EXPECT_EQ(view.fitted[0].links[1].part.reference, "R6");
    EXPECT_EQ(fittedWords(view.fitted[0]), "C4 and R6 across");
    ASSERT_EQ(view.marks.size(), 2U);
    EXPECT_EQ(view.marks[1].letter, "C");
    EXPECT_TRUE(viewOf(job, partOf(job, "R3"), false).marks.empty());

    job.plan.push_back({"mod-d", "D", "", SwapValue{"c4", 47e-6}, true});
    std::get<AddInSeries>(job.plan[2].change).pin = 0;
    const PartView turned = viewOf(job, partOf(job, "R4"), false);
    EXPECT_EQ(turned.fitted[0].links[0].part.reference, "R6");
    EXPECT_DOUBLE_EQ(turned.fitted[0].links[1].part.value, 47e-6);
    EXPECT_TRUE(hasActiveMod(job, job.stock.stages[1]));
}

TEST(PartView, APartIsSpokenWithValueModAndKnowledge) {
    Job job = harbourLamp();
    EXPECT_EQ(spokenName(job, partOf(job, "C4"), false), "C4 Cg, capacitor, stock 56 nano, now 120 nano, mod A, seen");
    EXPECT_EQ(spokenName(job, partOf(job, "R10"), true), "R10, resistor, stock 100 kilo, measured");
    EXPECT_EQ(spokenName(job, partOf(job, "R5"), false), "R5 Rg, resistor, stock 3.9 kilo, mod C off, seen");
    EXPECT_EQ(spokenName(job, partOf(job, "R1"), true), "R1, resistor, stock 1 mega, seen");
    EXPECT_EQ(spokenName(job, partOf(job, "RBAT"), false), "RBAT, resistor, stock 1.7");
}

TEST(PartView, TheSignalOrderGoesStageByStageAndLeavesNothingOut) {
    const Job job = harbourLamp();
    const std::vector<PartId> order = signalOrder(job.stock);
    const auto drawn = std::count_if(job.stock.parts.begin(), job.stock.parts.end(),
                                     [](const Part& part) { return part.placement.has_value(); });
    EXPECT_EQ(static_cast<std::ptrdiff_t>(order.size()), drawn);
    std::size_t lastStage = 0;
    for (const PartId& id : order) {
        const Stage* stage = stageOfPart(job.stock, id);
        const std::size_t index =
            stage ? static_cast<std::size_t>(stage - job.stock.stages.data()) : job.stock.stages.size();
        EXPECT_GE(index, lastStage) << id;
        lastStage = index;
    }
}

TEST(PartView, AStageIsMarkedOnlyByAModThatIsOn) {
    const Job job = harbourLamp();
    EXPECT_TRUE(hasActiveMod(job, job.stock.stages[2]));
    EXPECT_FALSE(hasActiveMod(job, job.stock.stages[3]));  // D is off
}

}  // namespace
}  // namespace ohmwright::test
