// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/take_piece.h"

#include "core/circuit/check.h"
#include "core/files/stage_shelf.h"
#include "tests/support/demo_job.h"
#include "tests/support/drawing_rules.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

Circuit demo(const char* name) {
    return jobIn(demoJobPath(name)).stock;
}

std::vector<PartId> ids(const Circuit& circuit, const std::vector<std::string>& references) {
    std::vector<PartId> found;
    for (const std::string& reference : references) {
        const Part* part = findPartByReference(circuit, reference);
        if (part == nullptr) {
            ADD_FAILURE() << reference;
        } else {
            found.push_back(part->id);
        }
    }
    return found;
}

/// Every piece can be joined, and its drawing keeps the rules.
void expectSound(const Circuit& piece) {
    const Result<void> sound = checkPiece(piece);
    EXPECT_TRUE(sound) << sound.error().message;
    for (const std::string& fault : drawingFaults(piece)) {
        ADD_FAILURE() << fault;
    }
    for (const Part& part : piece.parts) {
        EXPECT_TRUE(part.printed.empty() && part.boardNote.empty() && !part.measured) << part.reference;
        EXPECT_EQ(part.knowledge, Knowledge::drawn) << part.reference;
    }
    const Result<Circuit> unit = joinUnit(std::vector<StagePiece>{{"own", "", piece}});
    ASSERT_TRUE(unit) << unit.error().message;
    for (const std::string& fault : drawingFaults(*unit)) {
        ADD_FAILURE() << fault;
    }
}

TEST(TakePiece, TheClipStageOfADemoBecomesAPiece) {
    const Circuit circuit = demo("harbour-lamp");
    const std::size_t clip = 2;
    ASSERT_EQ(circuit.stages[clip].name, "Clip stage");
    const auto piece = takePiece(circuit, partsToKeep(circuit, clip), "Lamp clip");
    ASSERT_TRUE(piece) << piece.error().message;
    expectSound(*piece);
    ASSERT_EQ(piece->stages.size(), 1U);
    EXPECT_EQ(piece->stages[0].name, "Lamp clip");
    EXPECT_EQ(piece->stages[0].input, "ip");
    EXPECT_EQ(piece->stages[0].output, "o1");
    EXPECT_EQ(piece->ports.clipNode, "o1");
    EXPECT_EQ(piece->parts.size(), circuit.stages[clip].parts.size());
    ASSERT_EQ(piece->knobs.size(), 1U);
    EXPECT_EQ(piece->knobs[0].id, "drive");
    EXPECT_TRUE(usesNet(*piece, supplyRail));
    EXPECT_EQ(piece->models.size(), 2U);  // the op-amp and the diode
}

// Property: whatever zone of whatever demo is kept, it is a sound piece or is refused with a sentence; most are kept.
TEST(TakePiece, EveryZoneOfEveryDemoIsKeptOrRefusedInWords) {
    int kept = 0;
    int refused = 0;
    for (const auto& path : demoJobPaths()) {
        const Circuit circuit = jobIn(path).stock;
        for (std::size_t stage = 1; stage < circuit.stages.size(); ++stage) {
            SCOPED_TRACE(path.stem().string() + ", " + circuit.stages[stage].name);
            const auto piece = takePiece(circuit, partsToKeep(circuit, stage), "Own");
            if (piece) {
                expectSound(*piece);
                ++kept;
            } else {
                EXPECT_EQ(piece.error().code, ErrorCode::invalidInput);
                EXPECT_EQ(piece.error().message.back(), '.') << piece.error().message;
                ++refused;
            }
        }
    }
    EXPECT_GE(kept, 12);
    EXPECT_LE(refused, 3) << "two halves of one feedback pair are no stage each";
}

// Property: a piece that was joined and is taken out again is the same electrically.
TEST(TakePiece, AHousePieceComesBackOutOfAUnit) {
    for (const ShelfStage& stage : stagesToChoose({})) {
        SCOPED_TRACE(stage.id);
        const Result<Circuit> unit = joinUnit(std::vector<StagePiece>{houseStage("buffer"), *stage.piece});
        if (!unit) {
            continue;  // a valve does not follow a battery's buffer
        }
        std::vector<PartId> parts;
        for (std::size_t zone = 2; zone + 1 < unit->stages.size(); ++zone) {
            const std::vector<PartId> own = partsToKeep(*unit, zone);
            parts.insert(parts.end(), own.begin(), own.end());
        }
        const auto piece = takePiece(*unit, parts, stage.piece->name);
        ASSERT_TRUE(piece) << piece.error().message;
        expectSound(*piece);
        ASSERT_EQ(piece->parts.size(), stage.piece->circuit.parts.size());
        for (std::size_t i = 0; i < parts.size(); ++i) {
            EXPECT_EQ(piece->parts[i].value, stage.piece->circuit.parts[i].value);
            EXPECT_EQ(piece->parts[i].kind, stage.piece->circuit.parts[i].kind);
        }
        EXPECT_EQ(piece->knobs.size(), stage.piece->circuit.knobs.size());
    }
}

