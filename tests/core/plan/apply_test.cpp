// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/apply.h"

#include "core/circuit/check.h"
#include "core/solve/equations.h"
#include "tests/support/demo_job.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/random_jobs.h"
#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace ohmwright {
namespace {

using test::Chance;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Circuit stock() {
    return test::harbourLamp().stock;
}

Model silicon() {
    const Circuit circuit = stock();
    return *findModel(circuit, "1N4148");
}

NewPart newDiode(const std::string& reference = "D3") {
    NewPart part;
    part.reference = reference;
    part.kind = PartKind::diode;
    part.model = silicon();
    return part;
}

NewPart newResistor(const std::string& reference, double ohms) {
    NewPart part;
    part.reference = reference;
    part.value = ohms;
    part.tolerance = 0.05;
    return part;
}

Mod modOf(const Change& change, const std::string& letter = "A") {
    return {"mod-" + letter, letter, "Trial", change, true};
}

Circuit fitted(const Change& change) {
    const Result<Circuit> circuit = applyMod(stock(), modOf(change));
    EXPECT_TRUE(circuit) << (circuit ? "" : circuit.error().message);
    return circuit ? *circuit : Circuit();
}

std::string refusal(const Change& change) {
    const Result<Circuit> circuit = applyMod(stock(), modOf(change));
    EXPECT_TRUE(circuit || circuit.error().code == ErrorCode::invalidInput);
    return circuit ? "no error" : circuit.error().message;
}

std::vector<NetName> netsOf(const Circuit& circuit, const char* part) {
    const Part* found = findPart(circuit, part);
    EXPECT_TRUE(found) << part;
    return found ? found->nets : std::vector<NetName>();
}

/// Everything but the order of lists, which follows the order of fitting.
Circuit sorted(Circuit circuit) {
    std::sort(circuit.parts.begin(), circuit.parts.end(), [](const Part& a, const Part& b) { return a.id < b.id; });
    std::sort(circuit.models.begin(), circuit.models.end(),
              [](const Model& a, const Model& b) { return a.name < b.name; });
    std::sort(circuit.openNets.begin(), circuit.openNets.end());
    for (Stage& stage : circuit.stages) {
        std::sort(stage.parts.begin(), stage.parts.end());
    }
    return circuit;
}

TEST(Apply, SwapValueChangesTheValueAndNothingElseOfTheCircuit) {
    Circuit now = fitted(SwapValue{"c4", 120e-9});
    Part* c4 = findPart(now, "c4");
    ASSERT_TRUE(c4);
    EXPECT_EQ(c4->value, 120e-9);
    EXPECT_TRUE(c4->printed.empty());  // "563" is on the part that came off,
    EXPECT_FALSE(c4->measured);        // and the reading was its own.
    const Circuit before = stock();
    *c4 = *findPart(before, "c4");
    EXPECT_EQ(now, before);
}

TEST(Apply, SwapValueRefusesWhatTheBoardCannotHave) {
    EXPECT_THAT(refusal(SwapValue{"nowhere", 1e3}), HasSubstr("no part \"nowhere\""));
    EXPECT_THAT(refusal(SwapValue{"d1", 1e3}), AllOf(HasSubstr("D1"), HasSubstr("no value to swap")));
    EXPECT_THAT(refusal(SwapValue{"u1a", 1e3}), HasSubstr("U1A is an op-amp"));
    EXPECT_THAT(refusal(SwapValue{"vbat", 12.0}), HasSubstr("VBAT"));
    for (const double value : {0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity(), 2.0, 1e-16}) {
        EXPECT_THAT(refusal(SwapValue{"c4", value}), AllOf(HasSubstr("C4 Cg"), HasSubstr("0.1 pF to 1 F"))) << value;
    }
    const Result<Circuit> circuit = applyMod(stock(), modOf(SwapValue{"c4", 0.0}));
    ASSERT_FALSE(circuit);
    EXPECT_EQ(circuit.error().where, "C4");
    const Result<Circuit> plan = applyPlan(stock(), {modOf(SwapValue{"c4", 0.0})});
    ASSERT_FALSE(plan);
    EXPECT_EQ(plan.error().message, "Mod A (Trial): " + circuit.error().message);
}

TEST(Apply, SwapTypeBringsItsModelAlong) {
    Model schottky{"BAT41", PartKind::diode, {{"IS", 7.84e-10}}, "fit"};
    const Circuit now = fitted(SwapType{"d1", schottky});
    EXPECT_EQ(findPart(now, "d1")->model, "BAT41");
    ASSERT_TRUE(findModel(now, "BAT41"));
    EXPECT_EQ(*findModel(now, "BAT41"), schottky);
    EXPECT_EQ(now.models.size(), stock().models.size() + 1);
    EXPECT_EQ(fitted(SwapType{"d1", silicon()}).models, stock().models);
}

TEST(Apply, SwapTypeRefusesAnotherKindAndAnotherModelOfTheSameName) {
    Model other = silicon();
    other.parameters["IS"] = 1e-9;
    EXPECT_THAT(refusal(SwapType{"d1", other}), AllOf(HasSubstr("1N4148"), HasSubstr("other parameters")));
    Model resourced = silicon();
    resourced.source = "another book";
    EXPECT_EQ(refusal(SwapType{"d1", resourced}), "no error");
    EXPECT_THAT(refusal(SwapType{"q1", silicon()}), HasSubstr("cannot stand for Q1, a transistor"));
    EXPECT_THAT(refusal(SwapType{"c4", silicon()}), HasSubstr("no type to swap"));
}

TEST(Apply, ADiodeInSeriesAtTheCathodePointsOnwards) {
    // Mod B of the demo: D2 from o1 to j, D3 from j to im.
    const Circuit now = fitted(AddInSeries{"d2", 1, newDiode(), false});
    const std::vector<NetName> d2 = netsOf(now, "d2");
    const std::vector<NetName> d3 = netsOf(now, "mod-A");
    EXPECT_EQ(d2[0], "o1");
    EXPECT_EQ(d3[1], "im");
    EXPECT_EQ(d2[1], d3[0]);
    EXPECT_THAT(d2[1], HasSubstr("D3"));
    EXPECT_EQ(findPart(now, "mod-A")->reference, "D3");
    EXPECT_EQ(findPart(now, "mod-A")->model, "1N4148");
    EXPECT_EQ(stageOfPart(now, "mod-A"), stageOfPart(now, "d2"));
    EXPECT_THAT(checkCircuit(now), IsEmpty());
}

TEST(Apply, ADiodeInSeriesAtTheAnodeComesBeforeItsHost) {
    const Circuit now = fitted(AddInSeries{"d2", 0, newDiode(), false});
    const NetName joint = netsOf(now, "d2")[0];
    EXPECT_THAT(netsOf(now, "d2"), ElementsAre(joint, "im"));
    EXPECT_THAT(netsOf(now, "mod-A"), ElementsAre("o1", joint));
}

TEST(Apply, ReversedTurnsTheNewPartRound) {
    const Circuit cathode = fitted(AddInSeries{"d2", 1, newDiode(), true});
    EXPECT_THAT(netsOf(cathode, "mod-A"), ElementsAre("im", netsOf(cathode, "d2")[1]));
    const Circuit anode = fitted(AddInSeries{"d2", 0, newDiode(), true});
    EXPECT_THAT(netsOf(anode, "mod-A"), ElementsAre(netsOf(anode, "d2")[0], "o1"));
    EXPECT_THAT(netsOf(fitted(AddAcross{"r5", 0, 1, newDiode(), false}), "mod-A"), ElementsAre("leg", "0"));
    EXPECT_THAT(netsOf(fitted(AddAcross{"r5", 0, 1, newDiode(), true}), "mod-A"), ElementsAre("0", "leg"));
    EXPECT_THAT(netsOf(fitted(AddAcross{"r5", 1, 0, newDiode(), false}), "mod-A"), ElementsAre("0", "leg"));
}

TEST(Apply, ADiodeInSeriesWithAnyPinConductsWhatThePartDraws) {
    // NPN: current flows in at collector and base, out at the emitter; a battery gives it out at its plus.
    struct Case {
        const char* part;
        int pin;
        bool anodeAtOldNet;
    };
    for (const Case& one : {Case{"q1", 0, true}, Case{"q1", 1, true}, Case{"q1", 2, false}, Case{"vbat", 0, false},
                            Case{"vbat", 1, true}, Case{"iu1b", 0, true}, Case{"iu1b", 1, false}, Case{"u1a", 2, false},
                            Case{"u1a", 3, true}, Case{"u1a", 4, false}}) {
        const NetName before = netsOf(stock(), one.part)[static_cast<std::size_t>(one.pin)];
        const Circuit now = fitted(AddInSeries{one.part, one.pin, newDiode(), false});
        EXPECT_EQ(netsOf(now, "mod-A")[one.anodeAtOldNet ? 0 : 1], before) << one.part << " " << one.pin;
    }
}

TEST(Apply, AddAcrossJoinsBothNetsAndTheStage) {
    const Circuit now = fitted(AddAcross{"c4", 0, 1, newResistor("R20", 1e6), false});
    EXPECT_THAT(netsOf(now, "mod-A"), ElementsAre("im", "leg"));
    EXPECT_EQ(findPart(now, "mod-A")->value, 1e6);
    EXPECT_EQ(findPart(now, "mod-A")->tolerance, 0.05);
    EXPECT_EQ(stageOfPart(now, "mod-A"), stageOfPart(now, "c4"));
    EXPECT_THAT(checkCircuit(now), IsEmpty());
}

TEST(Apply, WhatCannotBeAddedIsRefused) {
    NewPart pot = newResistor("VR9", 1e3);
    pot.kind = PartKind::potentiometer;
    NewPart bare = newDiode();
    bare.model = Model();
    EXPECT_THAT(refusal(AddInSeries{"d2", 2, newDiode(), false}), HasSubstr("D2 has no leg 3"));
    EXPECT_THAT(refusal(AddInSeries{"d2", -1, newDiode(), false}), HasSubstr("D2 has no leg 0"));
    EXPECT_THAT(refusal(AddInSeries{"d2", 1, pot, false}), HasSubstr("VR9 is a pot"));
    EXPECT_THAT(refusal(AddInSeries{"d2", 1, bare, false}), HasSubstr("no diode type"));
    EXPECT_THAT(refusal(AddInSeries{"d2", 1, newResistor("", 1e3), false}), HasSubstr("no reference"));
    EXPECT_THAT(refusal(AddInSeries{"d2", 1, newResistor("R20", 0.0), false}), HasSubstr("R20"));
    EXPECT_THAT(refusal(AddAcross{"d2", 0, 0, newDiode(), false}), HasSubstr("joined already"));
    EXPECT_THAT(refusal(AddAcross{"vr1", 0, 1, newDiode(), false}), HasSubstr("joined already"));
    EXPECT_THAT(refusal(AddAcross{"c4", 0, 2, newDiode(), false}), HasSubstr("C4 Cg has no leg 3"));
    Mod taken = modOf(AddAcross{"c4", 0, 1, newDiode(), false});
    taken.id = "c4";
    const Result<Circuit> circuit = applyMod(stock(), taken);
    ASSERT_FALSE(circuit);
    EXPECT_THAT(circuit.error().message, HasSubstr("a part has it already"));
}

TEST(Apply, WhatOnlyTheLiftedLegHeldToAVoltageIsOpenToo) {
    // Lifting R7 leaves its net between two capacitors: it was once refused with "mark the leg as lifted".
    for (const char* part : {"r7", "r4", "r5"}) {
        for (const int pin : {0, 1}) {
            const auto lifted = applyAlone(stock(), Mod{"m", "M", "", Lift{part, pin}, true});
            ASSERT_TRUE(lifted) << lifted.error().message;
            EXPECT_TRUE(requireSolvable(*lifted)) << part << " " << pin;
        }
    }
    const auto lifted = applyAlone(stock(), Mod{"m", "M", "", Lift{"r7", 1}, true});
    EXPECT_THAT(lifted->openNets, ElementsAre("R7.2 open", "lp"));
}

TEST(Apply, LiftPutsTheLegOnANetThatIsOpenOnPurpose) {
    const Circuit now = fitted(Lift{"c4", 1});
    EXPECT_THAT(netsOf(now, "c4"), ElementsAre("im", "C4.2 open"));
    EXPECT_THAT(now.openNets, ElementsAre("C4.2 open"));
    EXPECT_EQ(now.parts.size(), stock().parts.size());
    EXPECT_EQ(netsOf(fitted(Lift{"u1a", 0}), "u1a")[0], "U1A.3 open");
    EXPECT_THAT(refusal(Lift{"c4", 2}), HasSubstr("no leg 3"));
    const Result<Circuit> twice = applyMod(now, modOf(Lift{"c4", 1}, "B"));
    ASSERT_FALSE(twice);
    EXPECT_THAT(twice.error().message, HasSubstr("lifted already"));
    EXPECT_TRUE(applyMod(now, modOf(Lift{"c4", 0}, "B")));
}

TEST(Apply, BridgeJoinsTwoLegsByAMilliohm) {
    const Circuit now = fitted(Bridge{"r5", 0, 1});
    const Part* wire = findPart(now, "mod-A");
    ASSERT_TRUE(wire);
    EXPECT_EQ(wire->kind, PartKind::link);
    EXPECT_EQ(wire->value, 1e-3);
    EXPECT_THAT(wire->nets, ElementsAre("leg", "0"));
    EXPECT_FALSE(wire->reference.empty());
    EXPECT_THAT(refusal(Bridge{"r5", 1, 1}), HasSubstr("joined already"));
}

TEST(Apply, RemoveTakesThePartOutOfBoardStageAndKnobs) {
    const Circuit circuit = fitted(RemovePart{"d1"});
    EXPECT_EQ(findPart(circuit, "d1"), nullptr);
    for (const Stage& stage : circuit.stages) {
        EXPECT_EQ(std::count(stage.parts.begin(), stage.parts.end(), "d1"), 0) << stage.name;
    }
    EXPECT_EQ(circuit.parts.size(), stock().parts.size() - 1);
    EXPECT_THAT(circuit.openNets, IsEmpty());
    EXPECT_EQ(knobOf(fitted(RemovePart{"vr1"}), "vr1"), nullptr);
}

TEST(Apply, WhatOnlyTheRemovedPartHeldToAVoltageIsOpenOnPurpose) {
    // R5 is the only way from the leg's joint to ground for direct current; Cg blocks it.
    const Circuit circuit = fitted(RemovePart{"r5"});
    EXPECT_THAT(circuit.openNets, ElementsAre("leg"));
    EXPECT_THAT(netsWithoutDcPath(circuit), IsEmpty());
}

TEST(Apply, WhatIsConnectedToTheUnitCannotBeRemoved) {
    for (const char* part : {"vsig", "vbat", "rload"}) {
        EXPECT_THAT(refusal(RemovePart{part}), HasSubstr("Change the setting instead")) << part;
    }
}

TEST(Apply, APotGetsAnotherTrackAndLaw) {
    const Circuit circuit = fitted(ChangePot{"vr1", 500e3, Taper::reverseLogarithmic, 0.1});
    const Part& pot = *findPart(circuit, "vr1");
    EXPECT_EQ(pot.value, 500e3);
    EXPECT_EQ(pot.taper, Taper::reverseLogarithmic);
    EXPECT_EQ(pot.shareAtHalf, 0.1);
    EXPECT_NE(knobOf(circuit, "vr1"), nullptr);
    EXPECT_THAT(refusal(ChangePot{"r5", 500e3, Taper::linear, 0.5}), HasSubstr("Choose a pot"));
    EXPECT_THAT(refusal(ChangePot{"vr1", 500e3, Taper::logarithmic, 1.0}), HasSubstr("between 0 and 100 %"));
    EXPECT_THAT(refusal(ChangePot{"vr1", -1.0, Taper::linear, 0.5}), HasSubstr("no pot has"));
}

TEST(Apply, ALegMovesToAnotherNet) {
    EXPECT_THAT(netsOf(fitted(MoveLeg{"c7", 1, "vb"}), "c7"), ElementsAre("lp", "vb"));
    EXPECT_THAT(refusal(MoveLeg{"c7", 1, "0"}), HasSubstr("at 0 already"));
    EXPECT_THAT(refusal(MoveLeg{"c7", 2, "vb"}), HasSubstr("has no leg 3"));
    EXPECT_THAT(refusal(MoveLeg{"c7", 1, ""}), HasSubstr("no net is named"));
}

TEST(Apply, APartOfAnyKindIsAddedWithEachLegAtItsNet) {
    NewPart transistor;
    transistor.reference = "Q3";
    transistor.kind = PartKind::bipolar;
    transistor.model = *findModel(stock(), "2N3904");
    const Circuit circuit = fitted(AddPart{"q1", transistor, {"vcc", "e1", "e3"}});
    EXPECT_THAT(netsOf(circuit, "mod-A"), ElementsAre("vcc", "e1", "e3"));
    EXPECT_EQ(stageOfPart(circuit, "mod-A"), stageOfPart(circuit, "mod-A"));
    EXPECT_EQ(stageOfPart(circuit, "mod-A")->name, stageOfPart(circuit, "q1")->name);
    EXPECT_THAT(refusal(AddPart{"q1", transistor, {"vcc", "e1"}}), HasSubstr("has 3 legs"));
    transistor.model = Model();
    EXPECT_THAT(refusal(AddPart{"q1", transistor, {"vcc", "e1", "e3"}}), HasSubstr("no transistor type"));
}

TEST(Apply, ABranchOfTwoPartsIsOneCombinedMod) {
    NewPart capacitor;
    capacitor.reference = "C20";
    capacitor.kind = PartKind::capacitor;
    capacitor.value = 10e-6;
    capacitor.id = "c20";
    NewPart resistor = newResistor("R20", 150.0);
    resistor.id = "r20";
    const Circuit circuit =
        fitted(Combined{{AddPart{"r3", capacitor, {"e1", "x"}}, AddPart{"r3", resistor, {"x", "0"}}}});
    EXPECT_THAT(netsOf(circuit, "c20"), ElementsAre("e1", "x"));
    EXPECT_THAT(netsOf(circuit, "r20"), ElementsAre("x", "0"));
    EXPECT_THAT(checkCircuit(circuit), IsEmpty());
    // Without ids of their own both would take the mod's.
    capacitor.id.clear();
    resistor.id.clear();
    EXPECT_THAT(refusal(Combined{{AddPart{"r3", capacitor, {"e1", "x"}}, AddPart{"r3", resistor, {"x", "0"}}}}),
                HasSubstr("cannot become the id of R20"));
}

TEST(Apply, ASwitchIsWhatItsThrowMakesOfTheBoard) {
    const Mod mod = modOf(FitSwitch{"d1",
                                    {{"silicon", {}},
                                     {"none", {RemovePart{"d1"}, RemovePart{"d2"}}},
                                     {"three", {AddInSeries{"d2", 1, newDiode(), false}}}}});
    EXPECT_EQ(*applyPlan(stock(), {mod}), stock());
    EXPECT_EQ(*applyPlan(stock(), {mod}, {{"mod-A", "silicon"}}), stock());
    const Circuit none = *applyPlan(stock(), {mod}, {{"mod-A", "none"}});
    EXPECT_EQ(findPart(none, "d1"), nullptr);
    EXPECT_EQ(findPart(none, "d2"), nullptr);
    EXPECT_NE(findPart(*applyAlone(stock(), mod, {{"mod-A", "three"}}), "mod-A"), nullptr);
    const Result<Circuit> unknown = applyPlan(stock(), {mod}, {{"mod-A", "four"}});
    ASSERT_FALSE(unknown);
    EXPECT_THAT(unknown.error().message, AllOf(HasSubstr("four"), HasSubstr("silicon, none, three")));
}

TEST(Apply, TheDemosPlanIsTheCircuitOfItsNetlist) {
    // Source: the demo's mods as netlist edits: C4 im leg 120n; D2 o1 j, D3 j im; R5 leg 0 2.7k; C7 lp 0 33n.
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    const Result<Circuit> now = applyPlan(job.stock, job.plan);
    ASSERT_TRUE(now) << now.error().message;
    EXPECT_EQ(findPart(*now, "c4")->value, 120e-9);
    EXPECT_EQ(findPart(*now, "r5")->value, 2.7e3);
    EXPECT_EQ(findPart(*now, "c7")->value, 33e-9);
    const Part* d3 = findPartByReference(*now, "D3");
    ASSERT_TRUE(d3);
    const NetName joint = d3->nets[0];
    EXPECT_THAT(netsOf(*now, "d2"), ElementsAre("o1", joint));
    EXPECT_THAT(d3->nets, ElementsAre(joint, "im"));
    EXPECT_EQ(now->parts.size(), job.stock.parts.size() + 1);
    EXPECT_THAT(checkCircuit(*now), IsEmpty());
}

TEST(Apply, NothingOnIsStockBitForBit) {
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = false;
    }
    EXPECT_EQ(*applyPlan(job.stock, job.plan), job.stock);
    EXPECT_EQ(*applyPlan(job.stock, {}), job.stock);
}

