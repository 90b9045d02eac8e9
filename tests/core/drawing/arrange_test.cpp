// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/arrange.h"

#include "core/drawing/legibility.h"
#include "core/drawing/rejoin.h"
#include "tests/support/undrawn_circuits.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

TEST(Arrange, EveryDrawingKeepsTheRulesOfADrawing) {
    for (const UndrawnCircuit& undrawn : undrawnCircuits()) {
        const Circuit drawn = arrange(undrawn.circuit);
        const Legibility read = legibilityOf(drawn);
        EXPECT_TRUE(read.isSound()) << undrawn.name << ": " << read.worst;
        for (const Part& part : drawn.parts) {
            EXPECT_TRUE(part.placement || part.id == drawn.ports.load) << undrawn.name << ": " << part.reference;
        }
    }
}

TEST(Arrange, TheNetsOfTheDrawingAreThoseOfTheNetlist) {
    for (const UndrawnCircuit& undrawn : undrawnCircuits()) {
        const Circuit drawn = arrange(undrawn.circuit);
        const Rejoined rejoined = rejoin(drawn);
        ASSERT_EQ(rejoined.circuit.parts.size(), undrawn.circuit.parts.size());
        for (std::size_t i = 0; i < undrawn.circuit.parts.size(); ++i) {
            EXPECT_EQ(rejoined.circuit.parts[i].nets, undrawn.circuit.parts[i].nets)
                << undrawn.name << ": " << undrawn.circuit.parts[i].reference;
        }
    }
}

}  // namespace
}  // namespace ohmwright::test