TEST(TakePiece, RailsAreFoundWhateverTheyAreCalled) {
    Circuit circuit = demo("harbour-lamp");
    const auto rename = [](NetName& net) { net = net == "vcc" ? "plus9" : net == "vb" ? "mid" : net; };
    for (Part& part : circuit.parts) {
        std::for_each(part.nets.begin(), part.nets.end(), rename);
    }
    for (Wire& wire : circuit.drawing.wires) {
        rename(wire.net);
    }
    for (Flag& flag : circuit.drawing.flags) {
        rename(flag.net);
    }
    const std::vector<PartId> buffer = partsToKeep(circuit, 1);
    const auto ends = findEnds(circuit, buffer);
    ASSERT_TRUE(ends) << ends.error().message;
    EXPECT_EQ(ends->supply, "plus9");
    EXPECT_EQ(ends->half, "mid");
    EXPECT_EQ(ends->input, "in");
    EXPECT_EQ(ends->output, "ip");
    const auto piece = takePiece(circuit, buffer, "Own");
    ASSERT_TRUE(piece) << piece.error().message;
    expectSound(*piece);
    EXPECT_FALSE(usesNet(*piece, "plus9"));
    EXPECT_TRUE(usesNet(*piece, "vcc"));
    EXPECT_TRUE(usesNet(*piece, "vb"));
}

TEST(TakePiece, TheCallerNamesTheEnds) {
    const Circuit circuit = demo("harbour-lamp");
    // The low-pass the other way round: a resistor behind a capacitor to ground.
    const auto piece = takePiece(circuit, partsToKeep(circuit, 3), "Turned", {"lp", "o1", {}, {}, {}});
    ASSERT_TRUE(piece) << piece.error().message;
    EXPECT_EQ(piece->stages[0].input, "lp");
    EXPECT_EQ(piece->stages[0].output, "o1");
    expectSound(*piece);
}

TEST(TakePiece, WhatIsNoStageIsRefusedInWords) {
    const Circuit circuit = demo("harbour-lamp");
    const auto refusal = [&](const std::vector<PartId>& parts, const PieceEnds& ends = {}, const char* name = "Own") {
        const auto piece = takePiece(circuit, parts, name, ends);
        return piece ? std::string("taken") : piece.error().message;
    };
    EXPECT_EQ(refusal({}), "No part is chosen. Choose those of the stage.");
    EXPECT_EQ(refusal({"nobody"}), "There is no part nobody in this circuit. Choose others.");
    EXPECT_EQ(refusal(partsToKeep(circuit, 2), {}, ""), "The stage has no name: give it one.");
    EXPECT_NE(refusal(ids(circuit, {"VSIG"})).find("VSIG is one of the unit's ends"), std::string::npos);
    // The gain leg alone hangs on one net.
    EXPECT_NE(refusal(ids(circuit, {"C4", "R5"})).find("Only im leads out"), std::string::npos);
    EXPECT_NE(refusal(ids(circuit, {"C10"})).find("carry no signal"), std::string::npos);
    // The op-amp with its inverting pin cut off its feedback has three.
    EXPECT_NE(refusal(ids(circuit, {"U1A"})).find("3 nets of the rest: ip, im, o1"), std::string::npos);
    EXPECT_NE(
        refusal(partsToKeep(circuit, 2), {"elsewhere", {}, {}, {}, {}}).find("No chosen part stands at elsewhere"),
        std::string::npos);
    Circuit undrawn = circuit;
    undrawn.parts[8].placement.reset();
    const auto piece = takePiece(undrawn, {{undrawn.parts[8].id}}, "Own",
                                 {undrawn.parts[8].nets[0], undrawn.parts[8].nets[1], {}, {}, {}});
    ASSERT_FALSE(piece);
    EXPECT_NE(piece.error().message.find("has no place on the drawing"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright::test