TEST(Apply, AloneIsOneModWhetherOnOrOff) {
    const Job job = test::harbourLamp();
    const Mod& c = job.plan[2];
    ASSERT_FALSE(c.on);
    const Result<Circuit> alone = applyAlone(job.stock, c);
    ASSERT_TRUE(alone);
    EXPECT_EQ(findPart(*alone, "r5")->value, 2.7e3);
    EXPECT_EQ(findPart(*alone, "c4")->value, 56e-9);
}

TEST(Apply, AModWorksOnThePartThatAnEarlierOneFits) {
    Plan plan{modOf(AddAcross{"c4", 0, 1, newResistor("R20", 1e6), false}, "A"), modOf(SwapValue{"mod-A", 2.2e6}, "B"),
              modOf(AddInSeries{"mod-A", 1, newResistor("R21", 10e3), false}, "C"), modOf(Lift{"mod-C", 0}, "D")};
    const Result<Circuit> now = applyPlan(stock(), plan);
    ASSERT_TRUE(now) << now.error().message;
    EXPECT_EQ(findPart(*now, "mod-A")->value, 2.2e6);
    EXPECT_EQ(netsOf(*now, "mod-C")[1], "leg");
    EXPECT_THAT(netsOf(*now, "mod-C")[0], HasSubstr("R21.1 open"));
    EXPECT_EQ(stageOfPart(*now, "mod-C"), stageOfPart(*now, "c4"));
}

