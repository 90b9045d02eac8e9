// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/arrange.h"

#include "core/drawing/legibility.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/files/netlist.h"
#include "tests/support/drawn_joints.h"
#include "tests/support/undrawn_circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

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
        for (const std::string& fault : jointFaults(drawn)) {
            ADD_FAILURE() << undrawn.name << ": " << fault;
        }
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

// The capacitor beside a source resistor stood on the line of the next stage, and its words on nothing at all.
TEST(Arrange, ABorderOfStagesRunsThroughNoPart) {
    for (const UndrawnCircuit& undrawn : undrawnCircuits()) {
        const Circuit drawn = arrange(undrawn.circuit);
        for (const Stage& stage : drawn.stages) {
            for (const PartId& id : stage.parts) {
                const GridBox body = bodyBox(*findPart(drawn, id));
                for (const Stage& other : drawn.stages) {
                    const bool isAcross = body.left < other.firstColumn && other.firstColumn < body.right;
                    EXPECT_FALSE(isAcross && other.firstColumn > 0) << undrawn.name << ": " << id;
                }
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

/// A transistor stage into two diodes and a capacitor to ground, written out and drawn by the house.
Circuit clippingDriver() {
    constexpr std::string_view text = R"(* two stage driver
V1 in 0 DC 0 AC 0.1
VCC vcc 0 9
C1 in b1 100n
R1 vcc b1 1Meg
R2 b1 0 150k
Q1 c1 b1 e1 Q2N3904
R3 vcc c1 10k
R4 e1 0 1k
C2 e1 0 10u
C3 c1 t1 220n
R5 t1 t2 4.7k
D1 t2 0 D1N4148
D2 0 t2 D1N4148
C4 t2 0 10n
C5 t2 out 100n
R6 out 0 100k
.model Q2N3904 NPN(IS=6.7f BF=300 VAF=74)
.model D1N4148 D(IS=2.52n RS=0.568 N=1.752)
.end
)";
    Result<Netlist> netlist = readNetlist(text);
    if (!netlist || !choosePorts(*netlist, {}, {})) {
        ADD_FAILURE() << "the netlist is not read";
        return {};
    }
    return arrange(netlist->circuit);
}

int shownCost(const Legibility& read) {
    return read.bends + read.crossings + read.wireLength;
}

// A newcomer dragged C4 down, boxed it with its neighbours and asked for tidiness: D1 and C4 hung on long legs after.
TEST(Arrange, TidyIsNeverWorseThanBefore) {
    const Circuit drawn = clippingDriver();
    const auto idOf = [&drawn](const char* reference) { return findPartByReference(drawn, reference)->id; };
    const std::vector<PartId> chosen{idOf("R5"), idOf("D1"), idOf("D2"), idOf("C4")};
    const Legibility before = legibilityOf(drawn);
    const Legibility untouched = legibilityOf(arrange(drawn, {idOf("D1"), idOf("D2"), idOf("C4")}));
    EXPECT_LE(untouched.bends + untouched.crossings, before.bends + before.crossings);
    EXPECT_LE(shownCost(untouched), shownCost(before));

    const EditResult dragged = move(drawn, {{idOf("C4")}, {}, {}}, {0, 3});
    ASSERT_TRUE(dragged) << dragged.error().message;
    const Circuit tidied = arrange(dragged->circuit, chosen);
    const Legibility after = legibilityOf(tidied);
    EXPECT_TRUE(after.isSound()) << after.worst;
    EXPECT_LE(shownCost(after), shownCost(legibilityOf(dragged->circuit)));
    EXPECT_LE(after.bends + after.crossings, before.bends + before.crossings) << "as good as it was drawn at first";
    EXPECT_EQ(arrange(tidied, chosen), tidied) << "tidy already";
}

TEST(Arrange, WhatIsTidyStaysByItself) {
    for (const std::filesystem::path& path : demoJobPaths()) {
        const Circuit drawn = jobIn(path).stock;
        const Legibility before = legibilityOf(drawn);
        for (const Part& part : drawn.parts) {
            if (part.placement) {
                const Legibility after = legibilityOf(arrange(drawn, {part.id}));
                EXPECT_LE(after.bends + after.crossings, before.bends + before.crossings) << path << ": " << part.id;
                EXPECT_LE(shownCost(after), shownCost(before)) << path << ": " << part.id;
            }
        }
    }
}

/// Four parts between the same two nets, all over the sheet.
TEST(Arrange, PartsBetweenTheSameTwoNetsBecomeALadder) {
    Circuit circuit;
    const auto add = [&circuit](const char* id, PartKind kind, GridPoint at, std::vector<NetName> nets) {
        Part part;
        part.id = part.reference = id;
        part.kind = kind;
        part.value = 1000.0;
        part.placement = Placement{at, 0, false, 3, LabelSide::automatic};
        part.nets = std::move(nets);
        circuit.parts.push_back(part);
    };
    add("R1", PartKind::resistor, {2, 6}, {"a", "b"});
    add("R2", PartKind::resistor, {20, 6}, {"c", "d"});
    add("D1", PartKind::diode, {10, 2}, {"b", "c"});
    add("D2", PartKind::diode, {12, 20}, {"c", "b"});
    add("C1", PartKind::capacitor, {26, 14}, {"b", "c"});
    circuit.drawing.size = {40, 26};
    circuit.drawing.wires = {{"b", {{5, 6}, {8, 6}, {8, 2}, {10, 2}}},
                             {"c", {{13, 2}, {18, 2}, {18, 6}, {20, 6}}},
                             {"c", {{12, 20}, {9, 20}, {9, 23}, {18, 23}, {18, 6}}},
                             {"b", {{15, 20}, {17, 20}, {17, 17}, {5, 17}, {5, 6}}},
                             {"b", {{26, 14}, {16, 14}, {16, 17}}},
                             {"c", {{29, 14}, {31, 14}, {31, 23}, {18, 23}}}};
    const Circuit tidied = arrange(circuit, {"D1", "D2", "C1"});
    EXPECT_TRUE(legibilityOf(tidied).isSound()) << legibilityOf(tidied).worst;
    std::set<int> rows;
    std::set<int> lefts;
    for (const char* id : {"D1", "D2", "C1"}) {
        const Part& part = *findPart(tidied, id);
        EXPECT_FALSE(isUpright(*part.placement)) << id;
        rows.insert(pinPoint(part, 0).y);
        lefts.insert(std::min(pinPoint(part, 0).x, pinPoint(part, 1).x));
    }
    EXPECT_EQ(rows.size(), 3U);
    EXPECT_EQ(*rows.rbegin() - *rows.begin(), 6) << "three steps from rung to rung";
    EXPECT_EQ(lefts.size(), 1U);
    EXPECT_LT(legibilityOf(tidied).bends, legibilityOf(circuit).bends);
}

TEST(Arrange, StagesStayWithoutASource) {
    // A rail and its load, drawn by hand, lost both stages.
    Circuit circuit = clippingDriver();
    circuit.ports.source.clear();
    circuit.stages = {{"Rail", {}, {}, {}, 0}, {"Load", {}, {}, {}, 20}};
    for (const Part& part : circuit.parts) {
        circuit.stages[part.reference == "R6" ? 1 : 0].parts.push_back(part.id);
    }
    const Circuit drawn = arrange(circuit);
    ASSERT_FALSE(drawn.stages.empty());
    EXPECT_EQ(drawn.stages.front().name, "Rail");
}

TEST(Arrange, AStageKeepsItsNameByItsPartsNotByItsOutput) {
    // Harbour Lamp: the op-amp that clips became "Low-pass", the level stage a second buffer.
    const Circuit byHand = jobIn(harbourLampPath()).stock;
    const Circuit drawn = arrange(byHand);
    const auto nameOfStage = [](const Circuit& circuit, const char* part) {
        const Stage* stage = stageOfPart(circuit, part);
        return stage == nullptr ? std::string() : stage->name;
    };
    EXPECT_EQ(nameOfStage(drawn, "u1a"), "Clip stage");
    EXPECT_EQ(nameOfStage(drawn, "q1"), "Input buffer");
    std::set<std::string> names;
    for (const Stage& stage : drawn.stages) {
        EXPECT_TRUE(names.insert(stage.name).second) << stage.name;
    }
}

}  // namespace
}  // namespace ohmwright::test
