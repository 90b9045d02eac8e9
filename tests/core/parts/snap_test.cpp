// Snapping: invented drawers, series of IEC 60063.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/snap.h"

#include "tests/support/spoken.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

DrawerLot lotOf(PartKind kind, double value, int quantity) {
    DrawerLot lot;
    lot.kind = kind;
    lot.value = value;
    lot.quantity = quantity;
    return lot;
}

TEST(Snap, TheNearestPartThatTheDrawerHas) {
    const Drawer drawer{"shop",
                        {lotOf(PartKind::resistor, 2700, 14), lotOf(PartKind::resistor, 3000, 5),
                         lotOf(PartKind::resistor, 2750, 0), lotOf(PartKind::capacitor, 2800, 9)}};
    EXPECT_EQ(snapToPart(drawer, PartKind::resistor, 2730, ""), (SnappedValue{2700, 14}))
        << "what is used up or of another kind is no part to fit";
    EXPECT_EQ(snapToPart(drawer, PartKind::resistor, 2900, ""), (SnappedValue{3000, 5})) << "nearest by ratio";
    EXPECT_EQ(snapToPart(drawer, PartKind::resistor, 1.0, ""), (SnappedValue{2700, 14}));
}

TEST(Snap, LotsOfOneValueAreCountedTogether) {
    const Drawer drawer{"shop", {lotOf(PartKind::resistor, 2700, 14), lotOf(PartKind::resistor, 2700, 6)}};
    EXPECT_EQ(snapToPart(drawer, PartKind::resistor, 2730, ""), (SnappedValue{2700, 20}));
}

/// Story: the last one of a value was reserved for this very job, and the drag snapped to another.
TEST(Snap, WhatTheJobItselfReservedIsItsOwn) {
    DrawerLot reserved = lotOf(PartKind::resistor, 2700, 1);
    reserved.reserved["lamp"] = 1;
    const Drawer drawer{"shop", {reserved, lotOf(PartKind::resistor, 3300, 2)}};
    EXPECT_EQ(snapToPart(drawer, PartKind::resistor, 2730, "lamp"), (SnappedValue{2700, 1}));
    EXPECT_EQ(snapToPart(drawer, PartKind::resistor, 2730, "boat"), (SnappedValue{3300, 2}));
}

TEST(Snap, WithoutStockTheSeriesOfTheShop) {
    // IEC 60063: E24 holds 2.7 and 3.0, E12 2.7 and 3.3, E6 2.2 and 3.3.
    EXPECT_EQ(snapToPart({}, PartKind::resistor, 2900, ""), (SnappedValue{3000, 0}));
    EXPECT_NEAR(snapToPart({}, PartKind::capacitor, 2.9e-9, "").value, 2.7e-9, 1e-18);
    EXPECT_EQ(snapToPart({}, PartKind::potentiometer, 2900, "").value, 3300);
}

TEST(Snap, SaysWhatItDid) {
    EXPECT_EQ(snapSentence(PartKind::resistor, 2730, {2700, 14}, true), "snapped 2k73 → 2k7, 14 in the drawer");
    EXPECT_EQ(snapSentence(PartKind::resistor, 2700, {2700, 14}, true), "2k7, 14 in the drawer");
    EXPECT_EQ(snapSentence(PartKind::resistor, 2730, {2700, 0}, false), "snapped 2k73 → 2k7 of E24, assumed stock");
    EXPECT_EQ(snapSentence(PartKind::capacitor, 2.9e-9, {2.7e-9, 0}, true),
              "snapped 2n9 → 2n7 of E12, none of its kind in the drawer");
}

TEST(Snap, TheSentenceIsAskedForWhole) {
    const test::Spoken german{{"snapped %1 → %2", "von %1 auf %2 gerückt"},
                              {"%1, %2 in the drawer", "%2 Stück in der Schublade: %1"},
                              {"%1 of %2, assumed stock", "%1 der Reihe %2, Bestand angenommen"}};
    EXPECT_EQ(snapSentence(PartKind::resistor, 2730, {2700, 14}, true),
              "14 Stück in der Schublade: von 2k73 auf 2k7 gerückt");
    EXPECT_EQ(snapSentence(PartKind::resistor, 2700, {2700, 0}, false), "2k7 der Reihe E24, Bestand angenommen");
}

}  // namespace
}  // namespace ohmwright