TEST(Apply, AModOnAPartThatIsNotFittedNamesBoth) {
    Plan plan{modOf(AddAcross{"c4", 0, 1, newResistor("R20", 1e6), false}, "A"), modOf(SwapValue{"mod-A", 2.2e6}, "B")};
    plan[0].on = false;
    const Result<Circuit> off = applyPlan(stock(), plan);
    ASSERT_FALSE(off);
    EXPECT_THAT(off.error().message, AllOf(HasSubstr("Mod B"), HasSubstr("Mod A"), HasSubstr("is off")));
    plan[0].on = true;
    std::swap(plan[0], plan[1]);
    const Result<Circuit> late = applyPlan(stock(), plan);
    ASSERT_FALSE(late);
    EXPECT_THAT(late.error().message, AllOf(HasSubstr("Mod B"), HasSubstr("Mod A"), HasSubstr("comes after")));
    plan.pop_back();
    const Result<Circuit> gone = applyPlan(stock(), plan);
    ASSERT_FALSE(gone);
    EXPECT_THAT(gone.error().message, AllOf(HasSubstr("Mod B"), HasSubstr("mod-A")));
}

TEST(Apply, NewNetsNeverCollideEvenWhenReferencesRepeat) {
    Circuit circuit = stock();
    findPart(circuit, "d1")->reference = "D2";
    const Plan plan{
        modOf(AddInSeries{"d1", 1, newDiode(), false}, "A"), modOf(AddInSeries{"d2", 1, newDiode(), false}, "B"),
        modOf(AddInSeries{"d2", 1, newDiode(), false}, "C"), modOf(Lift{"d1", 0}, "D"), modOf(Lift{"d2", 0}, "E")};
    const Result<Circuit> now = applyPlan(circuit, plan);
    ASSERT_TRUE(now) << now.error().message;
    std::set<NetName> nets;
    for (const Part& part : now->parts) {
        nets.insert(part.nets.begin(), part.nets.end());
    }
    std::set<NetName> before;
    for (const Part& part : circuit.parts) {
        before.insert(part.nets.begin(), part.nets.end());
    }
    EXPECT_EQ(nets.size(), before.size() + plan.size());
}

