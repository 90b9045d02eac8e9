// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/battery_resistor.h"

#include "tests/core/circuit/circuits.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(BatteryResistor, StandsAloneAtThePlus) {
    Circuit circuit;
    circuit.parts = {source("B1", "plus", "0", 9.0), resistor("R1", "vcc", "plus", 1.7),
                     resistor("R2", "vcc", "0", 1e4)};
    EXPECT_EQ(batteryResistor(circuit), nullptr);  // No battery is named.
    circuit.ports.battery = "id-B1";
    ASSERT_NE(batteryResistor(circuit), nullptr);
    EXPECT_EQ(batteryResistor(circuit)->reference, "R1");
    circuit.parts.push_back(capacitor("C1", "plus", "0", 1e-4));
    EXPECT_EQ(batteryResistor(circuit), nullptr);
    circuit.parts = {source("B1", "plus", "0", 9.0), capacitor("C1", "plus", "0", 1e-4)};
    EXPECT_EQ(batteryResistor(circuit), nullptr);
}

}  // namespace
}  // namespace ohmwright
