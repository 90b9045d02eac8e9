// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/join.h"

#include "core/circuit/check.h"
#include "core/files/stage_shelf.h"
#include "tests/support/drawing_rules.h"

#include <gtest/gtest.h>

#include <map>
#include <random>
#include <set>

namespace ohmwright::test {
namespace {

Circuit piece(std::string_view id) {
    return houseStage(id).circuit;
}

std::vector<Circuit> chain(const std::vector<std::string>& stages, const char* supply = "supply-half") {
    std::vector<Circuit> pieces{piece("source")};
    for (const std::string& stage : stages) {
        pieces.push_back(piece(stage));
    }
    pieces.push_back(piece("output"));
    pieces.push_back(piece(supply));
    return pieces;
}

Circuit joined(const std::vector<Circuit>& pieces) {
    const Result<Circuit> circuit = joinStages(pieces);
    if (!circuit) {
        ADD_FAILURE() << circuit.error().message;
        return {};
    }
    return *circuit;
}

std::string refusal(const std::vector<Circuit>& pieces) {
    const Result<Circuit> circuit = joinStages(pieces);
    return circuit ? "taken" : circuit.error().message;
}

std::vector<std::string> stageIds() {
    std::vector<std::string> ids;
    for (const ShelfStage& stage : stagesToChoose({})) {
        ids.push_back(stage.id);
    }
    return ids;
}

bool worksOnHighVoltage(const std::string& id) {
    return usesNet(piece(id), highRail);
}

/// The supply that these stages want; none for a mixture that cannot be.
const char* supplyOf(const std::vector<std::string>& stages) {
    const auto uses = [&stages](std::string_view rail) {
        return std::any_of(stages.begin(), stages.end(),
                           [rail](const std::string& id) { return usesNet(piece(id), rail); });
    };
    const bool isLow = uses(supplyRail) || uses(halfRail);
    if (uses(highRail)) {
        return isLow ? nullptr : "supply-250v";
    }
    return "supply-half";
}

/// Every rule that a job's circuit keeps.
void expectWellFormed(const Circuit& circuit, const std::string& what) {
    SCOPED_TRACE(what);
    for (const Fault& fault : checkCircuit(circuit)) {
        ADD_FAILURE() << fault.message;
    }
    for (const std::string& fault : drawingFaults(circuit)) {
        ADD_FAILURE() << fault;
    }
    std::set<std::string> ids;
    std::set<std::string> references;
    std::set<std::string> knobs;
    std::set<std::string> stages;
    std::set<std::string> models;
    for (const Part& part : circuit.parts) {
        EXPECT_TRUE(ids.insert(part.id).second) << part.id;
        EXPECT_TRUE(references.insert(part.reference).second) << part.reference;
    }
    for (const Knob& knob : circuit.knobs) {
        EXPECT_TRUE(knobs.insert(knob.id).second) << knob.id;
        EXPECT_TRUE(knobs.insert(knob.name).second) << knob.name;
    }
    for (const Stage& stage : circuit.stages) {
        EXPECT_TRUE(stages.insert(stage.name).second) << stage.name;
    }
    for (const Model& model : circuit.models) {
        EXPECT_TRUE(models.insert(model.name).second) << model.name;
    }
    const double shape = double(circuit.drawing.size.x) / circuit.drawing.size.y;
    EXPECT_GT(shape, 2.8);
    EXPECT_LT(shape, 3.4);
}

// ---- What is joined ------------------------------------------------------------------------------------------

TEST(Join, AnOutputAndTheNextInputAreOneNet) {
    const Circuit circuit = joined(chain({"one-transistor", "level"}));
    ASSERT_EQ(circuit.stages.size(), 4U);
    for (std::size_t i = 1; i < circuit.stages.size(); ++i) {
        EXPECT_EQ(circuit.stages[i].input, circuit.stages[i - 1].output);
    }
    EXPECT_EQ(circuit.stages[0].output, "in");
    EXPECT_EQ(circuit.ports.jack, "in");
    EXPECT_EQ(circuit.ports.output, "out");
    EXPECT_EQ(findPart(circuit, circuit.ports.battery)->reference, "VBAT");
    EXPECT_EQ(findPart(circuit, circuit.ports.load)->reference, "RLOAD");
    EXPECT_EQ(findPart(circuit, circuit.ports.source)->reference, "VSIG");
}

TEST(Join, PartsKeepTheirValuesAndAreNumberedInSignalOrder) {
    const Circuit circuit = joined(chain({"one-transistor", "one-transistor"}));
    // Each has R1 330k and Q1; the second's are R5 and Q2.
    EXPECT_EQ(findPartByReference(circuit, "R1")->value, 330e3);
    EXPECT_EQ(findPartByReference(circuit, "R5")->value, 330e3);
    EXPECT_EQ(findPartByReference(circuit, "Q2")->id, "q2");
    EXPECT_EQ(findPartByReference(circuit, "Q2")->model, findPartByReference(circuit, "Q1")->model);
    EXPECT_EQ(circuit.models.size(), 1U);
    // Both stages go by one name on the shelf.
    EXPECT_EQ(circuit.stages[1].name, "One transistor");
    EXPECT_EQ(circuit.stages[2].name, "One transistor 2");
}

TEST(Join, KnobsOfOneNameAreNumberedAndTheGuitarStandsLast) {
    const Circuit circuit = joined(chain({"level", "level"}));
    ASSERT_EQ(circuit.knobs.size(), 3U);
    EXPECT_EQ(circuit.knobs[0].id, "level");
    EXPECT_EQ(circuit.knobs[1].id, "level-2");
    EXPECT_EQ(circuit.knobs[1].name, "2nd level");
    EXPECT_EQ(circuit.knobs[2].id, "guitar");
}

TEST(Join, HalvesOfADualOpAmpShareABodyAndASpareOneTakesItsCurrent) {
    const Circuit three = joined(chain({"soft-clip", "recovery", "hard-clip"}));
    ASSERT_NE(findPartByReference(three, "U1A"), nullptr);
    ASSERT_NE(findPartByReference(three, "U1B"), nullptr);
    ASSERT_NE(findPartByReference(three, "U2A"), nullptr);
    // Pins of the common dual op-amp in eight legs, from memory of data sheets.
    EXPECT_EQ(findPartByReference(three, "U1A")->pins, (std::vector<std::string>{"3", "2", "1", "8", "4"}));
    EXPECT_EQ(findPartByReference(three, "U1B")->pins, (std::vector<std::string>{"5", "6", "7", "8", "4"}));
    const Part* spare = findPartByReference(three, "IU2B");
    ASSERT_NE(spare, nullptr);
    EXPECT_EQ(spare->value, 1.4e-3);  // the TL072's IQ, as the type in the pieces states it
    EXPECT_EQ(spare->nets, (std::vector<NetName>{"vcc", "0"}));
    EXPECT_EQ(findPartByReference(three, "IU1B"), nullptr);
    EXPECT_EQ(three.drawing.fields.back().note, "U1, U2 pin 8: 9 V, pin 4: ground");
    EXPECT_EQ(findPartByReference(joined(chain({"soft-clip", "recovery"})), "IU1B"), nullptr);
}

TEST(Join, ATypeOfOneNameAndOtherFiguresIsKeptApart) {
    std::vector<Circuit> pieces = chain({"one-transistor", "one-transistor"});
    pieces[2].models[0].parameters["BF"] = 90.0;
    const Circuit circuit = joined(pieces);
    ASSERT_EQ(circuit.models.size(), 2U);
    EXPECT_EQ(findPartByReference(circuit, "Q1")->model, "QN200");
    EXPECT_EQ(findPartByReference(circuit, "Q2")->model, "QN200-2");
    EXPECT_EQ(findModel(circuit, "QN200-2")->parameters.at("BF"), 90.0);
}

TEST(Join, ClippingIsLookedAtWhereTheDiodesAre) {
    // Boost, clipper, recovery: the clipper's op-amp and no other.
    const Circuit circuit = joined(chain({"one-transistor", "soft-clip", "recovery"}));
    const Stage* stage = stageWithOutput(circuit, circuit.ports.clipNode);
    ASSERT_NE(stage, nullptr);
    EXPECT_EQ(stage->name, "Soft clip");
    const Circuit plain = joined(chain({"one-transistor", "jfet", "level"}));
    EXPECT_EQ(stageWithOutput(plain, plain.ports.clipNode)->name, "JFET");
}

TEST(Join, TheFieldOfTheSupplyStandsAtTheLowerLeft) {
    const Circuit circuit = joined(chain({"one-transistor", "level"}, "supply-9v"));
    ASSERT_EQ(circuit.drawing.fields.size(), 1U);
    const Field& field = circuit.drawing.fields.front();
    EXPECT_EQ(field.name, "Supply");
    EXPECT_EQ(field.topLeft.x, 0);
    EXPECT_LE(field.bottomRight.y, circuit.drawing.size.y);
    EXPECT_GE(field.topLeft.y, 9);  // the guitar's nine rows stand over it
}

// ---- What is refused -----------------------------------------------------------------------------------------

TEST(Join, AChainWithoutItsEndsIsRefused) {
    EXPECT_EQ(refusal({piece("level"), piece("output")}), "Nothing feeds the unit. Add a source.");
    EXPECT_EQ(refusal({piece("source"), piece("level")}), "The unit has no output. Add one.");
    EXPECT_EQ(refusal({piece("source"), piece("output")}), "There is no stage to join. Choose one or more.");
    EXPECT_EQ(refusal({piece("source"), piece("source"), piece("level"), piece("output")}),
              "There are two source pieces. Leave one out.");
    EXPECT_EQ(refusal({piece("source"), piece("buffer"), piece("output"), piece("supply-9v")}),
              "“Buffer” needs the half supply Vb. Add a supply that gives it.");
    EXPECT_EQ(refusal({}), "Nothing feeds the unit. Add a source.");
}

TEST(Join, AValveAndABatteryStageAreNotPutOnTwoSupplies) {
    const std::string sentence = refusal(chain({"valve", "soft-clip"}, "supply-250v"));
    EXPECT_NE(sentence.find("“Valve” works on some 250 V and “Soft clip” on 9 V"), std::string::npos) << sentence;
    EXPECT_NE(sentence.find("Leave one of the two out."), std::string::npos) << sentence;
}

TEST(Join, APieceThatIsNoneIsRefusedByName) {
    Circuit undrawn = piece("level");
    undrawn.drawing.wires.clear();
    EXPECT_EQ(refusal(chain({})), "There is no stage to join. Choose one or more.");
    std::vector<Circuit> pieces = chain({"level"});
    pieces[1] = undrawn;
    EXPECT_EQ(refusal(pieces),
              "“Level” cannot be joined: its input is not drawn up to the edge. Draw a wire of it there.");
    pieces[1] = piece("level");
    pieces[1].stages[0].output = pieces[1].stages[0].input;
    EXPECT_NE(refusal(pieces).find("“Level” cannot be joined"), std::string::npos);
    pieces[1] = piece("level");
    pieces[1].parts[0].nets.pop_back();
    EXPECT_NE(refusal(pieces).find("C1 has not one net a pin"), std::string::npos);
    pieces[1] = piece("jfet");
    pieces[1].stages[0].input = "vcc";
    EXPECT_NE(refusal(pieces).find("its input is ground or a supply"), std::string::npos);
    pieces[1] = piece("level");
    pieces[1].parts[0].value = -1.0;
    EXPECT_NE(refusal(pieces).find("C1"), std::string::npos);  // a fault of the joined circuit names the part
}

TEST(Join, TheRulesOfTheDrawingNoticeABrokenOne) {
    Circuit gap = joined(chain({"level"}));
    ASSERT_TRUE(drawingFaults(gap).empty());
    gap.drawing.wires.pop_back();
    EXPECT_FALSE(drawingFaults(gap).empty());
    Circuit over = joined(chain({"level"}));
    for (Part& part : over.parts) {
        if (part.placement) {
            part.placement->at = {1, 6};
        }
    }
    EXPECT_FALSE(drawingFaults(over).empty());
}

/// Two diodes to ground from a resistor, as kept from an own unit: no capacitor at either end.
Circuit diodeShunt() {
    Circuit shunt;
    const auto add = [&shunt](const char* id, PartKind kind, GridPoint at, int turns, std::vector<NetName> nets) {
        Part part;
        part.id = id;
        part.reference = id;
        part.kind = kind;
        part.value = kind == PartKind::resistor ? 4700.0 : 0.0;
        part.model = kind == PartKind::diode ? "1N4148" : "";
        part.nets = std::move(nets);
        part.placement = Placement{at, turns, false, 3, LabelSide::automatic};
        shunt.parts.push_back(part);
    };
    add("R1", PartKind::resistor, {0, 3}, 0, {"in", "t"});
    add("D1", PartKind::diode, {5, 3}, 1, {"t", "0"});
    add("D2", PartKind::diode, {9, 6}, 3, {"0", "t"});
    shunt.models = piece("hard-clip").models;
    shunt.stages = {{"Diode shunt", "in", "t", {"R1", "D1", "D2"}, 0}};
    shunt.drawing.size = {11, 8};
    shunt.drawing.wires = {{"t", {{3, 3}, {5, 3}, {9, 3}, {11, 3}}}};
    shunt.drawing.flags = {{FlagKind::ground, "0", {5, 6}, ""}, {FlagKind::ground, "0", {9, 6}, ""}};
    return shunt;
}

TEST(Join, EndsAtDifferentVoltagesGetACouplingCapacitor) {
    // A collector was joined to a diode pair without a word: the transistor stood at 0.6 V, the unit at -42 dB.
    std::vector<Circuit> pieces = chain({"one-transistor", "level"});
    pieces.insert(pieces.begin() + 2, diodeShunt());
    const Circuit circuit = joined(pieces);
    const Stage* shunt = nullptr;
    for (const Stage& stage : circuit.stages) {
        shunt = stage.name == "Diode shunt" ? &stage : shunt;
    }
    ASSERT_NE(shunt, nullptr);
    const Part& capacitor = *findPart(circuit, shunt->parts.front());
    EXPECT_EQ(capacitor.kind, PartKind::capacitor);
    EXPECT_EQ(capacitor.nets[0], shunt->input);
    EXPECT_NE(capacitor.nets[1], shunt->input);
    EXPECT_NE(capacitor.role.find("Diode shunt stand at different DC voltages"), std::string::npos) << capacitor.role;
    for (const std::string& fault : drawingFaults(circuit)) {
        ADD_FAILURE() << fault;
    }
}

TEST(Join, WhatHasItsOwnCapacitorGetsNoSecondOne) {
    for (const std::string& first : stageIds()) {
        for (const std::string& second : stageIds()) {
            if (const char* supply = supplyOf({first, second})) {
                for (const Part& part : joined(chain({first, second}, supply)).parts) {
                    EXPECT_EQ(part.role.find("put in at joining"), std::string::npos) << first << ", " << second;
                }
            }
        }
    }
}

TEST(Join, TwoStagesOfOneNameInAPieceBecomeTwo) {
    // Kept from an own unit: both became "Mine 2".
    Circuit own = piece("tone-roll");
    own.stages[0].name = "Mine";
    Stage second = own.stages[0];
    second.input = own.stages[0].output;
    second.firstColumn = own.drawing.size.x - 1;
    second.parts.clear();
    own.stages.push_back(second);
    Circuit before = piece("level");
    before.stages[0].name = "Mine";
    std::vector<Circuit> pieces = chain({"level", "tone-roll"});
    pieces[1] = before;
    pieces[2] = own;
    const Circuit circuit = joined(pieces);
    std::set<std::string> names;
    for (const Stage& stage : circuit.stages) {
        EXPECT_TRUE(names.insert(stage.name).second) << stage.name;
    }
    EXPECT_TRUE(names.contains("Mine 3"));
}

// ---- All of them ---------------------------------------------------------------------------------------------

TEST(Join, EveryOrderedPairOfStagesIsWellFormed) {
    int pairs = 0;
    for (const std::string& first : stageIds()) {
        for (const std::string& second : stageIds()) {
            if (const char* supply = supplyOf({first, second})) {
                expectWellFormed(joined(chain({first, second}, supply)), first + ", " + second);
                ++pairs;
            } else {
                EXPECT_TRUE(worksOnHighVoltage(first) || worksOnHighVoltage(second));
                EXPECT_NE(refusal(chain({first, second}, "supply-250v")).find("250 V"), std::string::npos);
            }
        }
    }
    EXPECT_GT(pairs, 100);
}

TEST(Join, TwoHundredRandomChainsAreWellFormed) {
    std::mt19937 random(20261129);
    const std::vector<std::string> ids = stageIds();
    int made = 0;
    while (made < 200) {
        std::vector<std::string> stages;
        std::string what;
        for (std::size_t left = 1 + random() % 6; left > 0; --left) {
            stages.push_back(ids[random() % ids.size()]);
            what.append(stages.back()).append(" ");
        }
        if (const char* supply = supplyOf(stages)) {
            expectWellFormed(joined(chain(stages, supply)), what);
            ++made;
        }
    }
}

}  // namespace
}  // namespace ohmwright::test
