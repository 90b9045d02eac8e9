// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/walk_course.h"

#include "core/circuit/circuit.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

/// r1 ... r4 in a row, known from the drawing alone.
Circuit fourResistors() {
    Circuit board;
    for (int i = 1; i <= 4; ++i) {
        Part part;
        part.id = "r" + std::to_string(i);
        part.reference = "R" + std::to_string(i);
        part.kind = PartKind::resistor;
        part.value = 1000.0 * i;
        part.nets = {"n" + std::to_string(i), "n" + std::to_string(i + 1)};
        board.parts.push_back(part);
    }
    return board;
}

void setKnown(Circuit& board, const PartId& id, Knowledge knowledge) {
    for (Part& part : board.parts) {
        if (part.id == id) {
            part.knowledge = knowledge;
        }
    }
}

TEST(WalkCourse, GoesFromPartToPartAndEndsAfterTheLast) {
    const Circuit board = fourResistors();
    WalkCourse course;
    course.begin();
    for (const char* id : {"r1", "r2", "r3", "r4", ""}) {
        course.stepTo(course.next(board), false);
        EXPECT_EQ(course.here(), id);
    }
    EXPECT_TRUE(course.canGoBack());
    course.goBack();
    EXPECT_EQ(course.here(), "r4");
}

TEST(WalkCourse, PassesOverWhatWasLookedAt) {
    Circuit board = fourResistors();
    setKnown(board, "r2", Knowledge::seen);
    setKnown(board, "r3", Knowledge::measured);
    WalkCourse course;
    course.standAt("r1");
    EXPECT_EQ(course.next(board), "r4");
}

TEST(WalkCourse, AnUndoneLookIsWalkedToAgain) {
    Circuit board = fourResistors();
    WalkCourse course;
    course.standAt("r1");
    setKnown(board, "r1", Knowledge::seen);
    course.stepTo(course.next(board), true);
    EXPECT_FALSE(course.follow(board));
    EXPECT_EQ(course.here(), "r2");
    setKnown(board, "r1", Knowledge::drawn);
    EXPECT_TRUE(course.follow(board));
    EXPECT_EQ(course.here(), "r1");
    EXPECT_FALSE(course.canGoBack());
}

TEST(WalkCourse, ASkippedPartIsNotWalkedToAgainByTheNextEdit) {
    const Circuit board = fourResistors();
    WalkCourse course;
    course.standAt("r1");
    course.stepTo(course.next(board), false);
    EXPECT_FALSE(course.follow(board));
    EXPECT_EQ(course.here(), "r2");
}

// A part that the drawing lost while the walk stood at it brought the program down.
TEST(WalkCourse, APartThatIsGoneIsLeftForTheEndAndNotWalkedBackTo) {
    Circuit board = fourResistors();
    WalkCourse course;
    course.standAt("r1");
    course.stepTo("r2", false);
    course.stepTo("r3", false);
    std::erase_if(board.parts, [](const Part& part) { return part.id == "r2" || part.id == "r3"; });
    EXPECT_TRUE(course.follow(board));
    EXPECT_EQ(course.here(), "");
    course.goBack();
    EXPECT_EQ(course.here(), "r1");
}

TEST(WalkCourse, StandingStillLeavesNothingBehindUnlessItMadeThePartKnown) {
    WalkCourse course;
    course.standAt("r1");
    course.stepTo("r1", false);
    EXPECT_FALSE(course.canGoBack());
    course.stepTo("r1", true);
    EXPECT_TRUE(course.canGoBack());
}

}  // namespace
}  // namespace ohmwright
