// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correct.h"

#include "core/circuit/check.h"
#include "core/drawing/edit.h"
#include "core/drawing/rejoin.h"
#include "core/files/job_file.h"
#include "core/plan/apply.h"
#include "core/plan/board_walk.h"
#include "core/plan/edits.h"
#include "core/plan/findings.h"
#include "tests/support/demo_job.h"
#include "tests/support/disguise.h"
#include "tests/support/planned_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Correction found(const PartId& part, Finding finding, CorrectionReason reason = CorrectionReason::boardDiffers) {
    Correction correction;
    correction.part = part;
    correction.found = std::move(finding);
    correction.reason = reason;
    correction.when = "2026-11-29T14:00:00";
    return correction;
}

Job made(const Result<Job>& job) {
    if (!job) {
        ADD_FAILURE() << job.error().message;
        return {};
    }
    return *job;
}

std::string refusal(const Result<Job>& job) {
    return job ? "was taken" : job.error().message;
}

/// Somebody has looked at it, and may: that stays when a correction is taken back.
Job withoutKnowledge(Job job) {
    for (Part& part : job.stock.parts) {
        part.knowledge = Knowledge::drawn;
    }
    return job;
}

TEST(Correct, TheBoardsValueIsStockAndTheDrawingsIsKept) {
    const Job job = made(correct(harbourLampWith(""), found("c4", ValueFound{68e-9, "683"})));
    EXPECT_EQ(findPart(job.stock, "c4")->value, 68e-9);
    EXPECT_EQ(findPart(job.stock, "c4")->printed, "683");
    ASSERT_THAT(job.corrections, SizeIs(1));
    EXPECT_EQ(std::get<ValueFound>(job.corrections[0].drawn), (ValueFound{56e-9, "563"}));
    EXPECT_EQ(job.corrections[0].visit, job.visit.number);
    EXPECT_THAT(job.plan, SizeIs(harbourLampWith("").plan.size()));
    EXPECT_EQ(correctionWords(job.stock, job.corrections[0]),
              "C4 Cg: 68n (printed 683), the drawing says 56n (printed 563) (board differs)");
    EXPECT_EQ(drawingSays(job, "c4"), "the drawing says 56n (printed 563)");
    EXPECT_EQ(drawingSays(job, "r5"), "");
}

TEST(Correct, WhoSaysHowTheBoardIsHasLookedAtIt) {
    Job job = harbourLampWith("");
    findPart(job.stock, "c4")->knowledge = Knowledge::drawn;
    const Correction value = found("c4", ValueFound{68e-9, {}});
    EXPECT_EQ(findPart(made(correct(job, value)).stock, "c4")->knowledge, Knowledge::seen);
    const Correction misread = found("c4", ValueFound{68e-9, {}}, CorrectionReason::misread);
    EXPECT_EQ(findPart(made(correct(job, misread)).stock, "c4")->knowledge, Knowledge::drawn);
}

TEST(Correct, OnlyABoardThatDiffersIsAnotherRevision) {
    Job job = harbourLampWith("");
    const std::string revision = job.unit.boardRevision;
    job = made(correct(job, found("c4", ValueFound{68e-9, {}}, CorrectionReason::misread)));
    job = made(correct(job, found("r5", ValueFound{2200.0, {}}, CorrectionReason::earlierMod)));
    EXPECT_EQ(revisionWords(job), revision);
    job = made(correct(job, found("r7", ValueFound{2200.0, {}})));
    EXPECT_EQ(revisionWords(job), revision + ", differs in R7 Rlp");
    job = made(correct(job, found("c7", ToleranceFound{0.05})));
    EXPECT_EQ(revisionWords(job), revision + ", differs in R7 Rlp and C7 Clp");
}

TEST(Correct, TheSameThingAgainStaysOneEntryAndAsDrawnNone) {
    const Job drawn = harbourLampWith("");
    Job job = made(correct(drawn, found("c4", ValueFound{68e-9, "683"})));
    job = made(correct(job, found("c4", ValueFound{82e-9, "823"}, CorrectionReason::earlierMod)));
    ASSERT_THAT(job.corrections, SizeIs(1));
    EXPECT_EQ(std::get<ValueFound>(job.corrections[0].drawn).value, 56e-9);
    EXPECT_EQ(std::get<ValueFound>(job.corrections[0].found).value, 82e-9);
    EXPECT_EQ(job.corrections[0].reason, CorrectionReason::earlierMod);
    job = made(correct(job, found("c4", ValueFound{56e-9, "563"})));
    EXPECT_EQ(withoutKnowledge(job), withoutKnowledge(drawn));
}

