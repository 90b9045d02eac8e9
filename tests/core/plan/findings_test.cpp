// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/findings.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Circuit lamp() {
    return test::jobIn(test::demoJobPath("harbour-lamp")).stock;
}

TEST(Findings, AreTheSameButForTheLastDigits) {
    EXPECT_TRUE(isSameFinding(ValueFound{56e-9, "563"}, ValueFound{0.056e-6, "563"}));
    EXPECT_FALSE(isSameFinding(ValueFound{56e-9, "563"}, ValueFound{56e-9, {}}));
    EXPECT_FALSE(isSameFinding(ValueFound{56e-9, {}}, ToleranceFound{56e-9}));
    // A linear track has no share of its own.
    EXPECT_TRUE(isSameFinding(LawFound{Taper::linear, 0.5}, LawFound{Taper::linear, 0.15}));
}

TEST(Findings, OfTwoLegsAreTwoThings) {
    EXPECT_TRUE(isSameThing(LegFound{0, "a"}, LegFound{0, "b"}));
    EXPECT_FALSE(isSameThing(LegFound{0, "a"}, LegFound{1, "a"}));
    EXPECT_FALSE(isSameThing(ValueFound{}, ToleranceFound{}));
}

TEST(Findings, StockIsReadAsTheDrawingHasIt) {
    const Circuit stock = lamp();
    EXPECT_EQ(std::get<ValueFound>(*currentReading(stock, "c4", ValueFound{})), (ValueFound{56e-9, "563"}));
    EXPECT_EQ(std::get<TypeFound>(*currentReading(stock, "d1", TypeFound{})).model.name, "1N4148");
    EXPECT_EQ(std::get<LegFound>(*currentReading(stock, "c4", LegFound{1, {}})).net, "leg");
    EXPECT_EQ(std::get<PresenceFound>(*currentReading(stock, "c4", PresenceFound{})).seats.size(), 1u);
    EXPECT_FALSE(std::get<PresenceFound>(*currentReading(stock, "r99", PresenceFound{})).part);
    EXPECT_FALSE(currentReading(stock, "r99", ValueFound{}));
    EXPECT_FALSE(currentReading(stock, "d1", ValueFound{}));
}

// A type that only the correction brought goes with it; one that the drawing lists stays.
TEST(Findings, ATypeThatACorrectionBroughtGoesWithIt) {
    const Circuit stock = lamp();
    Correction correction;
    correction.part = "d1";
    correction.drawn = *currentReading(stock, "d1", TypeFound{});
    Model type = std::get<TypeFound>(correction.drawn).model;
    type.name = "1N34A";
    correction.found = TypeFound{type, {}};
    const auto put = putFinding(stock, "d1", correction.found);
    ASSERT_TRUE(put) << put.error().message;
    EXPECT_EQ(put->broughtType, "1N34A");
    EXPECT_NE(findModel(put->stock, "1N34A"), nullptr);
    correction.broughtType = put->broughtType;
    EXPECT_EQ(*asDrawn(put->stock, correction), stock);
}

}  // namespace
}  // namespace ohmwright