TEST(Apply, TheOrderOfIndependentModsDoesNotMatter) {
    Plan plan{modOf(SwapValue{"c4", 120e-9}, "A"),
              modOf(AddInSeries{"d2", 1, newDiode("D3"), false}, "B"),
              modOf(AddAcross{"r5", 0, 1, newResistor("R20", 10e3), false}, "C"),
              modOf(Lift{"c7", 1}, "D"),
              modOf(Bridge{"r4", 0, 1}, "E"),
              modOf(SwapType{"d1", Model{"BAT41", PartKind::diode, {{"IS", 1e-9}}, "fit"}}, "F"),
              modOf(AddInSeries{"q1", 2, newResistor("R21", 100.0), false}, "G")};
    const Result<Circuit> inOrder = applyPlan(stock(), plan);
    ASSERT_TRUE(inOrder) << inOrder.error().message;
    std::mt19937 engine(4);
    for (int i = 0; i < 100; ++i) {
        std::shuffle(plan.begin(), plan.end(), engine);
        const Result<Circuit> shuffled = applyPlan(stock(), plan);
        ASSERT_TRUE(shuffled) << shuffled.error().message;
        ASSERT_EQ(sorted(*shuffled), sorted(*inOrder));
    }
}

TEST(Apply, RandomPlansGiveACircuitOrAReasonAndTakenBackGiveStock) {
    Chance chance(77);
    const Circuit demo = stock();
    int applied = 0;
    for (int i = 0; i < 2000; ++i) {
        const Circuit circuit = chance.oneIn(2) ? demo : test::randomCircuit(chance);
        const Circuit before = circuit;
        Plan plan = test::randomPlan(chance, circuit);
        const Result<Circuit> now = applyPlan(circuit, plan);
        if (now) {
            ++applied;
            for (const Part& part : now->parts) {
                ASSERT_EQ(part.nets.size(), static_cast<std::size_t>(pinCount(part.kind)));
            }
        } else {
            ASSERT_EQ(now.error().code, ErrorCode::invalidInput);
            ASSERT_FALSE(now.error().message.empty());
        }
        ASSERT_EQ(circuit, before);
        for (Mod& mod : plan) {
            mod.on = false;
        }
        ASSERT_EQ(*applyPlan(circuit, plan), before);
    }
    EXPECT_GT(applied, 100);
}

