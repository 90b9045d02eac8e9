// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/lot_cells.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;

TEST(LotCells, ANewLotIsReadAsTheTradeWritesIt) {
    const auto lot = lotFromWords("capacitor", " 120n ", "5");
    ASSERT_TRUE(lot) << lot.error().message;
    EXPECT_EQ(lot->kind, PartKind::capacitor);
    EXPECT_NEAR(lot->value, 120e-9, 1e-15);
    EXPECT_EQ(lot->quantity, 5);
    const auto diode = lotFromWords("diode", "1N4148", "60");
    ASSERT_TRUE(diode) << diode.error().message;
    EXPECT_EQ(diode->type, "1N4148");
}

TEST(LotCells, WhatCannotBeIsSaidInWordsWithoutALine) {
    for (const auto& [kind, value, quantity] :
         {std::tuple{"resistor", "blue", "5"}, {"resistor", "4k7", "many"}, {"resistor", "", "5"}}) {
        const auto lot = lotFromWords(kind, value, quantity);
        ASSERT_FALSE(lot) << value << quantity;
        EXPECT_THAT(lot.error().message, testing::Not(HasSubstr("line 2")));
    }
}

TEST(LotCells, ACellComesBackAndNeighboursStay) {
    const auto lot = lotFromWords("resistor", "2k7", "4");
    ASSERT_TRUE(lot);
    const auto measured = withCell(*lot, "measured", "2.688k");
    ASSERT_TRUE(measured) << measured.error().message;
    EXPECT_NEAR(*measured->measured, 2688.0, 0.01);
    EXPECT_EQ(measured->quantity, 4);
    EXPECT_EQ(lotCell(*measured, "quantity").toStdString(), "4");
    const auto cleared = withCell(*measured, "measured", "");
    ASSERT_TRUE(cleared);
    EXPECT_FALSE(cleared->measured);
    EXPECT_FALSE(withCell(*lot, "quantity", "-3"));
}

TEST(LotCells, AnIdIsNeverTwice) {
    const auto lot = lotFromWords("resistor", "2k7", "4");
    ASSERT_TRUE(lot);
    Drawer drawer;
    for (int i = 0; i < 3; ++i) {
        drawer = withLot(drawer, *lot);
    }
    EXPECT_EQ(drawer.lots.size(), 3U);
    EXPECT_TRUE(faultsOf(drawer).empty());
}

}  // namespace
}  // namespace ohmwright
