// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::numberIn;
using test::rowsOf;
using test::rowWith;

const std::string job = test::harbourLampPath();

/// The table of an answer that says something beside it, with a word that must be said.
std::vector<test::CsvRow> rowsBeside(const std::vector<std::string>& args, const std::string& said) {
    const test::Called called = test::call(args);
    EXPECT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_NE(called.err.find(said), std::string::npos) << called.err;
    return rowsOf(called.out);
}

// Bias of the demo: U1 pins 1 to 3 at 4.46 V, emitters 2.76 V, 3.91 mA in all.
TEST(ProbesVerb, GivesThePinsWithTheirBands) {
    const auto rows = rowsBeside({"probes", job, "--variant", "stock"}, "the band holds the meter");
    const test::CsvRow output = rowWith(rows, "place", "U1 pin 1 (output)");
    EXPECT_NEAR(numberIn(output, "nominal"), 4.46, 0.01);
    EXPECT_LT(numberIn(output, "low"), 4.46);
    EXPECT_GT(numberIn(output, "high"), 4.46);
    EXPECT_EQ(output.at("unit"), "V");
    EXPECT_NEAR(numberIn(rowWith(rows, "place", "Q1 emitter"), "nominal"), 2.76, 0.01);
    EXPECT_NEAR(numberIn(rowWith(rows, "place", "supply"), "nominal"), 3.91e-3, 0.01e-3);
}

// The third diode: 0.58 and 1.17 V, each +-0.05; the discharge comes first.
TEST(StepsVerb, ListsTheWorkWithWhatEachReadingMustShow) {
    const auto rows = rowsBeside({"steps", job, "--variant", "B"}, "follow local codes");
    ASSERT_GT(rows.size(), 5u);
    EXPECT_EQ(rows[1].at("kind"), "discharge");
    EXPECT_NEAR(numberIn(rows[1], "expect_high"), 0.1, 1e-9);
    int found = 0;
    for (const test::CsvRow& row : rows) {
        if (row.at("kind") != "diode range") continue;
        const double expected = row.at("red") == "U1 pin 1 (output)" ? 1.17 : 0.585;
        EXPECT_NEAR(numberIn(row, "expect_low"), expected - 0.05, 0.005);
        EXPECT_NEAR(numberIn(row, "expect_high"), expected + 0.05, 0.005);
        EXPECT_EQ(row.at("mod"), "B");
        ++found;
    }
    EXPECT_EQ(found, 2);
}

TEST(StepsVerb, ANetlistHasNone) {
    const test::ScratchFolder folder;
    test::refused({"steps", folder.write("divider.cir", test::netlists::divider)}, ExitStatus::callWrong);
}

}  // namespace
}  // namespace ohmwright
