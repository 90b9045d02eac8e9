// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/clip_onset.h"

#include "tests/support/csv_rows.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

// Reference: tests/reference/demos/figures.csv, clip_onset in stock.
TEST(ClipOnset, IsThatOfTheDemos) {
    const std::map<std::string, std::string> nodes{{"quarry-bell", "k"}, {"small-rooster", "c"}, {"paper-boat", "d"}};
    int held = 0;
    for (const test::CsvRow& row : test::referenceTable("demos/figures.csv")) {
        const auto node = nodes.find(row.at("demo"));
        if (node == nodes.end() || row.at("state") != "stock" || row.at("figure") != "clip_onset" ||
            row.at("where") != node->second || row.at("condition").rfind("hz=220;", 0) != 0)
            continue;
        const Job job = test::demoJob(row.at("demo"));
        const auto solved = solveCircuit(job.stock, job.setting);
        ASSERT_TRUE(solved);
        const auto onset = measureClipOnset(*solved, node->second, 220.0);
        ASSERT_TRUE(onset) << row.at("demo");
        ASSERT_TRUE(*onset) << row.at("demo");
        EXPECT_NEAR(1e3 * **onset, std::stod(row.at("value")), 0.005 * std::stod(row.at("value"))) << row.at("demo");
        ++held;
    }
    EXPECT_EQ(held, 3);
}

TEST(ClipOnset, AStraightCircuitHasNone) {
    test::SmallCircuit divider;
    divider.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    const auto solved = solveCircuit(divider, {});
    ASSERT_TRUE(solved);
    const auto onset = measureClipOnset(*solved, "out", 220.0);
    ASSERT_TRUE(onset);
    EXPECT_FALSE(*onset);
    EXPECT_FALSE(measureClipOnset(*solved, "nowhere", 220.0));
}

}  // namespace
}  // namespace ohmwright
