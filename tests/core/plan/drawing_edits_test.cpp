// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/drawing_edits.h"

#include "core/circuit/supply_volts.h"
#include "core/drawing/arrange.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/plan/apply.h"
#include "core/plan/correct.h"
#include "core/plan/edits.h"
#include "tests/support/demo_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

namespace ohmwright {
namespace {

const Part& partNamed(const Job& job, const char* reference) {
    return *findPartByReference(job.stock, reference);
}

/// The nets of every part, by id: what the drawing means.
std::map<PartId, std::vector<NetName>> netsOf(const Circuit& circuit) {
    std::map<PartId, std::vector<NetName>> nets;
    for (const Part& part : circuit.parts) {
        nets[part.id] = part.nets;
    }
    return nets;
}

TEST(DrawingEdits, AMovedPartChangesNothingOfThePlan) {
    const Job job = test::demoJob("small-rooster", "AB");
    const Result<Job> edited = withDrawing(job, move(job.stock, {{partNamed(job, "VR1").id}, {}, {}}, {1, 0}));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(partNamed(*edited, "VR1").placement->at.x, partNamed(job, "VR1").placement->at.x + 1);
    EXPECT_EQ(netsOf(edited->stock), netsOf(job.stock));
    EXPECT_EQ(edited->plan, job.plan);
    EXPECT_EQ(edited->setting, job.setting);
}

TEST(DrawingEdits, APartThatThePlanWorksOnIsNotTakenOff) {
    const Job job = test::demoJob("harbour-lamp", "A");
    const Result<Job> edited = withDrawing(job, erase(job.stock, {{partNamed(job, "C4").id}, {}, {}}));
    ASSERT_FALSE(edited);
    EXPECT_NE(edited.error().message.find("take mod A off the list first"), std::string::npos)
        << edited.error().message;
    // Off the list, off the board.
    Job without = job;
    without.plan.clear();
    EXPECT_TRUE(withDrawing(without, erase(job.stock, {{partNamed(job, "C4").id}, {}, {}})));
}

TEST(DrawingEdits, NetsOfThePlanAndReadingsFollowTheirNewName) {
    Job job = test::demoJob("harbour-lamp");
    const NetName old = partNamed(job, "C4").nets[1];
    job.plan = {{"m1", "A", "Leg",
                 AddPart{partNamed(job, "C4").id, {"R99", PartKind::resistor, 1e6, {}, 0.0, "r99"}, {old, "0"}}, true}};
    job.visit.readings = {{"Rg top", old, 4.5, Unit::volt}};
    const Result<Job> edited = withDrawing(job, nameNet(job.stock, old, "leg"));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(std::get<AddPart>(edited->plan[0].change).nets[0], "leg");
    EXPECT_EQ(edited->visit.readings[0].net, "leg");
    EXPECT_EQ(partNamed(*edited, "C4").nets[1], "leg");
}

TEST(DrawingEdits, AKnobThatIsGoneLosesItsPosition) {
    Job job = test::demoJob("harbour-lamp");
    ASSERT_TRUE(job.setting.knobs.contains("drive") || findKnob(job.stock, "drive"));
    job.setting.knobs["drive"] = 7.0;
    job.plan.clear();
    const Result<Job> edited = withDrawing(job, erase(job.stock, {{findKnob(job.stock, "drive")->part}, {}, {}}));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_FALSE(edited->setting.knobs.contains("drive"));
}

TEST(DrawingEdits, ACorrectedLegIsNotPutBackByTheNextEdit) {
    Job job = test::demoJob("small-rooster");
    job.plan.clear();
    // As a correction leaves it: another net, the old lines.
    Part& part = *findPart(job.stock, findPartByReference(job.stock, "R5")->id);
    const std::vector<NetName> corrected{part.nets[0], findPartByReference(job.stock, "Q1")->nets[2]};
    part.nets = corrected;
    const Picked other{{partNamed(job, "C2").id}, {}, {}};
    const Result<Job> refused = withDrawing(job, move(job.stock, other, {0, 1}));
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().message.find("R5"), std::string::npos) << refused.error().message;
    // Tidied, its lines show what it is joined to, and edits are taken again.
    const Rejoined tidied = rejoin(arrange(job.stock, {part.id}));
    const Result<Job> drawn = withDrawing(job, Edited{tidied.circuit, tidied.goneInto, {}});
    ASSERT_TRUE(drawn) << drawn.error().message;
    EXPECT_EQ(partNamed(*drawn, "R5").nets, corrected);
    EXPECT_TRUE(withDrawing(*drawn, move(drawn->stock, {{partNamed(*drawn, "VR1").id}, {}, {}}, {1, 0})));
}

TEST(DrawingEdits, APartPutDownTakesNoNameOfAPartThatThePlanFits) {
    // Small Rooster's mod B fits R6, which was the next free reference of the drawing.
    const Job job = test::demoJob("small-rooster", "AB");
    Part resistor;
    resistor.value = 1e6;
    const Result<Job> edited =
        withDrawing(job, placePart(job.stock, resistor, {{40, 2}, 0, false, 3, LabelSide::automatic}));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(edited->stock.parts.back().reference, "R7");
    EXPECT_EQ(edited->stock.parts.back().id, "r7");
    EXPECT_TRUE(stageOfPart(edited->stock, "r7"));
    EXPECT_EQ(edited->plan, job.plan);
}

TEST(DrawingEdits, AnEditThatWasRefusedTellsItsOwnReason) {
    const Job job = test::demoJob("small-rooster");
    const EditResult refused = drawWire(job.stock, {{0, 0}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(withDrawing(job, refused).error(), refused.error());
}

// ---- Battery and next box -----------------------------------------------------------------------------------------

Job drawnWith(const char* lines) {
    Job job;
    job.unit.name = "Bench unit";
    const Result<Job> drawn = withDrawingLines(job, lines, {});
    EXPECT_TRUE(drawn) << drawn.error().message;
    return drawn ? *drawn : job;
}

// A unit that was drawn with 18 V was figured with 9 V, and one with 250 V had no caution of high voltage.
TEST(DrawingEdits, ABatteryThatIsDrawnIsTheSettings) {
    constexpr const char* around = "\nput E at 4,7\nput R 10k at 10,4\nwire 4,4 10,4\nwire 13,4 13,7\nput E at 13,7";
    const Job low = drawnWith(std::string("put B 18V at 4,4").append(around).c_str());
    EXPECT_EQ(low.setting.batteryVolts, 18.0);
    const Job high = drawnWith(std::string("put B 250V at 4,4").append(around).c_str());
    EXPECT_EQ(high.setting.batteryVolts, 250.0);
    EXPECT_EQ(highestSupplyVolts(high.stock, high.setting), 250.0);
}

TEST(DrawingEdits, ABatteryThatIsGivenOtherVoltsIsTheSettingsToo) {
    Job job = drawnWith("put B 18V at 4,4\nput E at 4,7");
    Part battery = *findPart(job.stock, job.stock.ports.battery);
    battery.value = 12.0;
    const Result<Circuit> described = describePart(job.stock, battery);
    ASSERT_TRUE(described) << described.error().message;
    const Result<Job> edited = withDrawing(job, Edited{*described, {}, {}});
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(edited->setting.batteryVolts, 12.0);
}

// The setting rules: what the bench set for a flat battery stays when something else is drawn.
TEST(DrawingEdits, WhatTheBenchSetStaysUntilTheBatteryIsDrawnAnew) {
    Job job = test::demoJob("small-rooster");
    job.setting.batteryVolts = 7.2;
    job.setting.loadOhms = 10e3;
    const Result<Job> edited = withDrawing(job, move(job.stock, {{partNamed(job, "VR1").id}, {}, {}}, {1, 0}));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(edited->setting.batteryVolts, 7.2);
    EXPECT_EQ(edited->setting.loadOhms, 10e3);
}

TEST(DrawingEdits, ALoadThatIsGivenAnotherValueIsTheSettings) {
    const Job job = test::demoJob("small-rooster");
    Part load = *findPart(job.stock, job.stock.ports.load);
    load.value = 47e3;
    const Result<Job> edited = withDrawing(job, Edited{*describePart(job.stock, load), {}, {}});
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(edited->setting.loadOhms, 47e3);
}

// A source of volts that no supply has is a source like any other.
TEST(DrawingEdits, ASensingSourceIsNoBattery) {
    Job job;
    Part source;
    source.kind = PartKind::voltageSource;
    source.value = 0.0;
    const Result<Job> edited =
        withDrawing(job, placePart(job.stock, source, {{4, 4}, 1, false, 3, LabelSide::automatic}));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(edited->stock.ports.battery, "");
    EXPECT_EQ(edited->setting.batteryVolts, job.setting.batteryVolts);
}

// ---- Corrections --------------------------------------------------------------------------------------------------

Job corrected(const Job& job, const PartId& part, Finding finding) {
    Correction correction;
    correction.part = part;
    correction.found = std::move(finding);
    const Result<Job> edited = correct(job, correction);
    EXPECT_TRUE(edited) << edited.error().message;
    return edited ? *edited : job;
}

Job renamed(const Job& job, const NetName& net, const NetName& name) {
    const Result<Job> edited = withDrawing(job, nameNet(job.stock, net, name));
    EXPECT_TRUE(edited) << edited.error().message;
    return edited ? *edited : job;
}

// The correction kept the old name: taken back, the leg hung on a net of that name alone.
TEST(DrawingEdits, ACorrectionIsTakenBackToTheNetsAsTheyAreCalledNow) {
    Job drawn = test::demoJob("harbour-lamp");
    drawn.plan.clear();
    const PartId r7 = partNamed(drawn, "R7").id;
    const NetName lp = partNamed(drawn, "R7").nets[1];
    const std::map<PartId, std::vector<NetName>> wanted = netsOf(renamed(drawn, lp, "foo").stock);
    const std::vector<Finding> findings{LegFound{1, "vt"}, LegFound{1, "a-pad"}, PresenceFound{}};
    for (const Finding& finding : findings) {
        SCOPED_TRACE(findingWords(finding, PartKind::resistor));
        const Job found = renamed(corrected(drawn, r7, finding), lp, "foo");
        const Result<Job> back = takeBackCorrection(found, 0);
        ASSERT_TRUE(back) << back.error().message;
        EXPECT_EQ(netsOf(back->stock), wanted);
        EXPECT_EQ(back->stock.openNets, drawn.stock.openNets);
    }
}

TEST(DrawingEdits, APointedAtLineIsNamedAndNotTheLegThatWasCorrected) {
    Job job = test::demoJob("harbour-lamp");
    job.plan.clear();
    const Part r7 = partNamed(job, "R7");
    const NetName lp = r7.nets[1];
    job = corrected(job, r7.id, LegFound{1, "vt"});
    // The wire to C7 still ends at that pin.
    EXPECT_EQ(netAt(job.stock, {38, 6}), lp);
}

// What was read of a part is not lost with it, and its name is not given to another.
TEST(DrawingEdits, APartWhoseCorrectionHoldsIsNotErased) {
    Job job = test::demoJob("harbour-lamp");
    job.plan.clear();
    const PartId r7 = partNamed(job, "R7").id;
    const Job found = corrected(job, r7, ValueFound{15e3, {}});
    const Result<Job> refused = withDrawing(found, erase(found.stock, {{r7}, {}, {}}));
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().message, testing::HasSubstr("take the correction back first"));
    const Result<Job> lines = withDrawingLines(found, "# anew\nerase R7\nput R 15k at 2,2", {});
    ASSERT_FALSE(lines);
    EXPECT_THAT(lines.error().message, testing::StartsWith("line 2: R7"));
    // As the earlier mod of an ended visit leaves it: the entry is history, and its part may go.
    Job over = found;
    findPart(over.stock, r7)->value = 22e3;
    const Result<Job> gone = withDrawing(over, erase(over.stock, {{r7}, {}, {}}));
    ASSERT_TRUE(gone) << gone.error().message;
    EXPECT_EQ(gone->corrections, over.corrections);
}

TEST(DrawingEdits, ANamePartsOfTheRecordHaveIsNotGivenAgain) {
    Job job = test::demoJob("small-rooster");
    job.plan.clear();
    Part last = partNamed(job, "R5");
    const Job missing = corrected(job, last.id, PresenceFound{});
    Part resistor;
    resistor.value = 1e6;
    resistor.reference = last.reference;
    const Placement place{{40, 2}, 0, false, 3, LabelSide::automatic};
    const Result<Job> edited = withDrawing(missing, placePart(missing.stock, resistor, place));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_NE(edited->stock.parts.back().reference, last.reference);
    EXPECT_NE(edited->stock.parts.back().id, last.id);
    // So the part that was missing can come back.
    const Result<Job> back = takeBackCorrection(*edited, 0);
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_TRUE(findPart(back->stock, last.id));
    // Nor is the id of a part that an earlier visit had.
    Job later = job;
    later.departures.push_back({"2026-01-01T10:00:00", job.visit, job.stock, {}, {}, job.setting, {}, {}});
    later = *withDrawing(later, erase(later.stock, {{last.id}, {}, {}}));
    const Result<Job> again = withDrawing(later, placePart(later.stock, resistor, place));
    ASSERT_TRUE(again) << again.error().message;
    EXPECT_EQ(again->stock.parts.back().reference, last.reference);
    EXPECT_NE(again->stock.parts.back().id, last.id);
}

// Somebody else's part is at the place by now.
TEST(DrawingEdits, APartThatComesBackStandsNotOnAnother) {
    Job job = test::demoJob("small-rooster");
    job.plan.clear();
    const Part gone = partNamed(job, "R4");
    const Job missing = corrected(job, gone.id, PresenceFound{});
    Part other;
    other.value = 1e3;
    const Result<Job> edited = withDrawing(missing, placePart(missing.stock, other, *gone.placement));
    ASSERT_TRUE(edited) << edited.error().message;
    const Result<Job> back = takeBackCorrection(*edited, 0);
    ASSERT_TRUE(back) << back.error().message;
    const Part& come = *findPart(back->stock, gone.id);
    EXPECT_EQ(come.nets, gone.nets);
    ASSERT_TRUE(come.placement);
    EXPECT_NE(come.placement, gone.placement);
    EXPECT_EQ(placeFault(back->stock, come), "");
    EXPECT_EQ(linesSay(back->stock, come.id), "");
}

TEST(DrawingEdits, AClosedVisitIsNotDrawn) {
    Job job = test::demoJob("small-rooster");
    job.visit.state = VisitState::gone;
    const Result<Job> refused = withDrawing(job, move(job.stock, {{partNamed(job, "VR1").id}, {}, {}}, {1, 0}));
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().message, testing::HasSubstr("is gone and its record closed"));
}

// ---- The plan -----------------------------------------------------------------------------------------------------

// A mod that is off hid one that is on: fitted first all the same, it made the other fail before and after.
TEST(DrawingEdits, AModThatIsOffSaysNothingAgainstTheDrawing) {
    Job job = test::demoJob("small-rooster");
    job.plan.clear();
    const PartId c2 = partNamed(job, "C2").id;
    job.plan = {{"m1", "A", "Out", RemovePart{c2}, false}, {"m2", "B", "Larger", SwapValue{c2, 1e-6}, true}};
    ASSERT_TRUE(nowCircuit(job));
    EXPECT_FALSE(withDrawing(job, erase(job.stock, {{c2}, {}, {}})));
    job.plan[1].on = false;
    EXPECT_TRUE(withDrawing(job, erase(job.stock, {{c2}, {}, {}})));
}

// The part that only the second throw works on may not go either.
TEST(DrawingEdits, EveryThrowOfASwitchIsKeptFittable) {
    Job job = test::demoJob("small-rooster");
    const PartId c2 = partNamed(job, "C2").id;
    FitSwitch change;
    change.throws = {{"as found", {}}, {"fat", {SwapValue{c2, 1e-6}}}};
    job.plan = {{"m1", "A", "Voice", change, true}};
    ASSERT_TRUE(nowCircuit(job)) << nowCircuit(job).error().message;
    const Result<Job> refused = withDrawing(job, erase(job.stock, {{c2}, {}, {}}));
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().message, testing::HasSubstr("take mod A off the list first"));
}

}  // namespace
}  // namespace ohmwright
