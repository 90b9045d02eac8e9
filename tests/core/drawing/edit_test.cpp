// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/edit.h"

#include "core/circuit/check.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "tests/support/demo_job.h"
#include "tests/support/spoken.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Part resistor(double ohms = 1000.0) {
    Part part;
    part.value = ohms;
    return part;
}

Placement level(GridPoint at, int span = 3) {
    return {at, 0, false, span, LabelSide::automatic};
}

Circuit after(const EditResult& edit) {
    if (!edit) {
        ADD_FAILURE() << edit.error().message;
        return {};
    }
    return edit->circuit;
}

TEST(Edit, APlacedPartGetsAReferenceAnIdAndNets) {
    const Circuit one = after(placePart({}, resistor(), level({2, 2})));
    const Circuit two = after(placePart(one, resistor(), level({2, 5})));
    EXPECT_EQ(two.parts[1].reference, "R2");
    EXPECT_EQ(two.parts[1].id, "r2");
    EXPECT_EQ(
        std::set<NetName>({two.parts[0].nets[0], two.parts[0].nets[1], two.parts[1].nets[0], two.parts[1].nets[1]})
            .size(),
        4U);
}

TEST(Edit, ARefusalIsAskedForWholeInAnotherLanguage) {
    const test::Spoken german(
        {{"%1 stands there already: choose a free place.", "Der Platz ist besetzt: %1"},
         {"Net %1 is another one: join the two with a wire or with supply signs of one name.", "Netz %1 gibt es"}});
    const Circuit one = after(placePart({}, resistor(), level({2, 2})));
    const EditResult refused = placePart(one, resistor(), level({2, 2}));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().message, "Der Platz ist besetzt: R1");
    const EditResult taken = nameNet(one, one.parts[0].nets[0], one.parts[0].nets[1]);
    ASSERT_FALSE(taken);
    EXPECT_EQ(taken.error().message, "Netz " + one.parts[0].nets[1] + " gibt es");
}

TEST(Edit, PinToPinIsJoined) {
    const Circuit one = after(placePart({}, resistor(), level({2, 2})));
    const Circuit two = after(placePart(one, resistor(), level({5, 2})));
    EXPECT_EQ(two.parts[0].nets[1], two.parts[1].nets[0]);
}

TEST(Edit, APartPutOnAWireIsSetIntoIt) {
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    circuit = after(placePart(circuit, resistor(), level({12, 2})));
    circuit = after(drawWire(circuit, {{5, 2}, {12, 2}}));
    circuit = after(placePart(circuit, resistor(), level({7, 2})));
    const Part& middle = circuit.parts[2];
    EXPECT_EQ(middle.nets[0], circuit.parts[0].nets[1]);
    EXPECT_EQ(middle.nets[1], circuit.parts[1].nets[0]);
    EXPECT_NE(middle.nets[0], middle.nets[1]);
    EXPECT_EQ(circuit.drawing.wires.size(), 2U);
}

TEST(Edit, ATakenPlaceIsRefusedWithTheNameOfWhatStandsThere) {
    const Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    const EditResult edit = placePart(circuit, resistor(), level({3, 2}));
    ASSERT_FALSE(edit);
    EXPECT_EQ(edit.error().message, "R1 stands there already: choose a free place.");
    EXPECT_FALSE(placePart(circuit, resistor(), level({-1, 2})));
}

TEST(Edit, APinMayNotStandOnAnotherPartsLead) {
    // It would look joined and would not be.
    const Circuit circuit = after(placePart({}, resistor(), level({2, 2}, 6)));
    EXPECT_FALSE(placePart(circuit, resistor(), {{3, 2}, 1, false, 3, LabelSide::automatic}));
    EXPECT_TRUE(placePart(circuit, resistor(), {{8, 2}, 1, false, 3, LabelSide::automatic})) << "at its end";
    EXPECT_FALSE(placePart(circuit, resistor(), {{5, 1}, 1, false, 3, LabelSide::automatic})) << "across its body";
}

TEST(Edit, AWireGetsItsCornersAndKeepsOffBodies) {
    Circuit circuit = after(placePart({}, resistor(), level({4, 2})));
    const EditResult edit = drawWire(circuit, {{2, 0}, {6, 6}});
    ASSERT_TRUE(edit);
    EXPECT_EQ(edit->circuit.drawing.wires[0].corners, (std::vector<GridPoint>{{2, 0}, {2, 6}, {6, 6}}))
        << "level first would run down through R1";
    const EditResult through = drawWire(circuit, {{5, 0}, {5, 6}});
    ASSERT_FALSE(through);
    EXPECT_EQ(through.error().message, "The wire would run under R1: go round it.");
}

