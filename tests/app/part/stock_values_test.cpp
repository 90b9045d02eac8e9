// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/stock_values.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

DrawerLot lotOf(const std::string& id, double value, int quantity) {
    DrawerLot lot;
    lot.id = id;
    lot.value = value;
    lot.quantity = quantity;
    return lot;
}

Drawer someDrawer() {
    Drawer drawer{
        "us",
        {lotOf("b", 2200, 4), lotOf("a", 1000, 2), lotOf("a2", 1000, 5), lotOf("c", 3300, 0), lotOf("d", 4700, 1)}};
    drawer.lots[0].reserved = {{"other/1", 3}};
    DrawerLot diode = lotOf("d1", 0.0, 9);
    diode.kind = PartKind::diode;
    diode.type = "1N4148";
    drawer.lots.push_back(diode);
    return drawer;
}

TEST(StockValues, LotsOfAValueAreOneAndReservedOnesAreGone) {
    const auto values = stockValues(someDrawer(), PartKind::resistor, "mine/1");
    EXPECT_EQ(values, (std::vector<StockValue>{{1000, 7}, {2200, 1}, {3300, 0}, {4700, 1}}));
    EXPECT_EQ(leftOfValue(stockValues(someDrawer(), PartKind::resistor, "other/1"), 2200), 4);
    EXPECT_EQ(leftOfValue(values, 1234), 0);
    EXPECT_EQ(leftOfType(someDrawer(), PartKind::diode, "1N4148", ""), 9);
}

TEST(StockValues, StepsWalkTheDrawerAndStopAtItsEnds) {
    const auto values = stockValues(someDrawer(), PartKind::resistor, "");
    EXPECT_EQ(steppedInStock(values, 1000, 1), 2200);
    EXPECT_EQ(steppedInStock(values, 1500, 1), 2200) << "from a value that the drawer does not hold";
    EXPECT_EQ(steppedInStock(values, 1500, -1), 1000);
    EXPECT_EQ(steppedInStock(values, 2200, 2), 4700) << "through one that is used up";
    EXPECT_EQ(steppedInStock(values, 4700, 3), 4700);
    EXPECT_EQ(steppedInStock(values, 1000, -1), 1000);
}

TEST(StockValues, TheListStandsAroundTheValueAndHoldsItAlways) {
    const auto values = stockValues(someDrawer(), PartKind::resistor, "");
    EXPECT_EQ(stockAround(values, 2200, 3), (std::vector<double>{1000, 2200, 3300}));
    EXPECT_EQ(stockAround(values, 2500, 3), (std::vector<double>{2200, 2500, 3300}));
    EXPECT_EQ(stockAround(values, 1000, 3), (std::vector<double>{1000, 2200, 3300})) << "filled up at the ends";
    EXPECT_EQ(stockAround(values, 4700, 3), (std::vector<double>{2200, 3300, 4700}));
    EXPECT_EQ(stockAround(values, 100, 9), (std::vector<double>{100, 1000, 2200, 3300, 4700}));
}

}  // namespace
}  // namespace ohmwright
