// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/label_layout.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

LabelBlock words(const char* reference, const char* value) {
    return {{{{reference, LabelInk::reference}}, {}}, {{{value, LabelInk::value}}, {}}};
}

LabelBlock referenceOnly(const char* reference) {
    return {{{{reference, LabelInk::reference}}, {}}};
}

/// An upright resistor in the middle of an empty sheet.
struct Place {
    LabelWriter writer{1.0};
    LabelRequest request{{words("R1", "1M"), referenceOnly("R1")}, {193, 184, 13, 32}, 5.0, true, LabelSide::automatic};
    Obstacles obstacles{{}, {}, {0, 0, 400, 400}, {}};

    [[nodiscard]] PlacedLabel place() const { return placeLabel(request, writer, obstacles); }
};

TEST(LabelLayout, AnUprightPartHasItsWordsAtTheLeft) {
    const PlacedLabel label = Place{}.place();
    EXPECT_DOUBLE_EQ(label.covered, 0.0);
    EXPECT_EQ(label.place.align, LabelAlign::right);
    for (const QRectF& box : label.boxes) {
        EXPECT_LE(box.right(), 193.0);
    }
}

TEST(LabelLayout, ABlockedSideGivesTheOppositeOne) {
    Place at;
    at.obstacles.boxes = {{100, 0, 90, 400}};
    const PlacedLabel label = at.place();
    EXPECT_DOUBLE_EQ(label.covered, 0.0);
    for (const QRectF& box : label.boxes) {
        EXPECT_GE(box.left(), 206.0);
    }
}

TEST(LabelLayout, ALevelPartHasItsWordsAboveElseBelow) {
    Place at;
    at.request.isUpright = false;
    at.request.body = {184, 193, 32, 13};
    EXPECT_LT(at.place().boxes.back().bottom(), 193.0);
    at.obstacles.boxes = {{0, 100, 400, 90}};
    EXPECT_GT(at.place().boxes.front().top(), 206.0);
}

TEST(LabelLayout, ALevelPartWithoutRoomAboveAndBelowHasItsWordsAtItsShoulder) {
    Place at;
    at.request.isUpright = false;
    at.request.body = {184, 175, 32, 50};
    at.obstacles.boxes = {{0, 0, 400, 160}, {0, 230, 400, 170}};
    at.request.isOnWire = true;
    at.obstacles.lines = {{0, 200, 184, 200}, {216, 200, 400, 200}};
    const PlacedLabel label = at.place();
    EXPECT_DOUBLE_EQ(label.covered, 0.0);
    EXPECT_EQ(label.block.size(), 2U);
    EXPECT_GE(label.boxes.front().left(), 216.0);
    EXPECT_LT(label.boxes.back().bottom(), 200.0);
}

TEST(LabelLayout, WordsGiveWayAlongThePart) {
    Place at;
    at.request.side = LabelSide::left;
    at.obstacles.boxes = {{0, 205, 400, 200}, {206, 0, 200, 400}};  // right side and lower half are taken
    const PlacedLabel label = at.place();
    EXPECT_DOUBLE_EQ(label.covered, 0.0);
    EXPECT_LE(label.boxes.back().bottom(), 205.0);
}

TEST(LabelLayout, TheValueIsDroppedBeforeTheReference) {
    // Q2 and D2 vanished from a newcomer's map while their types stayed.
    Place at;
    // A slot as high as one line, and no room above or below.
    at.obstacles.boxes = {{0, 0, 400, 191}, {0, 207, 400, 193}};
    const PlacedLabel label = at.place();
    EXPECT_DOUBLE_EQ(label.covered, 0.0);
    EXPECT_GT(label.penalty, 0.0) << "it says less than it should";
    ASSERT_EQ(label.block.size(), 1U);
    EXPECT_EQ(label.block.front().runs.front().text, "R1");
}

TEST(LabelLayout, WordsAreNeverNearerToAnotherBody) {
    // R2's words stood beside R3 on a small screen, and R2 had none.
    Place at;
    at.obstacles.boxes = {{0, 0, 190, 400}, {209, 150, 45, 100}};  // no room at either side
    at.request.others = {{260, 184, 13, 32}};
    const PlacedLabel label = at.place();
    EXPECT_LT(gapBetween(boundsOf(label.boxes), at.request.body),
              gapBetween(boundsOf(label.boxes), at.request.others.front()));
    EXPECT_DOUBLE_EQ(label.penalty, 0.0);
}

TEST(LabelLayout, WithoutAnyRoomTheLeastIsCovered) {
    Place at;
    at.obstacles.boxes = {{0, 0, 400, 400}};
    const PlacedLabel label = at.place();
    EXPECT_GT(label.covered, 0.0);
    EXPECT_FALSE(label.block.empty());
}

TEST(LabelLayout, AWireNeverRunsBetweenTheLinesOfALabel) {
    Place at;
    at.request.side = LabelSide::left;
    at.obstacles.lines = {{0, 200, 193, 200}};  // along the middle of the wished place
    const PlacedLabel label = at.place();
    EXPECT_DOUBLE_EQ(label.covered, 0.0);
    QRectF all;
    for (const QRectF& box : label.boxes) {
        all = all.united(box);
    }
    EXPECT_DOUBLE_EQ(lengthInside(at.obstacles.lines.front(), all), 0.0);
}

TEST(LabelLayout, WordsStayOnTheirSideOfAZoneLine) {
    Place at;
    at.request.side = LabelSide::below;
    at.obstacles.boxes = {{0, 216, 400, 20}};  // room again only farther below
    EXPECT_GT(at.place().boxes.front().top(), 236.0 - 1.0);
    at.obstacles.fences = {{0, 230, 400, 230}};
    const PlacedLabel label = at.place();
    EXPECT_DOUBLE_EQ(label.covered, 0.0);
    EXPECT_LT(label.boxes.back().bottom(), 230.0);
}

TEST(LabelLayout, TrianglesStandFreeOfTheWords) {
    Place at;
    at.request.markCount = 2;
    const PlacedLabel label = at.place();
    ASSERT_EQ(label.marks.size(), 2U);
    EXPECT_FALSE(label.marks[0].intersects(label.marks[1]));
    for (const QRectF& mark : label.marks) {
        for (const QRectF& box : label.boxes) {
            EXPECT_FALSE(mark.intersects(box));
        }
        EXPECT_FALSE(mark.intersects(at.request.body));
    }
}

TEST(LabelLayout, TheTextSettingMakesWordsLarger) {
    const LabelWriter plain(1.0);
    const LabelWriter large(1.3);
    const LabelBlock block = words("R1", "390k");
    EXPECT_GT(large.sizeOf(block).width(), 1.2 * plain.sizeOf(block).width());
    EXPECT_GT(large.sizeOf(block).height(), 1.2 * plain.sizeOf(block).height());
}

}  // namespace
}  // namespace ohmwright::test