TEST(Edit, RightAngledPointsLoseCornersThatAreNone) {
    EXPECT_EQ(rightAngled({{0, 0}, {2, 0}, {4, 0}, {4, 0}, {4, 3}}), (std::vector<GridPoint>{{0, 0}, {4, 0}, {4, 3}}));
    EXPECT_EQ(rightAngled({{0, 0}, {3, 2}}, false), (std::vector<GridPoint>{{0, 0}, {0, 2}, {3, 2}}));
}

TEST(Edit, ErasingAWirePartsTheNets) {
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    circuit = after(placePart(circuit, resistor(), level({8, 2})));
    circuit = after(drawWire(circuit, {{5, 2}, {8, 2}}));
    EXPECT_EQ(circuit.parts[0].nets[1], circuit.parts[1].nets[0]);
    circuit = after(erase(circuit, {{}, {0}, {}}));
    EXPECT_NE(circuit.parts[0].nets[1], circuit.parts[1].nets[0]);
}

TEST(Edit, ErasingAPotForgetsItsKnob) {
    Part pot;
    pot.kind = PartKind::potentiometer;
    pot.value = 1e5;
    pot.function = "Drive";
    Circuit circuit = after(placePart({}, pot, level({2, 2}, 4)));
    ASSERT_EQ(circuit.knobs.size(), 1U);
    EXPECT_EQ(circuit.knobs[0].id, "drive");
    circuit = after(erase(circuit, {{circuit.parts[0].id}, {}, {}}));
    EXPECT_TRUE(circuit.knobs.empty());
}

TEST(Edit, ASourceAndABatteryBecomeThePorts) {
    Part source;
    source.kind = PartKind::voltageSource;
    source.acAmplitude = 1.0;
    Part battery;
    battery.kind = PartKind::voltageSource;
    battery.value = 9.0;
    Circuit circuit = after(placePart({}, source, level({2, 2})));
    circuit = after(placePart(circuit, battery, level({2, 5})));
    EXPECT_EQ(circuit.ports.source, circuit.parts[0].id);
    EXPECT_EQ(circuit.ports.battery, circuit.parts[1].id);
}

TEST(Edit, AnOpampIsSuppliedByTheBatteryWhenOneComes) {
    Part opamp;
    opamp.kind = PartKind::opamp;
    Circuit circuit = after(placePart({}, opamp, level({2, 2})));
    EXPECT_EQ(circuit.parts[0].nets[4], "0");
    EXPECT_FALSE(circuit.parts[0].nets[3].empty());
    Part battery;
    battery.kind = PartKind::voltageSource;
    battery.value = 9.0;
    circuit = after(placePart(circuit, battery, level({2, 8})));
    EXPECT_EQ(circuit.parts[0].nets[3], circuit.parts[1].nets[0]);
    circuit = after(nameNet(circuit, circuit.parts[1].nets[0], "vcc"));
    EXPECT_EQ(circuit.parts[0].nets[3], "vcc");
}

TEST(Edit, AnOutputJackMakesItsNetTheOutput) {
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    circuit = after(placeFlag(circuit, {FlagKind::terminal, {}, {5, 2}, "out"}));
    EXPECT_EQ(circuit.ports.output, circuit.parts[0].nets[1]);
    EXPECT_EQ(circuit.ports.clipNode, circuit.ports.output);
    EXPECT_FALSE(placeFlag(circuit, {FlagKind::terminal, {}, {5, 2}, "out"}));
    EXPECT_FALSE(placeFlag(circuit, {FlagKind::supply, {}, {2, 2}, ""})) << "a sign without a name";
}

TEST(Edit, ANamedNetIsNamedEverywhere) {
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    Part law;
    law.kind = PartKind::behaviouralVoltage;
    law.law = "2*v(" + circuit.parts[0].nets[0] + ")";
    circuit = after(placePart(circuit, law, level({2, 6})));
    circuit = after(nameNet(circuit, circuit.parts[0].nets[0], "grid"));
    EXPECT_EQ(circuit.parts[0].nets[0], "grid");
    EXPECT_EQ(circuit.parts[1].law, "2*v(grid)");
    EXPECT_FALSE(nameNet(circuit, "grid", circuit.parts[0].nets[1])) << "another net's name";
    EXPECT_FALSE(nameNet(circuit, "grid", "two words"));
    EXPECT_FALSE(nameNet(circuit, "0", "earth"));
}

