// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/drawer.h"

#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

DrawerLot resistors(const std::string& id, double ohms, int quantity) {
    DrawerLot lot;
    lot.id = id;
    lot.value = ohms;
    lot.quantity = quantity;
    return lot;
}

DrawerLot bagOfJfets() {
    DrawerLot lot;
    lot.id = "J-bag";
    lot.kind = PartKind::jfet;
    lot.type = "2N5457";
    lot.quantity = 3;
    lot.devices = {{"1", {}, 3.0e-3, -1.8}, {"2", {}, 1.0e-3, -0.5}};
    return lot;
}

Drawer smallDrawer() {
    return {"Tern & Tallow, Quay Street", {resistors("r-3k9", 3900, 5), resistors("r-2k7", 2700, 2), bagOfJfets()}};
}

TEST(Drawer, WhatOneJobReservesAnotherCannotTake) {
    const Result<Drawer> reserved = reserve(smallDrawer(), "HL-0231/2", {{"r-3k9", 3}, {"r-3k9", 1}});
    ASSERT_TRUE(reserved);
    const DrawerLot& lot = *findLot(*reserved, "r-3k9");
    EXPECT_EQ(availableFor(lot), 1);
    EXPECT_EQ(availableFor(lot, "QB-0007/1"), 1);
    EXPECT_EQ(availableFor(lot, "HL-0231/2"), 5) << "its own reservation is free to the job";
    const Result<Drawer> tooMany = reserve(*reserved, "QB-0007/1", {{"r-3k9", 2}});
    ASSERT_FALSE(tooMany);
    EXPECT_EQ(tooMany.error().where, "r-3k9");
    EXPECT_THAT(tooMany.error().message, HasSubstr("1 can be had and 2 are needed: 1 to be ordered"));
}

TEST(Drawer, ANewPlanTakesThePlaceOfTheOldReservation) {
    const Drawer first = *reserve(smallDrawer(), "HL-0231/2", {{"r-3k9", 4}, {"r-2k7", 1}});
    const Drawer second = *reserve(first, "HL-0231/2", {{"r-2k7", 2}});
    EXPECT_EQ(availableFor(*findLot(second, "r-3k9")), 5);
    EXPECT_EQ(availableFor(*findLot(second, "r-2k7")), 0);
    EXPECT_EQ(releaseReservation(second, "HL-0231/2"), smallDrawer());
}

TEST(Drawer, SolderedPartsLeaveTheDrawer) {
    const Drawer after = takeReserved(*reserve(smallDrawer(), "HL-0231/2", {{"r-2k7", 2}}), "HL-0231/2");
    EXPECT_EQ(findLot(after, "r-2k7")->quantity, 0);
    EXPECT_THAT(findLot(after, "r-2k7")->reserved, IsEmpty());
    EXPECT_EQ(findLot(after, "r-3k9")->quantity, 5);
}

TEST(Drawer, AnUnknownLotIsNamed) {
    const Result<Drawer> reserved = reserve(smallDrawer(), "HL-0231/2", {{"r-9k9", 1}});
    ASSERT_FALSE(reserved);
    EXPECT_THAT(reserved.error().message, HasSubstr("r-9k9"));
}

TEST(Drawer, EmptyAndReservedLotsAreNotOffered) {
    Drawer drawer = smallDrawer();
    drawer.lots[0].reserved["QB-0007/1"] = 5;
    const auto lots = lotsOfKind(drawer, PartKind::resistor, "HL-0231/2");
    ASSERT_EQ(lots.size(), 1U);
    EXPECT_EQ(lots[0]->id, "r-2k7");
    EXPECT_EQ(lotsOfKind(drawer, PartKind::resistor, "QB-0007/1").size(), 2U);
}

TEST(Drawer, AMeasuredLotIsWorthWhatTheMeterSaid) {
    DrawerLot lot = resistors("r-3k9", 3900, 5);
    EXPECT_DOUBLE_EQ(valueOf(lot), 3900.0);
    lot.measured = 3868.0;
    EXPECT_DOUBLE_EQ(valueOf(lot), 3868.0);
}

TEST(Drawer, EveryFaultIsASentenceThatNamesTheLot) {
    EXPECT_THAT(faultsOf(smallDrawer()), IsEmpty());
    Drawer drawer = smallDrawer();
    drawer.lots[1].id = "r-3k9";
    drawer.lots[1].value = 1e15;
    drawer.lots[0].reserved["HL-0231/2"] = 6;
    drawer.lots[2].type.clear();
    drawer.lots[2].devices.push_back({"3", 150.0, {}, {}});
    EXPECT_THAT(faultsOf(drawer),
                ElementsAre(HasSubstr("more are reserved (6) than there are (5)"), HasSubstr("two of that id"),
                            HasSubstr("Lot r-3k9: its value"), HasSubstr("Lot J-bag: a JFET needs the name"),
                            HasSubstr("device 3 has figures that a JFET does not have")));
}

// Square law, worked by hand: Idss 3 mA, Vp -1.8 V gives 3e-3/3.24 = 0.925926 mA/V^2.
TEST(Drawer, AMeasuredJfetHasItsOwnPinchOffAndSaturation) {
    const Model type{"2N5457", PartKind::jfet, {{"VTO", -1.5}, {"BETA", 1e-3}, {"LAMBDA", 4e-3}}, "test"};
    const Model first = withMeasured(type, bagOfJfets().devices[0]);
    EXPECT_DOUBLE_EQ(first.parameters.at("VTO"), -1.8);
    EXPECT_NEAR(first.parameters.at("BETA"), 0.925926e-3, 1e-9);
    EXPECT_DOUBLE_EQ(first.parameters.at("LAMBDA"), 4e-3);
    // Only Vp measured: the type's own Idss, 1e-3 * 2.25 = 2.25 mA, stays.
    const Model second = withMeasured(type, {"x", {}, {}, -1.0});
    EXPECT_NEAR(second.parameters.at("BETA"), 2.25e-3, 1e-12);
    // A P type's Vp is read as positive; the law has it negative all the same.
    EXPECT_DOUBLE_EQ(withMeasured(type, {"x", {}, {}, 2.0}).parameters.at("VTO"), -2.0);
}

TEST(Drawer, AMeasuredTransistorHasItsOwnBeta) {
    const Model type{"2N3904", PartKind::bipolar, {{"BF", 416.4}}, "test"};
    EXPECT_DOUBLE_EQ(withMeasured(type, {"4", 187.0, {}, {}}).parameters.at("BF"), 187.0);
    EXPECT_EQ(withMeasured(type, {"5", {}, {}, {}}), type);
}

TEST(Drawer, AFaultIsAskedForWhole) {
    const test::Spoken german{
        {"Lot %1: more are reserved (%2) than there are (%3).", "Vom Posten %1 gibt es %3, vergeben sind aber %2."}};
    Drawer drawer{"shop", {resistors("r-3k9", 3900, 2)}};
    drawer.lots.front().reserved["HL-0231/2"] = 5;
    EXPECT_THAT(faultsOf(drawer), testing::ElementsAre("Vom Posten r-3k9 gibt es 2, vergeben sind aber 5."));
}

}  // namespace
}  // namespace ohmwright