TEST(Apply, RandomPlansThatFitOneByOneFitAsAPlan) {
    Chance chance(78);
    const Circuit demo = stock();
    for (int i = 0; i < 300; ++i) {
        Circuit now = demo;
        Plan plan;
        for (const Mod& mod : test::randomPlan(chance, demo)) {
            if (const Result<Circuit> next = applyMod(now, mod)) {
                now = *next;
                plan.push_back(mod);
                plan.back().on = true;
            }
        }
        const Result<Circuit> whole = applyPlan(demo, plan);
        ASSERT_TRUE(whole) << whole.error().message;
        ASSERT_EQ(*whole, now);
    }
}

// A film capacitor in the place of an electrolytic one is no electrolytic one, and what a meter said of the old part
// says nothing of the new one.
TEST(Apply, WhatIsFittedDoesNotTakeTheOldPartsBody) {
    Circuit board = stock();
    Part* old = findPart(board, "c4");
    old->knowledge = Knowledge::measured;
    old->measured = 55e-9;
    for (const Change& change : {Change(SwapValue{"c4", 680e-9}), Change(SwapType{"d2", silicon()})}) {
        const auto now = applyMod(board, modOf(change));
        ASSERT_TRUE(now) << now.error().message;
        const Part& fitted = *findPart(*now, targetOf(change));
        EXPECT_EQ(fitted.build, "");
        EXPECT_EQ(fitted.printed, "");
        EXPECT_FALSE(fitted.measured);
        EXPECT_NE(fitted.knowledge, Knowledge::measured);
    }
}

