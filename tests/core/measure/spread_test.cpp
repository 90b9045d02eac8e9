// Spread bands of the seven demos against reference/demos/figures.csv and reference/harbour-lamp-figures.csv (own
// solver apart from core/, 4,000 builds: two seeds differ by 2 % of the band, hence 3 %), and against sums on paper.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/spread.h"

#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"
#include "tests/support/demo_job.h"
#include "tests/support/demo_netlists.h"
#include "tests/support/demo_tolerances.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::DemoNetlist;
using test::ToleratedDemo;

constexpr double seedShare = 0.03;

struct BandRow {
    std::string demo, state;
    double hertz = 0.0, expected = 0.0;
    bool potMeasured = false;
};

std::vector<BandRow> bandRows(const std::string& figure) {
    std::vector<BandRow> rows;
    for (const char* table : {"harbour-lamp-figures.csv", "demos/figures.csv"}) {
        for (const test::CsvRow& row : test::referenceTable(table)) {
            if (row.at("figure") != figure) {
                continue;
            }
            const auto demo = row.find("demo");
            const test::Conditions conditions = test::conditionsOf(row.at("condition"));
            rows.push_back({demo == row.end() ? "harbour-lamp" : demo->second, row.at("state"),
                            std::stod(conditions.at("hz")), std::stod(row.at("value")),
                            conditions.count("measured") > 0});
        }
    }
    return rows;
}

ToleratedDemo unitOf(const BandRow& row) {
    ToleratedDemo demo =
        test::withTolerances(DemoNetlist::circuitOf(DemoNetlist::inState(row.demo, row.state).text(), "out"));
    if (row.potMeasured) {
        findPart(demo.circuit, "RVR1")->tolerance = 0.0;  // that figure leaves the meter's own 1 % out
    }
    return demo;
}

Circuit equalDivider() {
    test::SmallCircuit circuit;
    return circuit.r("R1", "in", "out", 10e3).r("R2", "out", "0", 10e3);
}

TEST(Spread, SampledBandOfEveryDemoIsThatOfTheReference) {
    const std::vector<BandRow> rows = bandRows("spread_band");
    EXPECT_EQ(rows.size(), 24U);
    for (const BandRow& row : rows) {
        const ToleratedDemo unit = unitOf(row);
        const auto band = sampledBand(unit.circuit, unit.setting, std::span(&row.hertz, 1));
        ASSERT_TRUE(band) << row.demo << ": " << band.error().message;
        EXPECT_NEAR(band->bandDb[0], row.expected, seedShare * row.expected)
            << row.demo << " " << row.state << " at " << row.hertz << " Hz";
        EXPECT_EQ(band->builds + band->unsolved, 4000);
        EXPECT_LT(band->lowDb[0], band->nominalDb[0]);
        EXPECT_GT(band->highDb[0], band->nominalDb[0]);
    }
}

TEST(Spread, QuickBandOfEveryDemoIsThatOfTheReferenceAndNearTheSampledOne) {
    const std::vector<BandRow> rows = bandRows("spread_band_linear");
    EXPECT_EQ(rows.size(), 23U);
    for (const BandRow& row : rows) {
        const ToleratedDemo unit = unitOf(row);
        const auto band = quickBand(unit.circuit, unit.setting, std::span(&row.hertz, 1));
        ASSERT_TRUE(band) << row.demo << ": " << band.error().message;
        EXPECT_NEAR(band->bandDb[0], row.expected, 1e-3)
            << row.demo << " " << row.state << " at " << row.hertz << " Hz";
    }
    // "In the demos it lies 2 % under to 12 % over the sampled one."
    for (const BandRow& row : bandRows("spread_band")) {
        if (row.potMeasured) {
            continue;
        }
        const ToleratedDemo unit = unitOf(row);
        const double quick = quickBand(unit.circuit, unit.setting, std::span(&row.hertz, 1))->bandDb[0];
        EXPECT_GT(quick, 0.95 * row.expected);
        EXPECT_LT(quick, 1.15 * row.expected);
    }
}

