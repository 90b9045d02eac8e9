// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::answered;
using test::numberIn;
using test::rowsOf;
using test::rowWith;

const std::string job = test::harbourLampPath();

// Mod A of the demo (56n to 120n at the gain leg) is the one that is on in its file. Figures: tests/reference.
TEST(FiguresVerb, PutsStockBesideNow) {
    const auto rows = rowsOf(answered({"figures", job}));
    const test::CsvRow corner = rowWith(rows, "figure", "gain_leg_corner");
    EXPECT_EQ(corner.at("unit"), "Hz");
    EXPECT_NEAR(numberIn(corner, "stock"), 728.7, 0.05);  // 1/(2 pi 3k9 56n)
    EXPECT_NEAR(numberIn(corner, "now"), 340.1, 0.05);    // 1/(2 pi 3k9 120n)
    EXPECT_NEAR(numberIn(corner, "change"), 340.0747 - 728.7314, 0.01);
    const test::CsvRow level = rowWith(rows, "figure", "level");
    EXPECT_NEAR(numberIn(level, "stock"), test::expectedFigure("stock", "level", "out", "hz=220;mvpk=100"), 0.05);
    EXPECT_NEAR(numberIn(level, "now"), test::expectedFigure("A", "level", "out", "hz=220;mvpk=100"), 0.05);
    EXPECT_NEAR(numberIn(level, "change"), 2.08, 0.05);
}

TEST(FiguresVerb, ChangeIsNowLessStockAndEmptyWhereEitherIsMissing) {
    const auto rows = rowsOf(answered({"figures", job, "--variant", "A+B"}));
    for (const test::CsvRow& row : rows) {
        const bool bothThere = !row.at("stock").empty() && !row.at("now").empty();
        EXPECT_EQ(bothThere, !row.at("change").empty()) << row.at("figure");
        if (!bothThere) continue;
        EXPECT_NEAR(numberIn(row, "change"), numberIn(row, "now") - numberIn(row, "stock"), 1e-6) << row.at("figure");
    }
}

TEST(FiguresVerb, ANetlistHasNone) {
    const test::ScratchFolder folder;
    test::refused({"figures", folder.write("divider.cir", test::netlists::divider)}, ExitStatus::callWrong);
}

TEST(FiguresVerb, TheVariantIsWhatStockIsComparedWith) {
    const auto rows = rowsOf(answered({"figures", job, "--variant", "stock"}));
    EXPECT_DOUBLE_EQ(numberIn(rowWith(rows, "figure", "level"), "change"), 0.0);
    const auto onlyC = rowsOf(answered({"figures", job, "--variant", "C"}));
    EXPECT_NEAR(numberIn(rowWith(onlyC, "figure", "gain_leg_corner"), "now"), 1052.6, 0.05);  // 1/(2 pi 2k7 56n)
}

}  // namespace
}  // namespace ohmwright
