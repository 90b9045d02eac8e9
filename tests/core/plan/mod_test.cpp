// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/mod.h"

#include "tests/support/demo_job.h"
#include "tests/support/spoken.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

NewPart diode(const std::string& reference) {
    NewPart part;
    part.reference = reference;
    part.kind = PartKind::diode;
    part.model.name = "1N4148";
    return part;
}

NewPart capacitor(double farads) {
    NewPart part;
    part.reference = "C20";
    part.kind = PartKind::capacitor;
    part.value = farads;
    return part;
}

TEST(Mod, EveryChangeKnowsItsTargetAndItsName) {
    struct Case {
        Change change;
        const char* kind;
    };
    const Case cases[] = {{SwapValue{"p", 1.0}, "swap value"},
                          {SwapType{"p", Model()}, "swap type"},
                          {AddInSeries{"p", 0, {}, false}, "add in series"},
                          {AddAcross{"p", 0, 1, {}, false}, "add across"},
                          {Lift{"p", 0}, "lift"},
                          {Bridge{"p", 0, 1}, "bridge"},
                          {RemovePart{"p"}, "remove"},
                          {ChangePot{"p", 1e3, Taper::linear, 0.5}, "change pot"},
                          {MoveLeg{"p", 0, "n"}, "move leg"},
                          {AddPart{"p", {}, {}}, "add part"},
                          {Combined{{Lift{"p", 0}, Lift{"q", 0}}}, "combined"},
                          {FitSwitch{"p", {{"up", {}}, {"down", {}}}}, "fit switch"}};
    for (const Case& one : cases) {
        EXPECT_EQ(targetOf(one.change), "p");
        EXPECT_EQ(changeKind(one.change), one.kind);
    }
}

TEST(Mod, IsDescribedAsInTheList) {
    const Circuit stock = test::harbourLamp().stock;
    Model schottky;
    schottky.name = "BAT41";
    NewPart wire;
    wire.kind = PartKind::link;
    struct Case {
        Change change;
        const char* text;
    };
    const Case cases[] = {{SwapValue{"c4", 120e-9}, "56n → 120n"},
                          {SwapValue{"r5", 2.7e3}, "3k9 → 2k7"},
                          {SwapValue{"vr1", 500e3}, "250k → 500k"},
                          {SwapType{"d1", schottky}, "1N4148 → BAT41"},
                          {AddInSeries{"d2", 1, diode("D3"), false}, "1N4148 in series"},
                          {AddInSeries{"d2", 1, diode("D3"), true}, "1N4148 in series, reversed"},
                          {AddInSeries{"d2", 1, wire, false}, "wire in series"},
                          {AddAcross{"c4", 0, 1, capacitor(68e-9), false}, "68n across"},
                          {AddAcross{"r5", 0, 1, diode("D3"), true}, "1N4148 across, reversed"},
                          {Lift{"c4", 0}, "leg 1 lifted"},
                          {Lift{"u1a", 0}, "leg 3 lifted"},
                          {Bridge{"u1a", 1, 2}, "legs 2 and 1 bridged"},
                          {RemovePart{"d1"}, "removed"},
                          {ChangePot{"vr1", 500e3, Taper::linear, 0.5}, "250k log 15 % → 500k linear"},
                          {MoveLeg{"c4", 1, "vb"}, "leg 2 to vb"},
                          {AddPart{"r5", capacitor(68e-9), {"leg", "0"}}, "68n to leg, ground"},
                          {Combined{{SwapType{"d1", schottky}, SwapType{"d2", schottky}}}, "D1, D2 1N4148 → BAT41"},
                          {FitSwitch{"d1", {{"silicon", {}}, {"none", {}}}}, "switch: silicon / none"}};
    for (const Case& one : cases) {
        EXPECT_EQ(describeChange(stock, one.change), one.text);
    }
}

TEST(Mod, OnAPartThatIsNotOnTheBoardYetIsDescribedWithoutIt) {
    const Circuit stock = test::harbourLamp().stock;
    EXPECT_EQ(describeChange(stock, SwapValue{"mod-b", 1.0}), "new value");
    EXPECT_EQ(describeChange(stock, Lift{"mod-b", 1}), "leg 2 lifted");
    EXPECT_EQ(describeChange(stock, Lift{"mod-b", -1}), "leg 0 lifted");
}

// A branch of a capacitor and a resistor across R4: the resistor joins the capacitor that comes with it, which was
// named by its id, "c4", in every list.
TEST(Mod, APartThatComesWithTheModIsNamedByItsReference) {
    NewPart bypass = capacitor(10e-6);
    bypass.id = "c4";
    NewPart stopper;
    stopper.reference = "R6";
    stopper.value = 150.0;
    stopper.id = "r6";
    Circuit circuit;
    Part emitter;
    emitter.id = "r4";
    emitter.reference = "R4";
    emitter.value = 560.0;
    emitter.nets = {"e", "0"};
    circuit.parts = {emitter};
    const Combined branch{{AddAcross{"r4", 0, 1, bypass, false}, AddInSeries{"c4", 1, stopper, false}}};
    EXPECT_EQ(describeChange(circuit, branch), "R4 10µ across; C20 150R in series");
}

TEST(Mod, AChangeIsDescribedInTheLanguageAndItsKindStaysAWordOfTheRates) {
    const test::Spoken german{{"leg %1 lifted", "Bein %1 gelöst"}, {"%1 in series, reversed", "verpolt in Reihe: %1"}};
    EXPECT_EQ(describeChange(Circuit(), Lift{"p", 0}), "Bein 1 gelöst");
    EXPECT_EQ(describeChange(Circuit(), AddInSeries{"p", 0, diode("D9"), true}), "verpolt in Reihe: 1N4148");
    EXPECT_EQ(changeKind(Lift{"p", 0}), "lift");
}

}  // namespace
}  // namespace ohmwright