/// The job has pots, tolerances and knobs of its own; its figures are the netlist's.
TEST(Spread, TheJobHasTheBandsOfItsNetlist) {
    const Job job = test::harbourLamp();
    const std::array<double, 2> hertz{1000.0, 110.0};
    const auto band = sampledBand(job.stock, job.setting, hertz);
    ASSERT_TRUE(band);
    EXPECT_NEAR(band->bandDb[0], 1.06, seedShare * 1.06);
    EXPECT_NEAR(band->bandDb[1], 1.19, seedShare * 1.19);
    const auto quick = quickBand(job.stock, job.setting, hertz);
    ASSERT_TRUE(quick);
    EXPECT_NEAR(quick->bandDb[0], 1.11525, 1e-3);
}

TEST(Spread, AMeasuredPotLeavesTheSmallerBand) {
    Job job = test::harbourLamp();
    for (Part& part : job.stock.parts) {
        if (part.reference == "VR1") {
            part.measured = part.value;
        }
    }
    const double hertz = 1000.0;
    const auto band = sampledBand(asMeasured(job.stock), job.setting, std::span(&hertz, 1));
    ASSERT_TRUE(band);
    EXPECT_NEAR(band->bandDb[0], 0.52, seedShare * 0.52);  // ±0.52 dB, JOB's walk-through with a measured pot
}

TEST(Spread, AMeasuredPartStandsAtItsReadingWithTheMetersOnePercent) {
    Circuit circuit = equalDivider();
    circuit.parts.back().tolerance = 0.05;
    circuit.parts.back().measured = 10.4e3;
    const Circuit unit = asMeasured(circuit);
    EXPECT_DOUBLE_EQ(unit.parts.back().value, 10.4e3);
    EXPECT_DOUBLE_EQ(spreadShare(unit.parts.back()), 0.01);
    Part seen = circuit.parts.back();
    seen.measured.reset();
    EXPECT_DOUBLE_EQ(spreadShare(seen), 0.05);
    seen.knowledge = Knowledge::measured;
    EXPECT_DOUBLE_EQ(spreadShare(seen), 0.01);
}

/// A divider of two equal resistors with one uniform ±10 %: gain = 1/(1 + r), r in 0.9..1.1, so the percentiles are
/// those of r: 20 log10 of 1/(1 + 1.095) and 1/(1 + 0.905).
TEST(Spread, OneUniformPartHasItsOwnPercentiles) {
    Circuit circuit = equalDivider();
    findPart(circuit, "R1")->tolerance = 0.1;
    const double hertz = 1000.0;
    const auto band = sampledBand(circuit, {}, std::span(&hertz, 1), {.builds = 20000});
    ASSERT_TRUE(band);
    const double low = -20.0 * std::log10(2.095);
    const double high = -20.0 * std::log10(1.905);
    EXPECT_NEAR(band->lowDb[0], low, 0.004);
    EXPECT_NEAR(band->highDb[0], high, 0.004);
    EXPECT_NEAR(band->bandDb[0], (high - low) / 2.0, 0.004);
    // S = d(dB)/d(ln R1) = -20/ln 10 * R1/(R1 + R2)
    const auto quick = quickBand(circuit, {}, std::span(&hertz, 1));
    ASSERT_TRUE(quick);
    EXPECT_NEAR(quick->bandDb[0], 1.96 * 20.0 / std::numbers::ln10 * 0.5 * 0.1 / std::numbers::sqrt3, 1e-9);
}

TEST(Spread, WithoutTolerancesThereIsNone) {
    const Circuit circuit = equalDivider();
    const double hertz = 1000.0;
    EXPECT_DOUBLE_EQ(quickBand(circuit, {}, std::span(&hertz, 1))->bandDb[0], 0.0);
    EXPECT_NEAR(sampledBand(circuit, {}, std::span(&hertz, 1), {.builds = 10})->bandDb[0], 0.0, 1e-12);
}

TEST(Spread, TheSameSeedGivesTheSameBuilds) {
    const Job job = test::harbourLamp();
    const double hertz = 1000.0;
    const auto one = sampledBand(job.stock, job.setting, std::span(&hertz, 1), {.builds = 200, .seed = 7});
    const auto same = sampledBand(job.stock, job.setting, std::span(&hertz, 1), {.builds = 200, .seed = 7});
    const auto other = sampledBand(job.stock, job.setting, std::span(&hertz, 1), {.builds = 200, .seed = 8});
    EXPECT_EQ(one->bandDb, same->bandDb);
    EXPECT_NE(one->bandDb, other->bandDb);
}

