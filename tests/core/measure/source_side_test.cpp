// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/source_side.h"

#include "tests/support/csv_rows.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

TEST(SourceSide, ThePickupIsTakenAwayWithVolumeAndCable) {
    const Circuit driven = drivenAtJack(test::demoJob("small-rooster").stock);
    for (const char* id : {"lpu", "rpu", "cpu", "vg", "ccable"}) EXPECT_EQ(findPart(driven, id), nullptr) << id;
    EXPECT_NE(findPart(driven, "r5"), nullptr);
    EXPECT_EQ(findPart(driven, "vsig")->nets.front(), "in");
}

// Reference: tests/reference/demos/figures.csv, in stock, all demos with a jack.
TEST(SourceSide, InputImpedancesAreThoseOfTheDemos) {
    int held = 0;
    for (const test::CsvRow& row : test::referenceTable("demos/figures.csv")) {
        if (row.at("figure") != "input_impedance" || row.at("state") != "stock" ||
            row.at("condition").find(';') != std::string::npos || row.at("demo") == "pickup")
            continue;
        const Job job = test::demoJob(row.at("demo"));
        const double hertz = std::stod(row.at("condition").substr(3));
        const auto ohms = inputImpedanceOhms(job.stock, job.setting, hertz);
        ASSERT_TRUE(ohms) << ohms.error().message;
        EXPECT_NEAR(*ohms, std::stod(row.at("value")), 0.005 * std::stod(row.at("value")))
            << row.at("demo") << " " << hertz;
        ++held;
    }
    EXPECT_GE(held, 20);
}

TEST(SourceSide, TheBaseResistanceIsThatOfTheReference) {
    for (const test::CsvRow& row : test::referenceTable("demos/figures.csv")) {
        if (row.at("demo") != "small-rooster" || row.at("state") != "stock" || row.at("figure") != "base_resistance")
            continue;
        const Job job = test::demoJob("small-rooster");
        const auto corner = inputCorner(job.stock, job.setting);
        ASSERT_TRUE(corner && *corner);
        EXPECT_EQ((*corner)->capacitor, "c1");
        EXPECT_NEAR((*corner)->ohms, std::stod(row.at("value")), 0.005 * std::stod(row.at("value")));
    }
}

// 10k in front, 100n, then 90k to ground: the capacitor sees 100k; corner 15.9 Hz.
TEST(SourceSide, TheOutputCornerIsWhatTheCapacitorSees) {
    test::SmallCircuit circuit;
    circuit.r("R1", "in", "a", 10e3).c("C1", "a", "out", 100e-9).r("R2", "out", "0", 90e3);
    const auto corner = outputCorner(circuit, {});
    ASSERT_TRUE(corner) << corner.error().message;
    ASSERT_TRUE(*corner);
    EXPECT_NEAR((*corner)->ohms, 100e3, 1);
    EXPECT_NEAR((*corner)->hertz, 1.0 / (2.0 * std::numbers::pi * 100e3 * 100e-9), 1e-3);
}

TEST(SourceSide, ANetworkHasNoSingleOutputCapacitor) {
    const Job job = test::demoJob("three-hills");
    const auto corner = outputCorner(job.stock, job.setting);
    ASSERT_TRUE(corner);
    EXPECT_FALSE(*corner);
}

}  // namespace
}  // namespace ohmwright
