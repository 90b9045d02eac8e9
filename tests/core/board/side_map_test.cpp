// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/side_map.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Board photographed() {
    Board board;
    board.partSide.photo = BoardPhoto{"a.jpg", "0123456789abcdef", 1000, 800};
    board.solderSide.photo = BoardPhoto{"b.jpg", "0123456789abcdef", 500, 400};
    return board;
}

/// On the solder side as a board turned over about its upright edge, at half the scale.
void markBoth(Board& board, const Leg& leg, double x, double y) {
    board.partSide.marks.push_back({leg, {x, y}});
    board.solderSide.marks.push_back({leg, {(1000.0 - x) / 2.0, y / 2.0 + 3.0}});
}

TEST(SideMap, NeedsBothPhotos) {
    EXPECT_FALSE(sideMap(Board()));
    Board one = photographed();
    one.solderSide.photo.reset();
    EXPECT_FALSE(sideMap(one));
}

TEST(SideMap, WithoutMarksTheOutlinesAreLaidOverEachOther) {
    const auto map = sideMap(photographed());
    ASSERT_TRUE(map);
    EXPECT_EQ(map->kind, SideMap::Kind::outline);
    EXPECT_EQ(map->across(BoardSide::part, {0, 0}), (BoardPoint{500, 0}));
    EXPECT_EQ(map->across(BoardSide::part, {1000, 800}), (BoardPoint{0, 400}));
    EXPECT_EQ(map->across(BoardSide::solder, {0, 400}), (BoardPoint{1000, 800}));
    EXPECT_NE(sideMapWords(*map).find("mark three legs on both sides"), std::string::npos);
}

TEST(SideMap, TwoLegsTurnItThreeMakeItFast) {
    Board board = photographed();
    markBoth(board, {"r1", 0}, 100, 100);
    markBoth(board, {"r1", 1}, 900, 150);
    auto map = sideMap(board);
    EXPECT_EQ(map->kind, SideMap::Kind::turned);
    EXPECT_NE(sideMapWords(*map).find("2 legs are marked on both sides: mark a third"), std::string::npos);
    markBoth(board, {"c1", 0}, 500, 700);
    map = sideMap(board);
    EXPECT_EQ(map->kind, SideMap::Kind::affine);
    EXPECT_NEAR(map->residual, 0.0, 1e-9);
    EXPECT_NEAR(map->across(BoardSide::part, {600, 300}).x, 200.0, 1e-9);
    EXPECT_NEAR(map->across(BoardSide::part, {600, 300}).y, 153.0, 1e-9);
    EXPECT_EQ(sideMapWords(*map), "The sides agree within 0.00 px: 3 legs are marked on both.");
}

// The three legs of the other side were taken for each other: as the fit has it the board is not turned over.
TEST(SideMap, LegsThatWereMixedUpAreSaid) {
    Board board = photographed();
    board.partSide.marks = {{{"r1", 0}, {100, 100}}, {{"r1", 1}, {900, 100}}, {{"c1", 0}, {500, 700}}};
    board.solderSide.marks = {{{"r1", 0}, {50, 50}}, {{"r1", 1}, {450, 50}}, {{"c1", 0}, {250, 350}}};
    const auto map = sideMap(board);
    EXPECT_EQ(map->kind, SideMap::Kind::outline);
    EXPECT_NE(sideMapWords(*map).find("mixed up"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright
