/// Reference: tests/reference/demos/figures.csv, trimmed_drain_resistor of Paper Boat; its low, typical and high device
/// have Idss 1, 3, 5 mA and Vp -0.5, -1.8, -4 V.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/device_pick.h"

#include "tests/support/csv_rows.h"
#include "tests/support/demo_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

Drawer threeDevices() {
    DrawerLot lot;
    lot.id = "J-bag";
    lot.kind = PartKind::jfet;
    lot.type = "2N5457";
    lot.quantity = 3;
    lot.devices = {{"low", {}, 1e-3, -0.5}, {"typical", {}, 3e-3, -1.8}, {"high", {}, 5e-3, -4.0}};
    return {"", {lot}};
}

TEST(DevicePick, TrimmedResistorsAreThoseOfTheReference) {
    const Job job = test::demoJob("paper-boat");
    const auto picks = pickDevices(job.stock, job.setting, "j1", threeDevices());
    ASSERT_TRUE(picks) << picks.error().message;
    int held = 0;
    for (const test::CsvRow& row : test::referenceTable("demos/figures.csv")) {
        if (row.at("figure") != "trimmed_drain_resistor") continue;
        const std::string device = row.at("condition").substr(std::string("device=").size());
        for (const DevicePick& pick : *picks) {
            if (pick.label != device) continue;
            ASSERT_TRUE(pick.trimmedOhms) << device;
            EXPECT_NEAR(*pick.trimmedOhms, std::stod(row.at("value")), 0.005 * std::stod(row.at("value"))) << device;
            ++held;
        }
    }
    EXPECT_EQ(held, 3);
}

// Drain 7.49 / 3.88 / 1.94 V; trimmed stage gain 30.4 / 18.7 / 10.1 dB.
TEST(DevicePick, EachDeviceIsSolvedInItsPlace) {
    const Job job = test::demoJob("paper-boat");
    const auto picks = pickDevices(job.stock, job.setting, "j1", threeDevices(), {3.9, {}});
    ASSERT_TRUE(picks);
    EXPECT_EQ((*picks)[0].label, "typical");
    EXPECT_NEAR((*picks)[0].outputVolts, 3.88, 0.01);
    EXPECT_NEAR((*picks)[0].trimmedGainDb, 18.7, 0.1);
    EXPECT_THAT((*picks)[0].sentence, testing::HasSubstr("drain 3.88 V"));
    const auto byGain = pickDevices(job.stock, job.setting, "j1", threeDevices(), {7.5, {}});
    EXPECT_EQ((*byGain)[0].label, "low");
    EXPECT_NEAR((*byGain)[0].outputVolts, 7.49, 0.01);
    EXPECT_NEAR((*byGain)[0].trimmedGainDb, 30.4, 0.1);
}

TEST(DevicePick, BetaMovesTheCollector) {
    // Beta 150 to 600: 4.81 to 3.38 V.
    DrawerLot lot;
    lot.id = "Q-bag";
    lot.kind = PartKind::bipolar;
    lot.type = "QN200";
    lot.quantity = 2;
    lot.devices = {{"600", 600.0, {}, {}}, {"150", 150.0, {}, {}}};
    const Job job = test::demoJob("small-rooster");
    const auto picks = pickDevices(job.stock, job.setting, "q1", {"", {lot}}, {4.9, {}});
    ASSERT_TRUE(picks);
    EXPECT_EQ((*picks)[0].label, "150");
    EXPECT_NEAR((*picks)[0].outputVolts, 4.81, 0.01);
    EXPECT_NEAR((*picks)[1].outputVolts, 3.38, 0.01);
}

TEST(DevicePick, AnEmptyBagIsToldInASentence) {
    const Job job = test::demoJob("paper-boat");
    EXPECT_FALSE(pickDevices(job.stock, job.setting, "j1", {}));
    EXPECT_FALSE(pickDevices(job.stock, job.setting, "r1", threeDevices()));
    EXPECT_EQ(loadResistorOf(job.stock, "j1"), "r2");
    EXPECT_EQ(loadResistorOf(test::demoJob("small-rooster").stock, "q1"), "r3");
}

}  // namespace
}  // namespace ohmwright