// The setting is of the unit as found and names every knob that was turned: with the pot taken out, "now" had no
// answer.
TEST(ApplyPlan, AUnitWhosePotAModTakesOutIsSolvedAsItIsSet) {
    Job job = test::demoJob("harbour-lamp");
    job.setting.knobs["level"] = 5.0;
    job.plan = {Mod{"m1", "A", "No level pot", RemovePart{findKnob(job.stock, "level")->part}, true}};
    const Result<Circuit> now = nowCircuit(job);
    ASSERT_TRUE(now) << now.error().message;
    ASSERT_EQ(findKnob(*now, "level"), nullptr);
    const auto equations = Equations::compile(*now, job.setting);
    ASSERT_TRUE(equations) << equations.error().message;
    job.setting.knobs["level"] = 55.0;
    EXPECT_FALSE(Equations::compile(job.stock, job.setting));
}

TEST(Apply, EveryKindHasItsArticle) {
    const auto saidOf = [](PartKind kind) {
        Part part;
        part.id = part.reference = "X1";
        part.kind = kind;
        Circuit circuit;
        circuit.parts.push_back(part);
        const auto applied = applyMod(circuit, {"mod", "A", "", ChangePot{"X1", 1e3, Taper::linear, 0.5}, true});
        return applied ? std::string() : applied.error().message;
    };
    for (int place = 0; place <= static_cast<int>(PartKind::behaviouralCurrent); ++place) {
        const auto kind = static_cast<PartKind>(place);
        const std::string name(kindName(kind));
        const std::string article = std::string("aeiou").find(name.front()) != std::string::npos ? "an " : "a ";
        if (kind != PartKind::potentiometer) {
            EXPECT_EQ(saidOf(kind), "X1 is " + article + name + ", and only a pot has a law. Choose a pot.");
        }
    }
    const test::Spoken german{{"%1 is %2, and only a pot has a law. Choose a pot.", "Ein Poti wählen: %1 ist %2."},
                              {"a JFET", "ein JFET"}};
    EXPECT_EQ(saidOf(PartKind::jfet), "Ein Poti wählen: X1 ist ein JFET.");
}

}  // namespace
}  // namespace ohmwright
