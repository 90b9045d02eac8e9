// Probes at the nodes; volts invented for the test, and the demo's of tests/reference/harbour-lamp-figures.csv.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/probes.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

namespace ohmwright {
namespace {

using Volts = std::vector<std::pair<NetName, double>>;

Volts everywhere(const Circuit& circuit, double volts) {
    Volts all;
    for (const Part& part : circuit.parts) {
        for (const NetName& net : part.nets) {
            all.emplace_back(net, volts);
        }
    }
    return all;
}

const NetVolts* find(const std::vector<NetVolts>& probes, const NetName& net) {
    const auto found =
        std::find_if(probes.begin(), probes.end(), [&net](const NetVolts& probe) { return probe.net == net; });
    return found == probes.end() ? nullptr : &*found;
}

TEST(Probes, PinsOfDevicesAndSuppliesComeFirstAndGroundIsTheReference) {
    const Circuit stock = test::harbourLamp().stock;
    const Volts volts = everywhere(stock, 1.0);
    const auto probes = probesOf(stock, volts, volts);
    EXPECT_EQ(find(probes, NetName(groundNet)), nullptr);
    EXPECT_TRUE(std::is_partitioned(probes.begin(), probes.end(), [](const NetVolts& p) { return p.isDevicePin; }));
    for (const NetName& net : findPartByReference(stock, "Q1")->nets) {
        ASSERT_NE(find(probes, net), nullptr) << net;
        EXPECT_TRUE(find(probes, net)->isDevicePin) << net;
    }
    for (std::size_t i = 0; i < probes.size(); ++i) {
        EXPECT_EQ(find(probes, probes[i].net), &probes[i]) << "each net once";
    }
}

TEST(Probes, StockAndNowStandSideBySideWhereAMeterTellsThemApart) {
    EXPECT_EQ(probeText({"a", 4.461, 4.459, false}), "4.46 V");
    EXPECT_EQ(probeText({"a", 4.46, 4.51, false}), "4.46 → 4.51 V");
    EXPECT_EQ(probeText({"a", {}, -0.5, false}), "−0.50 V");
    EXPECT_EQ(probeText({"a", 9.0, {}, false}), "9.00 V");
    EXPECT_EQ(probeText({"a", {}, {}, false}), "none");
}

/// Story: a net that a mod had taken away stood at "nan V".
TEST(Probes, WhatWasNotSolvedIsNotSaid) {
    const Circuit stock = test::harbourLamp().stock;
    EXPECT_TRUE(probesOf(stock, {}, {}).empty());
    EXPECT_TRUE(probesOf(stock, everywhere(stock, std::numeric_limits<double>::quiet_NaN()), {}).empty());
}

}  // namespace
}  // namespace ohmwright
