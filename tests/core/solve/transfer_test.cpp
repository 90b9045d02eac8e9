// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/transfer.h"

#include "core/devices/constants.h"
#include "tests/support/csv_rows.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

using test::SmallCircuit;

Result<std::vector<double>> sweepOf(const Circuit& circuit, const std::vector<double>& inputs,
                                    const std::stop_token& stop = {}) {
    const auto equations = Equations::compile(circuit, {});
    if (!equations) {
        return equations.error();
    }
    const auto bias = solveBias(*equations);
    if (!bias) {
        return bias.error();
    }
    return dcTransfer(*equations, *bias, circuit.parts.front().value, equations->indexOfNet("out"), inputs, stop);
}

TEST(Transfer, ADividerHasTheInputsOwnValueNotAnAddition) {
    SmallCircuit circuit(2.5);
    circuit.r("R1", "in", "out", 3e3).r("R2", "out", "0", 1e3);
    const std::vector<double> inputs{-8.0, 0.0, 2.5, 4.0, 400.0};
    const auto outputs = sweepOf(circuit, inputs);
    ASSERT_TRUE(outputs);
    for (std::size_t k = 0; k < inputs.size(); ++k) {
        EXPECT_NEAR((*outputs)[k], inputs[k] / 4.0, 1e-9 * (1.0 + std::abs(inputs[k])));
    }
}

TEST(Transfer, ResistorAndDiodeFollowTheLambertWPoints) {
    // diode_clipper_points.csv: T. C. Banwell, A. Jayakumar, Electron. Lett. 36(4) (2000) 291, by bisection; without
    // gmin, which carries less than a picoampere.
    int compared = 0;
    for (const double ohms : {1000.0, 2200.0}) {
        std::vector<std::pair<double, double>> points;
        std::map<std::string, double> card;
        for (const auto& row : test::referenceTable("diode_clipper_points.csv")) {
            if (row.at("circuit") == "single" && std::stod(row.at("R_ohm")) == ohms && row.at("N") == "1.752") {
                points.emplace_back(std::stod(row.at("V_source")), std::stod(row.at("v_out")));
                card = {{"IS", std::stod(row.at("IS_A"))}, {"N", 1.752}};
            }
        }
        std::sort(points.begin(), points.end());
        std::vector<double> inputs;
        for (const auto& point : points) {
            inputs.push_back(point.first);
        }
        SmallCircuit circuit;
        circuit.r("R1", "in", "out", ohms).d("D1", "out", "0", card);
        const auto outputs = sweepOf(circuit, inputs);
        ASSERT_TRUE(outputs) << outputs.error().message;
        for (std::size_t k = 0; k < points.size(); ++k) {
            EXPECT_NEAR((*outputs)[k], points[k].second, 5e-9) << inputs[k];
            ++compared;
        }
    }
    EXPECT_GE(compared, 8);
}

TEST(Transfer, ASourceOfCurrentIsSweptInAmperes) {
    SmallCircuit circuit;
    circuit.circuit().parts.clear();
    circuit.i("VIN", "0", "out", 1e-3).r("R1", "out", "0", 1e3).d("D1", "out", "0", {{"IS", 1e-14}});
    const std::vector<double> inputs{-2e-3, 0.0, 1e-4, 1e-3};
    const auto outputs = sweepOf(circuit, inputs);
    ASSERT_TRUE(outputs);
    for (std::size_t k = 0; k < inputs.size(); ++k) {
        const double volts = (*outputs)[k];
        const double diode = 1e-14 * std::expm1(volts / thermalVolts(300.15));
        EXPECT_NEAR(volts / 1e3 + diode, inputs[k], 2e-11);
    }
}

TEST(Transfer, AStageWithPositiveFeedbackKeepsItsSideUntilItFlips) {
    // Inverting trigger: rails about +-13.1 V, a tenth of the output back at the plus input: it flips beyond +-1.3 V
    // and stays between them where it was.
    SmallCircuit circuit(-3.0);
    circuit.v("VP", "vp", "0", 15.0)
        .v("VN", "0", "vn", 15.0)
        .opamp("U1", {"p", "in", "out", "vp", "vn"}, {})
        .r("R1", "out", "p", 9e3)
        .r("R2", "p", "0", 1e3);
    const auto outputs = sweepOf(circuit, {-3.0, -1.0, 0.0, 1.0, 3.0, 1.0, 0.0, -1.0, -3.0});
    ASSERT_TRUE(outputs) << outputs.error().message;
    for (const std::size_t k : {0u, 1u, 2u, 3u, 8u}) {
        EXPECT_GT((*outputs)[k], 12.0) << k;
    }
    for (const std::size_t k : {4u, 5u, 6u, 7u}) {
        EXPECT_LT((*outputs)[k], -12.0) << k;
    }
}

TEST(Transfer, AStoppedSweepIsCancelledAndNonsenseIsRefused) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).d("D1", "out", "0", {{"IS", 1e-14}});
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = sweepOf(circuit, {1.0}, stop.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
    const auto refused = sweepOf(circuit, {std::nan("")});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::invalidInput);
}

}  // namespace
}  // namespace ohmwright
