// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/circuit.h"

#include "tests/core/circuit/circuits.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(Circuit, PartsAreFoundByIdAndByReference) {
    Circuit circuit = clipStage();
    ASSERT_NE(findPart(circuit, "id-R5"), nullptr);
    EXPECT_EQ(findPart(circuit, "id-R5")->value, 3.9e3);
    EXPECT_EQ(findPartByReference(circuit, "R5"), findPart(std::as_const(circuit), "id-R5"));
    EXPECT_EQ(findPart(circuit, "R5"), nullptr) << "a reference is no id";
    EXPECT_EQ(findPartByReference(circuit, "R99"), nullptr);
}

TEST(Circuit, APartCanBeChangedThroughItsId) {
    Circuit circuit = clipStage();
    findPart(circuit, "id-C4")->value = 120e-9;
    EXPECT_EQ(findPartByReference(circuit, "C4")->value, 120e-9);
    EXPECT_NE(circuit, clipStage());
}

TEST(Circuit, KnobsModelsAndStagesAreFound) {
    const Circuit circuit = clipStage();
    EXPECT_EQ(findKnob(circuit, "drive")->part, "id-VR1");
    EXPECT_EQ(findKnob(circuit, "tone"), nullptr);
    EXPECT_EQ(knobOf(circuit, "id-VR1")->id, "drive");
    EXPECT_EQ(knobOf(circuit, "id-R5"), nullptr);
    EXPECT_EQ(findModel(circuit, "TL072")->kind, PartKind::opamp);
    EXPECT_EQ(findModel(circuit, "tl072"), nullptr);
    EXPECT_EQ(stageOfPart(circuit, "id-C7")->name, "Low-pass");
    EXPECT_EQ(stageOfPart(circuit, "id-VBAT"), nullptr);
    EXPECT_EQ(stageWithOutput(circuit, "o1")->name, "Clip stage");
    EXPECT_EQ(stageWithOutput(circuit, ""), nullptr);
}

TEST(Circuit, EveryKindHasItsPinsNameAndUnit) {
    struct Expected {
        PartKind kind;
        int pins;
        const char* name;
        const char* lastPin;
        Unit unit;
        bool hasValue;
    };
    const Expected table[] = {
        {PartKind::resistor, 2, "resistor", "2", Unit::ohm, true},
        {PartKind::capacitor, 2, "capacitor", "2", Unit::farad, true},
        {PartKind::inductor, 2, "inductor", "2", Unit::henry, true},
        {PartKind::potentiometer, 3, "pot", "bottom", Unit::ohm, true},
        {PartKind::link, 2, "link", "2", Unit::none, false},
        {PartKind::diode, 2, "diode", "cathode", Unit::none, false},
        {PartKind::bipolar, 3, "transistor", "emitter", Unit::none, false},
        {PartKind::opamp, 5, "op-amp", "negative supply", Unit::none, false},
        {PartKind::voltageSource, 2, "voltage source", "minus", Unit::volt, false},
        {PartKind::currentSource, 2, "current source", "to", Unit::ampere, false},
    };
    for (const Expected& row : table) {
        SCOPED_TRACE(row.name);
        EXPECT_EQ(pinCount(row.kind), row.pins);
        EXPECT_EQ(kindName(row.kind), row.name);
        EXPECT_EQ(pinName(row.kind, row.pins - 1), row.lastPin);
        EXPECT_EQ(unitOf(row.kind), row.unit);
        EXPECT_EQ(hasValue(row.kind), row.hasValue);
    }
    EXPECT_EQ(pinName(PartKind::potentiometer, 1), "wiper");
    EXPECT_EQ(pinName(PartKind::bipolar, 1), "base");
    EXPECT_EQ(pinName(PartKind::opamp, 1), "inverting input");
}

TEST(Circuit, APartIsCalledByReferenceAndFunction) {
    Part cap = capacitor("C4", "im", "leg", 56e-9);
    EXPECT_EQ(displayName(cap), "C4");
    cap.function = "Cg";
    EXPECT_EQ(displayName(cap), "C4 Cg");
    cap.reference.clear();
    EXPECT_EQ(displayName(cap), "id-C4 Cg") << "the id stands in where there is no reference";
}

}  // namespace
}  // namespace ohmwright
