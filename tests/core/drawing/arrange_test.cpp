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

TEST(Arrange, ChosenPartsAreLaidOutAnewAndTheRestStands) {
    for (const std::filesystem::path& path : demoJobPaths()) {
        const Circuit before = jobIn(path).stock;
        Chance chance(11);
        std::vector<PartId> chosen;
        for (const Part& part : before.parts) {
            if (part.placement && chance.below(4) == 0) {
                chosen.push_back(part.id);
            }
        }
        const Circuit after = arrange(before, chosen);
        const Legibility read = legibilityOf(after);
        EXPECT_TRUE(read.isSound()) << path << ": " << read.worst;
        const Rejoined rejoined = rejoin(after);
        const Part* standing = nullptr;
        for (std::size_t i = 0; i < before.parts.size(); ++i) {
            const Part& part = before.parts[i];
            EXPECT_EQ(rejoined.circuit.parts[i].nets, part.nets) << path << ": " << part.reference;
            const bool isChosen = std::find(chosen.begin(), chosen.end(), part.id) != chosen.end();
            EXPECT_EQ(after.parts[i].placement.has_value(), part.placement.has_value()) << part.reference;
            if (isChosen || !part.placement) {
                continue;
            }
            // The sheet may have grown to the left or upwards: all that stands moved by the same steps.
            standing = standing == nullptr ? &part : standing;
            const Part* first = findPart(after, standing->id);
            EXPECT_EQ(after.parts[i].placement->at.x - part.placement->at.x,
                      first->placement->at.x - standing->placement->at.x)
                << part.reference;
            EXPECT_EQ(after.parts[i].placement->at.y - part.placement->at.y,
                      first->placement->at.y - standing->placement->at.y)
                << part.reference;
        }
    }
}

}  // namespace
}  // namespace ohmwright::test