TEST(Edit, ACopyKeepsItsOwnJointsAndTakesNewNames) {
    const Circuit demo = test::jobIn(test::harbourLampPath()).stock;
    Picked all;
    for (const Part& part : demo.parts) {
        if (part.placement) {
            all.parts.push_back(part.id);
        }
    }
    all = withInnerWires(demo, all);
    EXPECT_EQ(all.wires.size(), demo.drawing.wires.size());
    const Circuit copy = copyOf(demo, all);
    const EditResult edit = paste(demo, copy, {0, demo.drawing.size.y + 4});
    ASSERT_TRUE(edit) << edit.error().message;
    std::set<PartId> ids;
    std::set<std::string> references;
    for (const Part& part : edit->circuit.parts) {
        EXPECT_TRUE(ids.insert(part.id).second) << part.id;
        EXPECT_TRUE(references.insert(part.reference).second) << part.reference;
    }
    EXPECT_EQ(rejoin(edit->circuit).circuit, edit->circuit);
    EXPECT_EQ(edit->circuit.models, demo.models);
    // What hangs on signs (supply, ground) is one net with the original; the rest has nets of its own.
    const std::size_t half = demo.parts.size();
    for (std::size_t i = 0; i < copy.parts.size(); ++i) {
        const Part& original = copy.parts[i];
        const Part& pasted = edit->circuit.parts[half + i];
        EXPECT_EQ(pasted.value, original.value);
        EXPECT_EQ(pasted.nets[0] == pasted.nets[1], original.nets[0] == original.nets[1]);
    }
}

TEST(Edit, ADescriptionIsHeldToTheBenchsLimits) {
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    Part part = circuit.parts[0];
    part.value = 4700.0;
    part.function = "Rg";
    const Result<Circuit> described = describePart(circuit, part);
    ASSERT_TRUE(described);
    EXPECT_EQ(described->parts[0].value, 4700.0);
    part.value = 0.0;
    EXPECT_EQ(describePart(circuit, part).error().message, "R1 Rg must be 0.01 Ω to 100 GΩ.");
    part.value = 1.0;
    part.reference.clear();
    EXPECT_FALSE(describePart(circuit, part));
}

TEST(Edit, AReferenceIsOnePartsOnly) {
    // R1 was called R2 where there was one: steps at the bench spoke of the wrong part, and a netlist renamed one.
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    circuit = after(placePart(circuit, resistor(), level({2, 6})));
    circuit.parts[1].function = "Rc";
    Part part = circuit.parts[0];
    part.reference = "R2";
    const Result<Circuit> described = describePart(circuit, part);
    ASSERT_FALSE(described);
    EXPECT_EQ(described.error().message, "R2 Rc has that reference already: choose another, such as R3.");
    part.reference = "R7";
    EXPECT_TRUE(describePart(circuit, part));
    // Of a file that has two already, the rest can still be described.
    circuit.parts[1].reference = "R1";
    part = circuit.parts[0];
    part.value = 2200.0;
    EXPECT_TRUE(describePart(circuit, part));
}

TEST(Edit, ASignOfANetsNameJoinsThatNet) {
    // A sign "Vb" where a net Vb was became net n3: two different Vb on one sheet.
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    circuit = after(placePart(circuit, resistor(), level({2, 6})));
    circuit = after(nameNet(circuit, circuit.parts[0].nets[0], "Vb"));
    const EditResult signedNet = placeFlag(circuit, {FlagKind::supply, {}, {2, 6}, "Vb"});
    ASSERT_TRUE(signedNet) << signedNet.error().message;
    EXPECT_EQ(signedNet->circuit.parts[1].nets[0], "Vb");
    EXPECT_EQ(signedNet->circuit.parts[0].nets[0], "Vb");
    EXPECT_EQ(signedNet->circuit.drawing.flags.size(), 2U) << "both ends say it";
    EXPECT_EQ(signedNet->circuit.drawing.flags[signedNet->picked.flags.front()].at, (GridPoint{2, 6}));
    EXPECT_EQ(rejoin(signedNet->circuit).circuit, signedNet->circuit);
    // On the net itself one sign is enough.
    EXPECT_EQ(after(placeFlag(circuit, {FlagKind::supply, {}, {2, 2}, "Vb"})).drawing.flags.size(), 1U);
}

TEST(Edit, ASupplySignIsNotGround) {
    const Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    for (const char* name : {"0", "GND", "ground"}) {
        EXPECT_EQ(placeFlag(circuit, {FlagKind::supply, {}, {2, 2}, name}).error().message,
                  "That is ground's name: put a ground sign down instead.")
            << name;
    }
}

TEST(Edit, ABoxPicksWhatItTouches) {
    Circuit circuit = after(placePart({}, resistor(), level({2, 2})));
    circuit = after(placePart(circuit, resistor(), level({2, 6})));
    circuit = after(drawWire(circuit, {{5, 2}, {7, 2}}));
    EXPECT_EQ(pickedIn(circuit, {8, 3}, {0, 0}), (Picked{{circuit.parts[0].id}, {0}, {}}));
}

}  // namespace
}  // namespace ohmwright
