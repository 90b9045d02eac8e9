// Legs of a chip count against the clock from the notch, seen from the part side: common practice, no source.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/drawn_board.h"

#include "core/board/board_legs.h"
#include "tests/core/board/demo_job.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace ohmwright {
namespace {

using test::demoJob;
using test::legNamed;

std::map<Leg, BoardPoint> placesOn(const DrawnBoard& board) {
    std::map<Leg, BoardPoint> places;
    for (const DrawnBody& body : board.bodies) {
        for (const LegMark& leg : body.legs) {
            places[leg.leg] = leg.at;
        }
    }
    return places;
}

bool overlap(const DrawnRect& one, const DrawnRect& other) {
    return one.left < other.right() && other.left < one.right() && one.top < other.bottom() && other.top < one.bottom();
}

class DrawnBoardOfDemo : public testing::TestWithParam<const char*> {};

TEST_P(DrawnBoardOfDemo, HasEveryLegOnceInsideItsEdges) {
    const Circuit stock = demoJob(GetParam()).stock;
    const DrawnBoard board = drawBoard(stock);
    const auto places = placesOn(board);
    const std::vector<Leg> legs = legsOnBoard(stock);
    EXPECT_EQ(places.size(), legs.size());
    for (const Leg& leg : legs) {
        ASSERT_TRUE(places.contains(leg)) << leg.part << leg.pin;
        const BoardPoint at = places.at(leg);
        EXPECT_TRUE(at.x > 10.0 && at.y > 10.0 && at.x < board.width - 10.0 && at.y < board.height - 10.0) << leg.part;
    }
}

TEST_P(DrawnBoardOfDemo, NoBodyLiesOnAnotherAndNoTwoLegsOnOnePlace) {
    const DrawnBoard board = drawBoard(demoJob(GetParam()).stock);
    for (std::size_t a = 0; a < board.bodies.size(); ++a) {
        for (std::size_t b = a + 1; b < board.bodies.size(); ++b) {
            EXPECT_FALSE(overlap(board.bodies[a].body, board.bodies[b].body))
                << board.bodies[a].parts.front() << " and " << board.bodies[b].parts.front();
        }
    }
    const auto places = placesOn(board);
    for (const auto& [one, at] : places) {
        for (const auto& [other, there] : places) {
            EXPECT_TRUE(one == other || std::hypot(at.x - there.x, at.y - there.y) > 20.0) << one.part << other.part;
        }
    }
}

TEST_P(DrawnBoardOfDemo, HasTheShapeOfABoard) {
    const DrawnBoard board = drawBoard(demoJob(GetParam()).stock);
    EXPECT_GT(board.width / board.height, 0.7);
    EXPECT_LT(board.width / board.height, 2.2);
    EXPECT_EQ(drawBoard(demoJob(GetParam()).stock), board);
}

INSTANTIATE_TEST_SUITE_P(Demos, DrawnBoardOfDemo,
                         testing::Values("harbour-lamp", "moss-engine", "night-ferry", "paper-boat", "quarry-bell",
                                         "small-rooster", "three-hills"));

TEST(DrawnBoard, CountsAChipAgainstTheClockFromTheNotch) {
    const Circuit stock = demoJob().stock;
    const auto places = placesOn(drawBoard(stock));
    const auto pin = [&](int index) { return places.at(legNamed(stock, "U1A", index)); };
    // Pins of U1A in the kind's order: 3, 2, 1, 8, 4.
    EXPECT_LT(pin(2).x, pin(1).x);  // 1 before 2 before 3 before 4 in the lower row
    EXPECT_LT(pin(1).x, pin(0).x);
    EXPECT_LT(pin(0).x, pin(4).x);
    EXPECT_EQ(pin(2).y, pin(4).y);
    EXPECT_EQ(pin(3).x, pin(2).x);  // 8 opposite 1, in the upper row
    EXPECT_LT(pin(3).y, pin(2).y);
}

TEST(DrawnBoard, ThePinsThatTheDrawingDoesNotSpeakOfAreFree) {
    const DrawnBoard board = drawBoard(demoJob().stock);
    const auto chip = std::find_if(board.bodies.begin(), board.bodies.end(),
                                   [](const DrawnBody& body) { return body.shape == BodyShape::chip; });
    ASSERT_NE(chip, board.bodies.end());
    EXPECT_EQ(chip->legs.size(), 5u);
    EXPECT_EQ(chip->free.size(), 3u);
}

TEST(DrawnBoard, TurnedOverTwiceIsTheSame) {
    const DrawnBoard board = drawBoard(demoJob().stock);
    const auto places = placesOn(board);
    const auto other = placesOn(mirrored(board));
    for (const auto& [leg, at] : places) {
        EXPECT_NEAR(other.at(leg).x, board.width - at.x, 1e-9);
        EXPECT_EQ(other.at(leg).y, at.y);
    }
    const auto again = placesOn(mirrored(mirrored(board)));
    for (const auto& [leg, at] : places) {
        EXPECT_NEAR(again.at(leg).x, at.x, 1e-9);
    }
}

TEST(DrawnBoard, NothingIsDrawnOfNothing) {
    EXPECT_EQ(drawBoard(Circuit()), DrawnBoard());
}

}  // namespace
}  // namespace ohmwright
