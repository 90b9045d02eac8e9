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

// A unit that begins with its capacitor had no input corner: "Net in has no DC path to ground". Closed form: 1/(2 pi R
// C).
TEST(SourceSide, AUnitThatBeginsWithItsCapacitorHasAnInputCorner) {
    Circuit circuit;
    const auto add = [&circuit](const char* id, PartKind kind, double value, std::vector<NetName> nets) {
        Part part;
        part.id = part.reference = id;
        part.kind = kind;
        part.value = value;
        part.nets = std::move(nets);
        circuit.parts.push_back(part);
    };
    add("VSIG", PartKind::voltageSource, 0.0, {"emf", "0"});
    circuit.parts[0].acAmplitude = 1.0;
    add("RPU", PartKind::resistor, 7e3, {"emf", "in"});
    add("C1", PartKind::capacitor, 47e-9, {"in", "b"});
    add("R1", PartKind::resistor, 470e3, {"b", "0"});
    circuit.ports.source = "VSIG";
    circuit.ports.jack = "in";
    circuit.ports.output = "b";
    circuit.stages = {{"Source", "emf", "in", {"VSIG", "RPU"}, 0}, {"Filter", "in", "b", {"C1", "R1"}, 5}};
    const auto corner = inputCorner(circuit, {});
    ASSERT_TRUE(corner) << corner.error().message;
    ASSERT_TRUE(*corner);
    EXPECT_EQ((*corner)->capacitor, "C1");
    EXPECT_NEAR((*corner)->hertz, 1.0 / (2.0 * std::numbers::pi * 470e3 * 47e-9), 0.01);
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
