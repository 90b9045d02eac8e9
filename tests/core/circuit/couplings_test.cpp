// Which couplings can be at once: the matrix of the factors of windings has no negative eigenvalue, since the energy
// i^T L i / 2 is never negative. For three windings that is 1 + 2 abc - a^2 - b^2 - c^2 >= 0 (its determinant).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/couplings.h"

#include "core/circuit/check.h"

#include "circuits.h"

#include <gmock/gmock.h>

namespace ohmwright {
namespace {

Part coupling(const std::string& reference, const std::string& one, const std::string& other, double factor) {
    Part result = part(PartKind::coupling, reference, {}, factor);
    result.controls = {"id-" + one, "id-" + other};
    return result;
}

Circuit transformer(double ab, double bc, double ac) {
    Circuit circuit;
    circuit.parts = {inductor("L1", "a", "0", 1.0), inductor("L2", "b", "0", 1.0), inductor("L3", "c", "0", 1.0),
                     coupling("K1", "L1", "L2", ab), coupling("K2", "L2", "L3", bc)};
    for (const char* net : {"a", "b", "c"}) {
        circuit.parts.push_back(resistor(std::string("R") + net, net, "0", 1e3));
    }
    if (ac != 0.0) {
        circuit.parts.push_back(coupling("K3", "L1", "L3", ac));
    }
    return circuit;
}

TEST(Couplings, ThreeWindingsThatCanBe) {
    EXPECT_TRUE(faultsOfCouplings(transformer(0.9, 0.9, 0.9)).empty());
    EXPECT_TRUE(faultsOfCouplings(transformer(0.7, 0.7, 0.0)).empty());    // 1 - 0.98 > 0
    EXPECT_TRUE(faultsOfCouplings(transformer(1.0, 1.0, 1.0)).empty());    // An ideal transformer.
    EXPECT_TRUE(faultsOfCouplings(transformer(1.0, -1.0, -1.0)).empty());  // One of them wound the other way.
}

TEST(Couplings, ThreeWindingsThatCannotBe) {
    for (const Circuit& circuit :
         {transformer(0.8, 0.8, 0.0), transformer(0.9, 0.9, -0.9), transformer(1.0, 1.0, -1.0)}) {
        const auto faults = faultsOfCouplings(circuit);
        ASSERT_EQ(faults.size(), 1U);
        EXPECT_EQ(circuit.parts[faults[0].part].kind, PartKind::coupling);
        EXPECT_THAT(faults[0].sentence("K1"), testing::HasSubstr("cannot be at once"));
    }
}

// A job could hold what the netlist reader refused: then there were currents of negative energy, and no answer.
TEST(Couplings, TheCheckOfACircuitHasThem) {
    const Result<void> refused = requireSolvable(transformer(0.8, 0.8, 0.0));
    ASSERT_FALSE(refused.hasValue());
    EXPECT_EQ(refused.error().where, "K2");
    EXPECT_TRUE(requireSolvable(transformer(0.7, 0.7, 0.0)).hasValue());
}

TEST(Couplings, APairIsCoupledOnce) {
    Circuit circuit = transformer(0.5, 0.5, 0.0);
    circuit.parts.push_back(coupling("K9", "L2", "L1", 0.4));
    const auto faults = faultsOfCouplings(circuit);
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_EQ(circuit.parts[faults[0].part].reference, "K9");
    EXPECT_EQ(faults[0].sentence("K2"), "K2 couples L2 and L1 a second time: delete one of the couplings.");
}

TEST(Couplings, WhatNamesNoTwoInductorsIsPassedOver) {
    Circuit circuit = transformer(0.5, 0.5, 0.0);
    circuit.parts.push_back(coupling("K8", "L1", "L1", 0.4));
    circuit.parts.push_back(coupling("K9", "L1", "Ra", 0.4));
    EXPECT_TRUE(faultsOfCouplings(circuit).empty());
}

}  // namespace
}  // namespace ohmwright
