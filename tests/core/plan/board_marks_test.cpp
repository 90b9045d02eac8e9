// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board_marks.h"

#include "core/plan/edits.h"
#include "core/plan/part_names.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

Job smallJob() {
    Job job;
    Part r1;
    r1.id = "p1";
    r1.reference = "R1";
    r1.value = 1e3;
    r1.nets = {"a", "0"};
    job.stock.parts = {r1};
    return job;
}

const BoardPhoto photo{"lamp.jpg", "0123456789abcdef", 1000, 800};

Job withPhoto() {
    return *setBoardPhoto(smallJob(), BoardSide::part, photo);
}

std::string refusalOf(const Result<Job>& edited) {
    return edited ? std::string("taken") : edited.error().message;
}

TEST(BoardMarks, ALegIsMarkedMovedAndUnmarked) {
    Job job = *markLeg(withPhoto(), BoardSide::part, {"p1", 0}, {10, 20});
    EXPECT_EQ(job.board.partSide.marks, (std::vector<LegMark>{{{"p1", 0}, {10, 20}}}));
    job = *markLeg(job, BoardSide::part, {"p1", 1}, {30, 20});
    job = *markLeg(job, BoardSide::part, {"p1", 0}, {11, 21});
    EXPECT_EQ(job.board.partSide.marks, (std::vector<LegMark>{{{"p1", 0}, {11, 21}}, {{"p1", 1}, {30, 20}}}));
    job = *unmarkLeg(job, BoardSide::part, {"p1", 0});
    EXPECT_EQ(job.board.partSide.marks.size(), 1u);
    EXPECT_NE(refusalOf(unmarkLeg(job, BoardSide::part, {"p1", 0})).find("not marked"), std::string::npos);
}

TEST(BoardMarks, WhatCannotBeMarkedIsSaidWithWhatToDo) {
    EXPECT_NE(refusalOf(markLeg(smallJob(), BoardSide::part, {"p1", 0}, {1, 1})).find("add one first"),
              std::string::npos);
    const Job job = withPhoto();
    EXPECT_NE(refusalOf(markLeg(job, BoardSide::solder, {"p1", 0}, {1, 1})).find("solder side has no photo"),
              std::string::npos);
    EXPECT_NE(refusalOf(markLeg(job, BoardSide::part, {"p1", 2}, {1, 1})).find("R1 has no leg 3"), std::string::npos);
    EXPECT_NE(refusalOf(markLeg(job, BoardSide::part, {"p9", 0}, {1, 1})).find("p9"), std::string::npos);
    for (const BoardPoint at : {BoardPoint{-1, 0}, BoardPoint{1001, 5}, BoardPoint{5, 801}, BoardPoint{NAN, 5}}) {
        EXPECT_NE(refusalOf(markLeg(job, BoardSide::part, {"p1", 0}, at)).find("1000 by 800"), std::string::npos);
    }
}

TEST(BoardMarks, AnotherPhotoTakesTheMarksWithItTheSameOneKeepsThem) {
    const Job job = *markLeg(withPhoto(), BoardSide::part, {"p1", 0}, {10, 20});
    BoardPhoto copy = photo;
    copy.file = "lamp-2.jpg";
    EXPECT_EQ(setBoardPhoto(job, BoardSide::part, copy)->board.partSide.marks.size(), 1u);
    copy.hash = "fedcba9876543210";
    EXPECT_TRUE(setBoardPhoto(job, BoardSide::part, copy)->board.partSide.marks.empty());
    EXPECT_EQ(removeBoardPhoto(job, BoardSide::part)->board, Board());
    EXPECT_NE(refusalOf(removeBoardPhoto(job, BoardSide::solder)).find("no photo"), std::string::npos);
    EXPECT_FALSE(setBoardPhoto(job, BoardSide::part, {"a.jpg", "0", 0, 5}));
    EXPECT_FALSE(setBoardPhoto(job, BoardSide::part, {"a.jpg", "0", 70000, 5}));
}

TEST(BoardMarks, APartThatAModFitsHasLegsToMark) {
    Job job = withPhoto();
    NewPart fitted;
    fitted.reference = "C9";
    fitted.kind = PartKind::capacitor;
    fitted.value = 1e-9;
    job = *addMod(job, AddAcross{"p1", 0, 1, fitted, false});
    const PartId id = job.plan.front().id;
    EXPECT_TRUE(markLeg(job, BoardSide::part, {id, 1}, {5, 5}));
}

// What a mark knows is not given to another part.
TEST(BoardMarks, TheIdOfAMarkedPartIsRemembered) {
    Job job = *markLeg(withPhoto(), BoardSide::part, {"p1", 0}, {10, 20});
    job.stock.parts.clear();
    EXPECT_TRUE(isRemembered(job, "p1"));
    EXPECT_FALSE(isRemembered(job, "p2"));
}

// Papers and figures do not depend on photos.
TEST(BoardMarks, ThePapersStayValid) {
    EXPECT_EQ(stateHash(smallJob()), stateHash(*markLeg(withPhoto(), BoardSide::part, {"p1", 0}, {10, 20})));
}

}  // namespace
}  // namespace ohmwright