TEST(Correct, WhatIsDrawnAlreadyIsNoCorrection) {
    EXPECT_EQ(refusal(correct(harbourLampWith(""), found("r5", ValueFound{3900.0, {}}))),
              "R5 Rg: 3k9 (printed orange-white-red-gold), as the drawing says. There is nothing to correct.");
    // Another marking on the body is a finding of its own.
    const Job job = made(correct(harbourLampWith(""), found("r5", ValueFound{3900.0, "3901"})));
    EXPECT_EQ(findPart(job.stock, "r5")->printed, "3901");
}

// ---- With mods ----------------------------------------------------------------------------------------------------

// Mod C makes R5 2k7. Who reads 2k7 on the board either met the fitted mod, or a board that had it all along.
TEST(Correct, AModThatMakesWhatTheBoardHasIsSaidToChangeNothing) {
    const Job job = harbourLampWith("AC");
    const Correction value = found("r5", ValueFound{2700.0, {}});
    const Job corrected = made(correct(job, value));
    EXPECT_EQ(corrected.plan, job.plan);
    const std::vector<ModAndCorrection> met = modsOnCorrected(corrected, corrected.corrections[0]);
    ASSERT_THAT(met, SizeIs(1));
    EXPECT_TRUE(met[0].changesNothing);
    EXPECT_THAT(met[0].sentence, HasSubstr("makes R5 Rg what the board has already and changes nothing now: switch C "
                                           "off or take it out."));
    EXPECT_EQ(nowCircuit(corrected)->parts.size(), corrected.stock.parts.size());
}

TEST(Correct, AModStartsFromWhatTheBoardHas) {
    const Job corrected = made(correct(harbourLampWith("AC"), found("c4", ValueFound{68e-9, {}})));
    const std::vector<ModAndCorrection> met = modsOnCorrected(corrected, corrected.corrections[0]);
    ASSERT_THAT(met, SizeIs(1));
    EXPECT_FALSE(met[0].changesNothing);
    EXPECT_THAT(met[0].sentence, HasSubstr("starts from what the board has: C4 Cg 68n, not 56n (printed 563)."));
    EXPECT_EQ(findPart(*nowCircuit(corrected), "c4")->value, 120e-9);
}

TEST(Correct, APartThatAModTakesOutIsCorrectedForTheWayBack) {
    const Job job = made(addMod(harbourLampWith(""), RemovePart{"c5"}));
    const Job corrected = made(correct(job, found("c5", ValueFound{47e-12, {}})));
    const std::vector<ModAndCorrection> met = modsOnCorrected(corrected, corrected.corrections[0]);
    ASSERT_THAT(met, SizeIs(1));
    EXPECT_THAT(met[0].sentence, HasSubstr("takes C5"));
    EXPECT_THAT(met[0].sentence, HasSubstr("the way back puts in what the board had."));
}

TEST(Correct, APartThatAModNeedsCannotGoWhileTheModIsOn) {
    const Job job = harbourLampWith("C");
    const std::string sentence = refusal(correct(job, found("r5", PresenceFound{})));
    EXPECT_THAT(sentence, HasSubstr("Mod C"));
    EXPECT_THAT(sentence, HasSubstr("Nothing is corrected: switch C off or take it out first."));
    const Job off = made(setModOn(job, "mod-c", false));
    EXPECT_EQ(findPart(made(correct(off, found("r5", PresenceFound{}))).stock, "r5"), nullptr);
}

// A mod that could not be fitted before let every other one break unsaid.
TEST(Correct, AModThatFailsAlreadyHidesNoOther) {
    Job job = harbourLampWith("C");
    job.plan.insert(job.plan.begin(), Mod{"broken", "Z", "Broken", SwapValue{"r99", 1e3}, true});
    EXPECT_THAT(refusal(correct(job, found("r5", PresenceFound{}))), HasSubstr("switch C off or take it out first."));
    EXPECT_EQ(findPart(made(correct(job, found("c5", PresenceFound{}))).stock, "c5"), nullptr);
}

