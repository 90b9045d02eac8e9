// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/arrange.h"

#include "core/drawing/legibility.h"
#include "core/drawing/outline.h"
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

/// Meshes as no draughtsman gets them: every net with every other.
TEST(Arrange, MeshesOfChanceAreDrawnWithoutAFault) {
    for (unsigned seed = 0; seed < 150; ++seed) {
        Chance chance(seed);
        const Circuit circuit = randomPassiveNetwork(chance).circuit();
        const Circuit drawn = arrange(circuit);
        const Legibility read = legibilityOf(drawn);
        EXPECT_TRUE(read.isSound()) << seed << ": " << read.worst;
        const Rejoined rejoined = rejoin(drawn);
        for (std::size_t i = 0; i < circuit.parts.size(); ++i) {
            EXPECT_EQ(rejoined.circuit.parts[i].nets, circuit.parts[i].nets) << seed << ": " << circuit.parts[i].id;
        }
    }
}

TEST(Arrange, TheSameCircuitGivesTheSameDrawing) {
    for (const UndrawnCircuit& undrawn : demosWithoutDrawing()) {
        const Circuit once = arrange(undrawn.circuit);
        EXPECT_EQ(arrange(once), once) << undrawn.name;
    }
}

TEST(Arrange, ACircuitOfNothingOrOfOnePartIsDrawn) {
    EXPECT_TRUE(arrange(Circuit{}).drawing.wires.empty());
    Circuit one;
    addPart(one, PartKind::resistor, "R1", {"a", "a"}, 1e3);  // both ends on one net
    addPart(one, PartKind::resistor, "R2", {"0", "0"}, 1e3);
    addPart(one, PartKind::opamp, "U1", {"x", "x", "x", "x", "x"});
    addPart(one, PartKind::potentiometer, "P1", {"w", "w", "w"}, 1e3);
    const Circuit drawn = arrange(one);
    for (const Part& part : drawn.parts) {
        EXPECT_TRUE(part.placement) << part.id;
    }
    EXPECT_TRUE(legibilityOf(drawn).isSound()) << legibilityOf(drawn).worst;
}

/// With the output at the right of the source, and every net's supply above its ground.
TEST(Arrange, TheSignalRunsFromLeftToRightAndSuppliesStandAboveGround) {
    for (const UndrawnCircuit& undrawn : demosWithoutDrawing()) {
        const Circuit drawn = arrange(undrawn.circuit);
        const Part* source = findPart(drawn, drawn.ports.source);
        const int sourceX = source->placement->at.x;
        for (const Flag& flag : drawn.drawing.flags) {
            if (flag.kind == FlagKind::terminal) {
                EXPECT_GT(flag.at.x, sourceX) << undrawn.name;
            }
        }
        for (std::size_t i = 1; i < drawn.stages.size(); ++i) {
            EXPECT_GT(drawn.stages[i].firstColumn, drawn.stages[i - 1].firstColumn) << undrawn.name;
            EXPECT_EQ(drawn.stages[i].input, drawn.stages[i - 1].output) << undrawn.name;
        }
        for (const Part& part : drawn.parts) {
            const bool hangs = part.placement && pinCount(part.kind) == 2 && part.nets[1] == groundNet;
            if (hangs && isUpright(*part.placement)) {
                EXPECT_LT(pinPoint(part, 0).y, pinPoint(part, 1).y) << undrawn.name << ": " << part.reference;
            }
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
