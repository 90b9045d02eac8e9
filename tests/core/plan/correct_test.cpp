// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correct.h"

#include "core/circuit/check.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"
#include "core/plan/findings.h"
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

TEST(Correct, APotThatIsNotThereComesBackWithItsKnob) {
    const Job drawn = harbourLampWith("");
    const PartId pot = drawn.stock.knobs.front().part;
    const Job job = made(correct(drawn, found(pot, PresenceFound{})));
    EXPECT_EQ(knobOf(job.stock, pot), nullptr);
    EXPECT_EQ(withoutKnowledge(made(takeBackCorrection(job, 0))), withoutKnowledge(drawn));
}

TEST(Correct, ALegOnAPadOfItsOwnIsOpenOnPurpose) {
    const Job job = made(correct(harbourLampWith(""), found("c4", LegFound{1, "no pad"})));
    EXPECT_THAT(netsWithoutDcPath(job.stock), IsEmpty());
    EXPECT_THAT(job.corrections[0].opened, testing::Contains("no pad"));
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