// One of its changes makes what the board has; the mod as a whole still does something.
TEST(Correct, AModThatDoesMoreIsNotSaidToChangeNothing) {
    Combined both;
    both.changes = {SwapValue{"r5", 2700.0}, SwapValue{"c4", 120e-9}};
    Job job = harbourLampWith("");
    job.plan = {Mod{"m1", "A", "Both", both, true}};
    const Job corrected = made(correct(job, found("r5", ValueFound{2700.0, {}})));
    const std::vector<ModAndCorrection> met = modsOnCorrected(corrected, corrected.corrections[0]);
    ASSERT_THAT(met, SizeIs(1));
    EXPECT_FALSE(met[0].changesNothing);
    EXPECT_THAT(met[0].sentence, testing::Not(HasSubstr("changes nothing")));
    FitSwitch voice;
    voice.throws = {{"tight", {SwapValue{"r5", 2700.0}}}, {"fat", {SwapValue{"r5", 1500.0}}}};
    job.plan = {Mod{"m1", "A", "Voice", voice, true}};
    const Job switched = made(correct(job, found("r5", ValueFound{2700.0, {}})));
    const std::vector<ModAndCorrection> ofSwitch = modsOnCorrected(switched, switched.corrections[0]);
    ASSERT_THAT(ofSwitch, SizeIs(1));
    EXPECT_FALSE(ofSwitch[0].changesNothing);
}

TEST(Correct, ALegThatAModMovesThereIsNotCorrectedUnderIt) {
    const Circuit stock = harbourLampWith("").stock;
    const NetName elsewhere = findPart(stock, "r7")->nets[0];
    const Job job = made(addMod(harbourLampWith(""), MoveLeg{"c7", 0, elsewhere}));
    EXPECT_THAT(refusal(correct(job, found("c7", LegFound{0, elsewhere}))), HasSubstr("Mod E"));
}

TEST(Correct, APartThatAModBringsIsOfThePlan) {
    EXPECT_THAT(refusal(correct(harbourLampWith("B"), found("mod-b", ValueFound{1.0, {}}))),
                HasSubstr("brings that part: it is of the plan and not of the unit as found."));
}

// ---- Every kind, and back -----------------------------------------------------------------------------------------

/// One of each kind on Harbour Lamp.
std::vector<Correction> oneOfEach(const Circuit& stock) {
    Part more;
    more.reference = "R40";
    more.kind = PartKind::resistor;
    more.value = 10e3;
    more.nets = {findPart(stock, "r7")->nets[0], NetName(groundNet)};
    PresenceFound onBoard;
    onBoard.part = more;
    onBoard.beside = "r7";
    Model type = *findModel(stock, findPart(stock, "d1")->model);
    type.name = "BAT41";
    type.parameters["IS"] = 2e-7;
    PartId pot;
    for (const Part& part : stock.parts) {
        pot = part.kind == PartKind::potentiometer && pot.empty() ? part.id : pot;
    }
    return {found("c4", ValueFound{68e-9, "683"}),
            found("d1", TypeFound{type, {}}),
            found("r5", ToleranceFound{0.01}),
            found(pot, LawFound{Taper::reverseLogarithmic, 0.12}),
            found("c7", LegFound{1, findPart(stock, "r7")->nets[0]}),
            found("r9", ReferenceFound{"R19"}),
            found("r6", BoardNoteFound{"under the drive pot"}),
            found("c5", PresenceFound{}),
            found({}, onBoard)};
}

TEST(Correct, EveryKindIsTakenBackToTheLetter) {
    const Job drawn = harbourLampWith("");
    for (const Correction& correction : oneOfEach(drawn.stock)) {
        const Job job = made(correct(drawn, correction));
        ASSERT_THAT(job.corrections, SizeIs(1));
        SCOPED_TRACE(correctionWords(job.stock, job.corrections[0]));
        EXPECT_NE(stateHash(job), stateHash(drawn));
        EXPECT_EQ(withoutKnowledge(made(takeBackCorrection(job, 0))), withoutKnowledge(drawn));
    }
}

TEST(Correct, AllTogetherAreTakenBackInAnyOrder) {
    const Job drawn = harbourLampWith("");
    Job job = drawn;
    for (const Correction& correction : oneOfEach(drawn.stock)) {
        job = made(correct(job, correction));
    }
    for (const std::size_t index : {4U, 7U, 0U, 3U, 0U, 1U, 2U, 1U, 0U}) {
        job = made(takeBackCorrection(job, index));
    }
    EXPECT_EQ(withoutKnowledge(job), withoutKnowledge(drawn));
}

// Its position stayed in the setting: the file that was written was refused by every verb, taking back included.
TEST(Correct, APotThatIsNotThereComesBackWithItsKnob) {
    Job drawn = harbourLampWith("");
    const Knob knob = drawn.stock.knobs.front();
    drawn.setting.knobs[knob.id] = 3.5;
    const Job job = made(correct(drawn, found(knob.part, PresenceFound{})));
    EXPECT_EQ(knobOf(job.stock, knob.part), nullptr);
    EXPECT_TRUE(checkSetting(job.stock, job.setting));
    const Result<Job> read = readJob(writeJob(job));
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_EQ(*read, job);
    EXPECT_EQ(withoutKnowledge(made(takeBackCorrection(*read, 0))), withoutKnowledge(drawn));
}

