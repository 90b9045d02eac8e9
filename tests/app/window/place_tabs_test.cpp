// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/place_tabs.h"

#include <gtest/gtest.h>
#include <QTest>

#include <optional>

namespace ohmwright {
namespace {

class PlaceTabsTest : public testing::Test {
protected:
    PlaceTabsTest() {
        for (const Place place : allPlaces) {
            tabs.add(place);
        }
        QObject::connect(&tabs, &PlaceTabs::placeAsked, [this](Place place) { asked = place; });
        tabs.resize(600, 52);
        tabs.show();
    }

    PlaceTabs tabs;
    std::optional<Place> asked;
};

TEST_F(PlaceTabsTest, NamesEachPlaceInWordsThatFit) {
    ASSERT_EQ(tabs.count(), static_cast<int>(allPlaces.size()));
    EXPECT_EQ(tabs.tabText(0).toStdString(), "Map");
    EXPECT_EQ(tabs.tabText(1).toStdString(), "Draw");
    EXPECT_EQ(tabs.tabText(2).toStdString(), "Board");
    EXPECT_EQ(tabs.tabText(3).toStdString(), "Check list");
    EXPECT_EQ(tabs.tabText(6).toStdString(), "History");
    for (int index = 0; index < tabs.count(); ++index) {
        EXPECT_GT(tabs.tabRect(index).width(), tabs.fontMetrics().horizontalAdvance(tabs.tabText(index)));
    }
}

TEST_F(PlaceTabsTest, APressAsksForThePlace) {
    QTest::mouseClick(&tabs, Qt::LeftButton, {}, tabs.tabRect(5).center());
    EXPECT_EQ(asked, Place::papers);
}

TEST_F(PlaceTabsTest, ArrowsWalkThePlaces) {
    tabs.setFocus();
    QTest::keyClick(&tabs, Qt::Key_Right);
    EXPECT_EQ(asked, Place::draw);
}

TEST_F(PlaceTabsTest, MarkingAPlaceAsksForNothing) {
    tabs.setPlace(Place::drawer);
    EXPECT_EQ(tabs.currentIndex(), 4);
    EXPECT_FALSE(asked.has_value());
}

}  // namespace
}  // namespace ohmwright
