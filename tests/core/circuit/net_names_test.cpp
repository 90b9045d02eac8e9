// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/net_names.h"

#include "tests/core/circuit/circuits.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(NetNames, AreOneWord) {
    for (const char* good : {"0", "n1", "vcc", "+9V", "a_b", "out-2", "½"}) {
        EXPECT_EQ(netNameFault(good), "") << good;
    }
    // Each would end a name, a list or a formula in a netlist or a table.
    for (const char* bad : {"", "a b", "a,b", "a;", "v(a)", "a=1", "a*b", "{a}", "\"a\"", "it's", "a\tb"}) {
        EXPECT_NE(netNameFault(bad), "") << bad;
    }
}

TEST(NetNames, ANameThatTheCircuitHasIsTakenAsItIs) {
    Circuit circuit;
    circuit.parts = {resistor("R1", "old net", "0", 1e3)};
    EXPECT_EQ(newNetFault(circuit, "old net"), "");
    EXPECT_NE(newNetFault(circuit, "new net"), "");
    EXPECT_EQ(newNetFault(circuit, "new"), "");
    circuit.parts[0].nets[1] = "";
    EXPECT_NE(newNetFault(circuit, ""), "");
}

}  // namespace
}  // namespace ohmwright