// Two legs on one pad: which of the two opened it was lost when the first was taken back.
TEST(Correct, APadThatTwoLegsSharedIsClosedWithTheSecond) {
    const Job drawn = harbourLampWith("");
    for (const bool isFirstBackFirst : {true, false}) {
        Job job = made(correct(drawn, found("c7", LegFound{0, "loose"})));
        job = made(correct(job, found("c6", LegFound{0, "loose"})));
        EXPECT_THAT(job.stock.openNets, ElementsAre("loose"));
        job = made(takeBackCorrection(job, isFirstBackFirst ? 0 : 1));
        EXPECT_THAT(job.stock.openNets, ElementsAre("loose"));
        EXPECT_THAT(job.corrections[0].opened, ElementsAre("loose"));
        job = made(takeBackCorrection(job, 0));
        EXPECT_THAT(job.stock.openNets, IsEmpty());
        EXPECT_EQ(withoutKnowledge(job), withoutKnowledge(drawn));
    }
}

// A type that two parts turned out to have goes with the last of them.
TEST(Correct, ATypeThatTwoPartsHaveGoesWithTheLast) {
    const Job drawn = harbourLampWith("");
    Model type = *findModel(drawn.stock, findPart(drawn.stock, "d1")->model);
    type.name = "BAT41";
    for (const bool isFirstBackFirst : {true, false}) {
        Job job = made(correct(drawn, found("d1", TypeFound{type, {}})));
        job = made(correct(job, found("d2", TypeFound{type, {}})));
        job = made(takeBackCorrection(job, isFirstBackFirst ? 0 : 1));
        EXPECT_NE(findModel(job.stock, "BAT41"), nullptr);
        EXPECT_EQ(withoutKnowledge(made(takeBackCorrection(job, 0))), withoutKnowledge(drawn));
    }
}

// Among its neighbours, wherever their stage has gone.
TEST(Correct, APartComesBackToItsNeighbours) {
    const Job drawn = harbourLampWith("");
    Job job = made(correct(drawn, found("c5", PresenceFound{})));
    job.stock.stages.insert(job.stock.stages.begin(), Stage{"Booster", {}, {}, {}, 0});
    job = made(takeBackCorrection(job, 0));
    EXPECT_THAT(job.stock.stages.front().parts, IsEmpty());
    job.stock.stages.erase(job.stock.stages.begin());
    EXPECT_EQ(job.stock.stages, drawn.stock.stages);
}

// ---- A part more on the board -------------------------------------------------------------------------------------

PresenceFound more(PartKind kind, double value, std::vector<NetName> nets, const PartId& beside) {
    PresenceFound onBoard;
    Part part;
    part.reference = "X40";
    part.kind = kind;
    part.value = value;
    part.nets = std::move(nets);
    onBoard.part = part;
    onBoard.beside = beside;
    return onBoard;
}

// It was in the circuit and drawn nowhere: whoever looked at the map did not see it.
TEST(Correct, APartMoreIsDrawnBesideItsNeighbourAndTakenOffWithItsLines) {
    for (const std::string& demo : test::allDemos()) {
        Job drawn = test::jobIn(test::demoJobPath(demo));
        drawn.plan.clear();
        for (const Part& host : drawn.stock.parts) {
            if (!isOnBoard(drawn.stock, host) || host.nets.size() != 2 || host.nets[0] == host.nets[1]) {
                continue;
            }
            SCOPED_TRACE(demo + ", across " + host.reference);
            const Job job = made(correct(drawn, found({}, more(PartKind::capacitor, 1e-9, host.nets, host.id))));
            const Part* part = findPartByReference(job.stock, "X40");
            ASSERT_NE(part, nullptr);
            ASSERT_TRUE(part->placement);
            EXPECT_EQ(placeFault(job.stock, *part), "");
            EXPECT_EQ(rejoin(job.stock).circuit.parts, job.stock.parts);
            EXPECT_EQ(std::get<PresenceFound>(job.corrections[0].found).part->placement, part->placement);
            EXPECT_THAT(revisionWords(job), HasSubstr("X40"));
            EXPECT_EQ(withoutKnowledge(made(takeBackCorrection(job, 0))), withoutKnowledge(drawn));
        }
    }
}

