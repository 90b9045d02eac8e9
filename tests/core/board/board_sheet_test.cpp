// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/board_sheet.h"

#include "core/board/board_legs.h"
#include "core/plan/board_marks.h"
#include "tests/core/board/demo_job.h"

#include <array>

namespace ohmwright {
namespace {

using test::demoJob;
using test::legNamed;

Job photographed(BoardSide side = BoardSide::part) {
    return *setBoardPhoto(demoJob(), side, {"lamp.jpg", "0123456789abcdef", 1000, 800});
}

TEST(BoardSheet, WithoutAPhotoTheBoardIsDrawnAndSaysSo) {
    const Job job = demoJob();
    const BoardSheet sheet = boardSheet(job.board, job.stock, BoardSide::part);
    EXPECT_EQ(sheet.ground, BoardSheet::Ground::drawn);
    EXPECT_EQ(sheet.unknown(), 0);
    EXPECT_FALSE(sheet.mayMark());
    EXPECT_EQ(sheetWords(sheet), "Drawn from the circuit, not your board.");
    EXPECT_EQ(whereWords(job.stock, sheet, legNamed(job.stock, "U1A", 1)),
              "U1 pin 2: second from the notch, on the side of the dot.");
    EXPECT_EQ(whereWords(job.stock, sheet, legNamed(job.stock, "C4", 0)), "C4 Cg leg 1: the left one.");
}

// Which leg of a transistor is which no drawn board can know.
TEST(BoardSheet, TheLegsOfADrawnTransistorAreLeftToItsDataSheet) {
    const Job job = demoJob();
    const BoardSheet sheet = boardSheet(job.board, job.stock, BoardSide::part);
    EXPECT_NE(whereWords(job.stock, sheet, legNamed(job.stock, "Q1", 1)).find("data sheet"), std::string::npos);
}

TEST(BoardSheet, TheSolderSideOfTheDrawnBoardIsMirroredWithItsLegs) {
    const Job job = demoJob();
    const BoardSheet front = boardSheet(job.board, job.stock, BoardSide::part);
    const BoardSheet back = boardSheet(job.board, job.stock, BoardSide::solder);
    for (std::size_t k = 0; k < front.legs.size(); ++k) {
        EXPECT_NEAR(back.legs[k].at.x, front.width - front.legs[k].at.x, 1e-9);
    }
    EXPECT_EQ(whereWords(job.stock, back, legNamed(job.stock, "C4", 0)), "C4 Cg leg 1: the right one.");
}

TEST(BoardSheet, OnAPhotoALegIsWhereItWasMarked) {
    Job job = photographed();
    const Leg first = legNamed(job.stock, "C4", 0), second = legNamed(job.stock, "C4", 1);
    BoardSheet sheet = boardSheet(job.board, job.stock, BoardSide::part);
    EXPECT_EQ(whereWords(job.stock, sheet, first),
              "C4 Cg: not marked: click leg 1 (U1 pin 2 to top of Rg).");  // where the drawing's note has it
    job = *markLeg(job, BoardSide::part, first, {300, 200});
    job = *markLeg(job, BoardSide::part, second, {310, 500});
    sheet = boardSheet(job.board, job.stock, BoardSide::part);
    EXPECT_EQ(sheet.find(first)->place, LegPlace::marked);
    EXPECT_EQ(sheet.find(first)->at, (BoardPoint{300, 200}));
    EXPECT_EQ(whereWords(job.stock, sheet, first), "C4 Cg leg 1: the upper one.");
    EXPECT_EQ(unmarkedWords(sheet), std::to_string(sheet.legs.size() - 2) + " of " + std::to_string(sheet.legs.size()) +
                                        " legs are not marked.");
}

TEST(BoardSheet, ThePhotoOfOneSideIsSeenThroughFromTheOther) {
    Job job = photographed();
    const Leg leg = legNamed(job.stock, "C4", 0);
    job = *markLeg(job, BoardSide::part, leg, {300, 200});
    const BoardSheet back = boardSheet(job.board, job.stock, BoardSide::solder);
    EXPECT_EQ(back.ground, BoardSheet::Ground::photoThrough);
    EXPECT_EQ(back.face, BoardSide::part);
    EXPECT_EQ(back.find(leg)->at, (BoardPoint{700, 200}));
    EXPECT_EQ(back.turned({700, 200}), (BoardPoint{300, 200}));
    EXPECT_NE(sheetWords(back).find("seen through the board"), std::string::npos);
}

TEST(BoardSheet, AMarkIsCarriedOverToTheOtherPhoto) {
    Job job = photographed();
    job = *setBoardPhoto(job, BoardSide::solder, {"back.jpg", "0123456789abcdee", 500, 400});
    const Leg leg = legNamed(job.stock, "C4", 0);
    job = *markLeg(job, BoardSide::part, leg, {300, 200});
    const BoardSheet back = boardSheet(job.board, job.stock, BoardSide::solder);
    EXPECT_EQ(back.find(leg)->place, LegPlace::carried);
    EXPECT_EQ(back.find(leg)->at, (BoardPoint{350, 100}));
    EXPECT_EQ(whereWords(job.stock, back, leg), "C4 Cg leg 1 is marked on the other side; here it is carried over.");
}

TEST(BoardSheet, TheNextLegToMarkIsOfTheSelectedPartThenInOrder) {
    Job job = photographed();
    const auto next = [&job](const char* part, std::optional<Leg> after) {
        return nextUnmarked(boardSheet(job.board, job.stock, BoardSide::part),
                            part != nullptr ? findPartByReference(job.stock, part)->id : PartId(), after);
    };
    const std::vector<Leg> legs = legsOnBoard(job.stock);
    EXPECT_EQ(next(nullptr, std::nullopt), legs.front());
    EXPECT_EQ(next("C4", std::nullopt), legNamed(job.stock, "C4", 0));
    job = *markLeg(job, BoardSide::part, legNamed(job.stock, "C4", 0), {1, 1});
    EXPECT_EQ(next("C4", std::nullopt), legNamed(job.stock, "C4", 1));
    job = *markLeg(job, BoardSide::part, legs.front(), {2, 2});
    EXPECT_EQ(next(nullptr, legs.front()), legs[1]);
    for (const Leg& leg : legs) {
        job = *markLeg(job, BoardSide::part, leg, {3, 3});
    }
    EXPECT_EQ(next("C4", legs.back()), std::nullopt);
}

TEST(BoardSheet, ThePointerFindsTheNearestLegWithinItsReach) {
    Job job = photographed();
    const Leg one = legNamed(job.stock, "C4", 0), other = legNamed(job.stock, "C4", 1);
    job = *markLeg(*markLeg(job, BoardSide::part, one, {100, 100}), BoardSide::part, other, {130, 100});
    const BoardSheet sheet = boardSheet(job.board, job.stock, BoardSide::part);
    EXPECT_EQ(legNear(sheet, {112, 100}, 22.0), one);
    EXPECT_EQ(legNear(sheet, {118, 100}, 22.0), other);
    EXPECT_EQ(legNear(sheet, {100, 123}, 22.0), std::nullopt);
}

TEST(BoardSheet, ACropHoldsItsLegsAndStaysOnThePhoto) {
    Job job = photographed();
    const Leg leg = legNamed(job.stock, "C4", 0), open = legNamed(job.stock, "R1", 0);
    job = *markLeg(job, BoardSide::part, leg, {20, 400});
    const BoardSheet sheet = boardSheet(job.board, job.stock, BoardSide::part);
    const auto crop = cropAround(sheet, std::array{leg, open});
    ASSERT_TRUE(crop);
    EXPECT_EQ(*crop, (DrawnRect{0, 275, 145, 250}));  // an eighth of 1000 px to each side, cut at the edge
    EXPECT_FALSE(cropAround(sheet, std::array{open}));
}

}  // namespace
}  // namespace ohmwright