/// What acts before the stage's input border is no spread of the stage, and moves the whole response all the same.
TEST(Spread, AStagesBandLeavesOutWhatStandsBeforeIt) {
    const Job job = test::harbourLamp();
    const double hertz = 82.41;
    const auto stage = quickGainBand(job.stock, job.setting, "ip", "o1", std::span(&hertz, 1));
    const auto sampled = sampledFigures(job.stock, job.setting, [&](const SolvedCircuit& solved) {
        const auto gains = frequencyResponse(*solved.equations, *solved.bias, {"o1", "ip"}, std::span(&hertz, 1));
        return Result<std::vector<double>>(
            std::vector<double>{20.0 * std::log10(std::abs((*gains)[0][0] / (*gains)[1][0]))});
    });
    ASSERT_TRUE(stage && sampled);
    EXPECT_NEAR(stage->nominalDb[0], 7.43, 0.05);
    EXPECT_NEAR(stage->nominalDb[0], (*sampled)[0].nominal, 1e-6);
    EXPECT_NEAR(stage->bandDb[0], (*sampled)[0].band(), 0.12 * (*sampled)[0].band());
    const auto whole = quickBand(job.stock, job.setting, std::span(&hertz, 1));
    EXPECT_LT(stage->bandDb[0], whole->bandDb[0]);
}

TEST(Spread, TheBandOfATiltIsSmallerThanThoseOfItsEnds) {
    const Job job = test::harbourLamp();
    const auto tilt = quickTiltBand(job.stock, job.setting, 3000.0, 329.6);
    const std::array<double, 2> hertz{3000.0, 329.6};
    const auto sampled = sampledFigures(job.stock, job.setting, [&](const SolvedCircuit& solved) {
        const auto gains = frequencyResponse(*solved.equations, *solved.bias, {"out"}, hertz);
        return Result<std::vector<double>>(
            std::vector<double>{20.0 * std::log10(std::abs((*gains)[0][0] / (*gains)[0][1]))});
    });
    ASSERT_TRUE(tilt && sampled);
    EXPECT_NEAR(tilt->nominalDb, 6.85 - 0.20, 0.05);
    EXPECT_NEAR(tilt->bandDb, (*sampled)[0].band(), 0.12 * (*sampled)[0].band());
}

TEST(Spread, WordsOfAnUnknownNetAndOfAStop) {
    const Job job = test::harbourLamp();
    const double hertz = 82.41;
    const auto unknown = quickGainBand(job.stock, job.setting, "ip", "nowhere", std::span(&hertz, 1));
    ASSERT_FALSE(unknown);
    EXPECT_NE(unknown.error().message.find("nowhere"), std::string::npos);
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = sampledBand(job.stock, job.setting, std::span(&hertz, 1), {}, stop.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
}

/// A corner of Rg 5 % and Cg 10 %: -13/+17 % at worst, 11.2 % by the rule of squares; 728.7 Hz lies in 631..852 Hz.
TEST(Spread, WorstCaseAndRuleOfSquares) {
    const std::array<double, 2> shares{0.05, 0.10};
    const ProductSpread corner = spreadOfInverseProduct(shares);
    EXPECT_NEAR(corner.lowest, -0.134, 5e-4);
    EXPECT_NEAR(corner.highest, 0.170, 5e-4);
    EXPECT_NEAR(corner.ruleOfSquares, 0.112, 5e-4);
    EXPECT_NEAR(728.7 * (1.0 + corner.lowest), 631.0, 0.5);
    EXPECT_NEAR(728.7 * (1.0 + corner.highest), 852.3, 0.5);
}

TEST(Spread, AChangeIsHeldAgainstTheBand) {
    EXPECT_TRUE((SpreadMark{0.41, 1.06}.isWithin()));
    EXPECT_TRUE((SpreadMark{-0.41, 0.52}.isWithin()));
    EXPECT_FALSE((SpreadMark{1.35, 1.06}.isWithin()));
    EXPECT_FALSE((SpreadMark{0.0, 0.0}.isWithin()));
}

}  // namespace
}  // namespace ohmwright