TEST(Correct, EveryPartOfADemoCanGoAndComeBackToItsPlace) {
    for (const std::string& demo : test::allDemos()) {
        Job drawn = test::jobIn(test::demoJobPath(demo));
        drawn.plan.clear();
        for (const Part& part : drawn.stock.parts) {
            if (isOnBoard(drawn.stock, part)) {
                SCOPED_TRACE(demo + ", " + part.reference);
                const Job job = made(correct(drawn, found(part.id, PresenceFound{})));
                EXPECT_EQ(withoutKnowledge(made(takeBackCorrection(job, 0))), withoutKnowledge(drawn));
            }
        }
    }
}

TEST(Correct, ALegOnAPadOfItsOwnIsOpenOnPurpose) {
    const Job job = made(correct(harbourLampWith(""), found("c4", LegFound{1, "no-pad"})));
    EXPECT_THAT(netsWithoutDcPath(job.stock), IsEmpty());
    EXPECT_THAT(job.corrections[0].opened, testing::Contains("no-pad"));
}

// A leg is corrected in the nets; who changes the drawing afterwards goes by its lines.
TEST(Correct, LinesThatStillLeadElsewhereAreSaid) {
    const Job drawn = harbourLampWith("");
    for (const Part& part : drawn.stock.parts) {
        EXPECT_EQ(linesSay(drawn.stock, part.id), "") << part.id;
    }
    const Job job = made(correct(drawn, found("c7", LegFound{1, findPart(drawn.stock, "r7")->nets[0]})));
    EXPECT_EQ(linesSay(job.stock, "c7"),
              "The lines of the drawing still have C7 Clp with leg 2 at ground: draw them anew, or the next change of "
              "the drawing puts it back.");
    EXPECT_EQ(linesSay(made(takeBackCorrection(job, 0)).stock, "c7"), "");
}

TEST(Correct, FindingsThatNoPartHasAreRefusedInWords) {
    const Job job = harbourLampWith("");
    EXPECT_THAT(refusal(correct(job, found("r5", ValueFound{-1.0, {}}))), HasSubstr("cannot have that value"));
    EXPECT_THAT(refusal(correct(job, found("d1", ValueFound{1.0, {}}))), HasSubstr("has no value of its own"));
    EXPECT_THAT(refusal(correct(job, found("r5", LawFound{}))), HasSubstr("is no pot"));
    EXPECT_THAT(refusal(correct(job, found("r5", LegFound{2, "x"}))), HasSubstr("has no leg 3; it has 2."));
    EXPECT_THAT(refusal(correct(job, found("r5", LegFound{1, "a b,(c)"}))), HasSubstr("A net's name is one word"));
    EXPECT_THAT(refusal(correct(job, found({}, more(PartKind::resistor, 1e3, {"lp", ""}, "r7")))),
                HasSubstr("A net's name is one word"));
    EXPECT_THAT(refusal(correct(job, found("r5", ToleranceFound{1.0}))), HasSubstr("from 0 to under 100 %"));
    EXPECT_THAT(refusal(correct(job, found("r5", ReferenceFound{}))), HasSubstr("needs a reference"));
    EXPECT_THAT(refusal(correct(job, found("r99", ValueFound{1e3, {}}))), HasSubstr("There is no part \"r99\""));
    EXPECT_THAT(refusal(correct(job, found(job.stock.ports.battery, PresenceFound{}))),
                HasSubstr("stands for what is connected to the unit"));
}

// ---- Over the visits ----------------------------------------------------------------------------------------------

TEST(Correct, AClosedVisitIsNotCorrected) {
    Job job = harbourLampWith("");
    job.visit.state = VisitState::gone;
    EXPECT_THAT(refusal(correct(job, found("r5", ValueFound{1e3, {}}))), HasSubstr("is gone and its record closed"));
    EXPECT_THAT(refusal(takeBackCorrection(job, 0)), HasSubstr("is gone and its record closed"));
}

TEST(Correct, WhatAnotherChangeWroteOverIsNotTakenBack) {
    Job job = made(correct(harbourLampWith(""), found("c4", ValueFound{68e-9, {}})));
    findPart(job.stock, "c4")->value = 120e-9;  // As the mod of an ended visit leaves it.
    EXPECT_EQ(drawingSays(job, "c4"), "");
    EXPECT_THAT(refusal(takeBackCorrection(job, 0)), HasSubstr("is not any more what this correction found"));
    ++job.visit.number;
    job = made(correct(job, found("c4", ValueFound{100e-9, {}}, CorrectionReason::earlierMod)));
    ASSERT_THAT(job.corrections, SizeIs(2));
    EXPECT_EQ(std::get<ValueFound>(job.corrections[1].drawn).value, 120e-9);
}

}  // namespace
}  // namespace ohmwright
