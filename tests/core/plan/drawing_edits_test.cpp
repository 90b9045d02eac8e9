// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/drawing_edits.h"

#include "core/drawing/arrange.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/plan/edits.h"
#include "tests/support/demo_jobs.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

const Part& partNamed(const Job& job, const char* reference) {
    return *findPartByReference(job.stock, reference);
}

TEST(DrawingEdits, AMovedPartChangesNothingOfThePlan) {
    const Job job = test::demoJob("harbour-lamp", "ABCD");
    const Result<Job> edited = withDrawing(job, move(job.stock, {{partNamed(job, "C4").id}, {}, {}}, {0, 0}));
    ASSERT_TRUE(edited) << edited.error().message;
    EXPECT_EQ(*edited, job);
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

}  // namespace
}  // namespace ohmwright
