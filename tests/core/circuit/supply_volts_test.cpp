// Expected: the contract of supply_volts.h, by hand.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/supply_volts.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Part source(const std::string& id, double volts) {
    Part part;
    part.id = id;
    part.kind = PartKind::voltageSource;
    part.value = volts;
    part.nets = {id, std::string(groundNet)};
    return part;
}

TEST(SupplyVolts, TheHighestSourceCountsWhateverItsSignAndTheInputDoesNot) {
    Circuit circuit;
    EXPECT_EQ(highestSupplyVolts(circuit, {}), 0.0);
    circuit.parts = {source("vin", 500.0), source("v1", 12.0), source("v2", -310.0)};
    circuit.ports.source = "vin";
    EXPECT_EQ(highestSupplyVolts(circuit, {}), 310.0);
}

TEST(SupplyVolts, TheBatteryIsAsSetAndNotAsDrawn) {
    Circuit circuit;
    circuit.parts = {source("bat", 300.0)};
    circuit.ports.battery = "bat";
    Setting setting;
    setting.batteryVolts = 9.6;
    EXPECT_EQ(highestSupplyVolts(circuit, setting), 9.6);
}

}  // namespace
}  // namespace ohmwright
