// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/edits.h"

#include "core/plan/apply.h"
#include "tests/support/demo_job.h"
#include "tests/support/random_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::Chance;
using testing::HasSubstr;

Job demo() {
    return test::harbourLamp();
}

Job done(const Result<Job>& edited) {
    EXPECT_TRUE(edited) << (edited ? "" : edited.error().message);
    return edited ? *edited : Job();
}

std::string refusal(const Result<Job>& edited) {
    EXPECT_TRUE(edited || edited.error().code == ErrorCode::invalidInput);
    return edited ? "no error" : edited.error().message;
}

double swappedValue(const Mod& mod) {
    const auto* swap = std::get_if<SwapValue>(&mod.change);
    return swap ? swap->value : std::nan("");
}

NewPart resistor(const std::string& reference, double ohms) {
    NewPart part;
    part.reference = reference;
    part.value = ohms;
    return part;
}

TEST(SetPartValue, ChangesTheModThatThePartHas) {
    const Job job = done(setPartValue(demo(), "c4", 150e-9));
    ASSERT_EQ(job.plan.size(), 4U);
    EXPECT_EQ(job.plan[0].letter, "A");
    EXPECT_EQ(job.plan[0].name, "Gain cap");
    EXPECT_EQ(swappedValue(job.plan[0]), 150e-9);
    EXPECT_EQ(job.stock, demo().stock);
}

TEST(SetPartValue, SwitchesTheModOn) {
    const Job job = done(setPartValue(demo(), "r5", 2.2e3));
    EXPECT_EQ(swappedValue(job.plan[2]), 2.2e3);
    EXPECT_TRUE(job.plan[2].on);
}

TEST(SetPartValue, AddsAModWithTheNextLetterNamedByThePartsRole) {
    const Job job = done(setPartValue(demo(), "r7", 2.2e3));
    ASSERT_EQ(job.plan.size(), 5U);
    EXPECT_EQ(job.plan[4].letter, "E");
    EXPECT_EQ(job.plan[4].name, "Low-pass resistor");
    EXPECT_TRUE(job.plan[4].on);
    EXPECT_EQ(swappedValue(job.plan[4]), 2.2e3);
    EXPECT_FALSE(job.plan[4].id.empty());
}

TEST(SetPartValue, BackAtStockTakesTheModOut) {
    const Job away = done(setPartValue(demo(), "r7", 2.2e3));
    EXPECT_EQ(done(setPartValue(away, "r7", 1.5e3)), demo());
    // The last digit of a typed 56n and of the file's need not agree.
    const Job job = done(setPartValue(demo(), "c4", std::nextafter(56e-9, 1.0)));
    ASSERT_EQ(job.plan.size(), 3U);
    EXPECT_EQ(job.plan[0].letter, "B");
    EXPECT_EQ(done(setPartValue(demo(), "r7", 1.5e3)), demo());
}

TEST(SetPartValue, BackAtStockLeavesNoOtherModThatHoldsThePart) {
    Job job = done(addMod(demo(), SwapValue{"c4", 180e-9}));
    ASSERT_EQ(valueModOf(job.plan, "c4")->letter, "E");
    job = done(setPartValue(job, "c4", 56e-9));
    EXPECT_EQ(applyPlan(job.stock, job.plan)->parts, demo().stock.parts);
}

TEST(SetPartValue, OfAFittedPartChangesTheModThatFitsIt) {
    Job job = done(addMod(demo(), AddAcross{"c4", 0, 1, resistor("R13", 1e6), false}, "Bleeder"));
    const std::string id = job.plan.back().id;
    job = done(setPartValue(job, id, 2.2e6));
    ASSERT_EQ(job.plan.size(), 5U);
    EXPECT_EQ(std::get<AddAcross>(job.plan.back().change).fitted.value, 2.2e6);
    EXPECT_THAT(refusal(setPartValue(job, id, 0.0)), HasSubstr("R13"));
}

TEST(SetPartValue, RefusesWhatCannotBe) {
    EXPECT_THAT(refusal(setPartValue(demo(), "nowhere", 1.0)), HasSubstr("nowhere"));
    EXPECT_THAT(refusal(setPartValue(demo(), "d1", 1.0)), HasSubstr("D1"));
    EXPECT_THAT(refusal(setPartValue(demo(), "c4", -1.0)), HasSubstr("C4 Cg"));
    EXPECT_THAT(refusal(setPartValue(demo(), "c4", std::nan(""))), HasSubstr("C4 Cg"));
    EXPECT_THAT(refusal(setPartValue(demo(), "mod-b", 10.0)), HasSubstr("Mod B (Third diode) fits"));
    EXPECT_THAT(refusal(setPartValue(done(setModOn(demo(), "mod-b", true)), "mod-b", 10.0)),
                HasSubstr("D3 is a diode"));
    // A letter that the list does not show yet would only puzzle.
    EXPECT_THAT(refusal(setPartValue(demo(), "r7", -1.0)), testing::StartsWith("R7 Rlp would get a value"));
}

TEST(SetPartValue, WorksWhileAnotherModOfThePlanCannotBeFitted) {
    Job job = demo();
    job.plan.push_back({"broken", "X", "Broken", Lift{"nowhere", 0}, true});
    ASSERT_FALSE(applyPlan(job.stock, job.plan));
    EXPECT_EQ(swappedValue(done(setPartValue(job, "c4", 82e-9)).plan[0]), 82e-9);
    EXPECT_THAT(refusal(setPartValue(job, "c4", -1.0)), HasSubstr("C4 Cg"));
}

Model schottky() {
    return {"BAT41", PartKind::diode, {{"IS", 7.84e-10}}, "fit"};
}

TEST(SetPartType, AddsChangesAndTakesOutTheMod) {
    Job job = done(setPartType(demo(), "d1", schottky()));
    ASSERT_EQ(job.plan.size(), 5U);
    EXPECT_EQ(std::get<SwapType>(job.plan[4].change).model, schottky());
    Model germanium{"1N34A", PartKind::diode, {{"IS", 200e-9}}, "card"};
    job = done(setPartType(job, "d1", germanium));
    ASSERT_EQ(job.plan.size(), 5U);
    EXPECT_EQ(std::get<SwapType>(job.plan[4].change).model, germanium);
    const Circuit stock = demo().stock;
    EXPECT_EQ(done(setPartType(job, "d1", *findModel(stock, "1N4148"))), demo());
}

TEST(SetPartType, OfAFittedPartChangesTheModThatFitsIt) {
    const Job job = done(setPartType(demo(), "mod-b", schottky()));
    ASSERT_EQ(job.plan.size(), 4U);
    EXPECT_EQ(std::get<AddInSeries>(job.plan[1].change).fitted.model, schottky());
    EXPECT_TRUE(job.plan[1].on);
}

TEST(SetPartType, RefusesAnotherKind) {
    EXPECT_THAT(refusal(setPartType(demo(), "q1", schottky())), HasSubstr("Q1"));
    EXPECT_THAT(refusal(setPartType(demo(), "c4", schottky())), HasSubstr("C4 Cg"));
    EXPECT_THAT(refusal(setPartType(demo(), "nowhere", schottky())), HasSubstr("nowhere"));
}

TEST(AddMod, TriesTheChangeOnNowAndNotOnStock) {
    Job job = done(setModOn(demo(), "mod-b", true));
    job = done(addMod(job, Lift{"mod-b", 0}, "Out"));
    EXPECT_EQ(job.plan.back().name, "Out");
    EXPECT_EQ(job.plan.back().letter, "E");
    EXPECT_TRUE(job.plan.back().on);
    EXPECT_THAT(refusal(addMod(demo(), Lift{"mod-b", 0})), HasSubstr("is off"));
    EXPECT_THAT(refusal(addMod(demo(), Lift{"c4", 7})), HasSubstr("C4 Cg has no leg 8"));
}

TEST(AddMod, NeverUsesAnIdTwice) {
    Job job = demo();
    job.stock.parts[0].id = "mod-e";
    job = done(addMod(job, Lift{"c4", 0}));
    EXPECT_NE(job.plan.back().id, "mod-e");
    // Letter B is free again, yet another mod still names the part that the old B would have fitted.
    job = done(addMod(job, SwapValue{"c7", 22e-9}));
    job.plan.push_back({"late", "Z", "", Lift{"mod-b", 0}, false});
    job = done(removeMod(job, "mod-b"));
    job = done(addMod(job, Bridge{"r4", 0, 1}));
    EXPECT_EQ(job.plan.back().letter, "B");
    EXPECT_NE(job.plan.back().id, "mod-b");
}

TEST(AddMod, IsNamedByRoleOrFunctionOrReference) {
    Job job = demo();
    EXPECT_EQ(done(addMod(job, Lift{"c4", 0})).plan.back().name, "Gain-leg capacitor");
    findPart(job.stock, "c4")->role.clear();
    EXPECT_EQ(done(addMod(job, Lift{"c4", 0})).plan.back().name, "Cg");
    findPart(job.stock, "c4")->function.clear();
    EXPECT_EQ(done(addMod(job, Lift{"c4", 0})).plan.back().name, "C4");
}

TEST(ModEdits, SwitchRenameRemoveAndMove) {
    const Job job = demo();
    EXPECT_FALSE(done(setModOn(job, "mod-a", false)).plan[0].on);
    EXPECT_EQ(done(setModOn(done(setModOn(job, "mod-a", false)), "mod-a", true)), job);
    EXPECT_EQ(done(renameMod(job, "mod-c", "Rg \"Ω\"")).plan[2].name, "Rg \"Ω\"");
    EXPECT_EQ(done(removeMod(job, "mod-b")).plan.size(), 3U);
    const auto order = [](const Job& moved) {
        std::string letters;
        for (const Mod& mod : moved.plan) {
            letters += mod.letter;
        }
        return letters;
    };
    EXPECT_EQ(order(done(moveMod(job, "mod-a", 2))), "BCAD");
    EXPECT_EQ(order(done(moveMod(job, "mod-d", 0))), "DABC");
    EXPECT_EQ(order(done(moveMod(job, "mod-b", 99))), "ACDB");
    EXPECT_EQ(order(done(moveMod(job, "mod-b", -5))), "BACD");
    EXPECT_EQ(done(moveMod(job, "mod-b", 1)), job);
}

TEST(ModEdits, AModThatIsNotThereIsNamed) {
    const Job job = demo();
    for (const Result<Job>& edited : {setModOn(job, "mod-x", true), removeMod(job, "mod-x"),
                                      renameMod(job, "mod-x", ""), moveMod(job, "mod-x", 0)}) {
        EXPECT_THAT(refusal(edited), HasSubstr("mod-x"));
    }
}

TEST(SettingEdits, AKnobIsHeldToItsTravel) {
    EXPECT_EQ(done(setKnob(demo(), "drive", 3.0)).setting.knobs.at("drive"), 3.0);
    EXPECT_EQ(done(setKnob(demo(), "drive", 11.0)).setting.knobs.at("drive"), 10.0);
    EXPECT_EQ(done(setKnob(demo(), "drive", -1.0)).setting.knobs.at("drive"), 0.0);
    EXPECT_THAT(refusal(setKnob(demo(), "tone", 5.0)), HasSubstr("tone"));
    EXPECT_THAT(refusal(setKnob(demo(), "drive", std::nan(""))), HasSubstr("drive"));
}

TEST(SettingEdits, ASettingOutsideItsRangeIsRefused) {
    Setting setting = demo().setting;
    setting.batteryVolts = 7.2;
    EXPECT_EQ(done(setSetting(demo(), setting)).setting, setting);
    setting.batteryVolts = -9.0;
    EXPECT_THAT(refusal(setSetting(demo(), setting)), HasSubstr("Battery"));
}

TEST(Names, LettersGoOnAfterZ) {
    Plan plan;
    EXPECT_EQ(nextFreeLetter(plan), "A");
    for (int i = 0; i < 26; ++i) {
        plan.push_back({"m", nextFreeLetter(plan), "", Lift{}, true});
    }
    EXPECT_EQ(plan.back().letter, "Z");
    EXPECT_EQ(nextFreeLetter(plan), "AA");
    for (int i = 0; i < 26; ++i) {
        plan.push_back({"m", nextFreeLetter(plan), "", Lift{}, true});
    }
    EXPECT_EQ(nextFreeLetter(plan), "BA");
    plan.erase(plan.begin() + 1);
    EXPECT_EQ(nextFreeLetter(plan), "B");
}

TEST(Names, ReferencesFollowTheHighestOfBoardAndPlan) {
    Job job = demo();
    EXPECT_EQ(nextFreeReference(job, PartKind::diode), "D4");  // Mod B fits D3, on or off.
    EXPECT_EQ(nextFreeReference(job, PartKind::resistor), "R13");
    EXPECT_EQ(nextFreeReference(job, PartKind::capacitor), "C13");
    EXPECT_EQ(nextFreeReference(job, PartKind::potentiometer), "VR3");
    EXPECT_EQ(nextFreeReference(job, PartKind::inductor), "L1");
    job.plan.clear();
    EXPECT_EQ(nextFreeReference(job, PartKind::diode), "D3");
    job.stock.parts[0].reference = "R99999999999999999999";
    EXPECT_EQ(nextFreeReference(job, PartKind::resistor), "R13");
}

TEST(Names, TheValueModIsTheOneThatCounts) {
    Plan plan{{"a", "A", "", SwapValue{"c4", 1e-9}, true},
              {"b", "B", "", SwapValue{"c4", 2e-9}, true},
              {"c", "C", "", SwapValue{"c4", 3e-9}, false}};
    EXPECT_EQ(valueModOf(plan, "c4")->id, "b");
    plan[1].on = false;
    EXPECT_EQ(valueModOf(plan, "c4")->id, "a");
    plan[0].on = false;
    EXPECT_EQ(valueModOf(plan, "c4")->id, "c");
    EXPECT_FALSE(valueModOf(plan, "r5"));
}

TEST(Edits, RandomOnesNeverCrashAndNeverTouchStock) {
    Chance chance(123);
    const Circuit stock = demo().stock;
    Job job = demo();
    int accepted = 0;
    for (int i = 0; i < 3000; ++i) {
        const std::string mod = job.plan.empty() ? "mod-a" : chance.of(job.plan).id;
        const PartId part = chance.oneIn(5) ? mod : chance.of(stock.parts).id;
        Result<Job> edited = job;
        switch (chance.below(7)) {
            case 0:
                edited = setPartValue(job, part, chance.number());
                break;
            case 1:
                edited = addMod(job, test::randomChange(chance, {part}));
                break;
            case 2:
                edited = setModOn(job, mod, chance.oneIn(2));
                break;
            case 3:
                edited = removeMod(job, mod);
                break;
            case 4:
                edited = moveMod(job, mod, chance.below(9) - 2);
                break;
            case 5:
                edited = setKnob(job, chance.of(stock.knobs).id, 20.0 * chance.share() - 5.0);
                break;
            default:
                edited = setPartValue(job, part, 1e3);
                break;
        }
        if (edited) {
            ++accepted;
            job = *edited;
            ASSERT_EQ(job.stock, stock);
        } else {
            ASSERT_FALSE(edited.error().message.empty());
        }
    }
    EXPECT_GT(accepted, 1000);
}

TEST(Words, AreHeldInSmallLettersAndOnce) {
    Job job = demo();
    job.visit.words.clear();
    job = done(addWord(job, "  Less Squashed "));
    EXPECT_EQ(job.visit.words, std::vector<std::string>{"less squashed"});
    EXPECT_THAT(refusal(addWord(job, "LESS SQUASHED")), HasSubstr("already"));
    EXPECT_THAT(refusal(addWord(job, "  ")), HasSubstr("no word"));
    job = done(addWord(job, "louder"));
    EXPECT_EQ(job.visit.words, (std::vector<std::string>{"less squashed", "louder"}));
    EXPECT_THAT(refusal(removeWord(job, "darker")), HasSubstr("darker"));
    EXPECT_EQ(done(removeWord(job, "less squashed")).visit.words, std::vector<std::string>{"louder"});
}

TEST(Words, AreNoPartOfTheStateThatPapersAreSignedWith) {
    EXPECT_EQ(stateHash(done(addWord(demo(), "darker"))), stateHash(demo()));
}

// 3k9 becomes 2k2 with 470R in series: one value mod and one new part, in the order of the list.
TEST(PlanChanges, EachChangeBecomesAMod) {
    const Job job =
        done(planChanges(demo(), {SwapValue{"r5", 2200.0}, AddInSeries{"r5", 1, resistor("R5b", 470.0), false}}));
    ASSERT_EQ(job.plan.size(), 5U);
    EXPECT_EQ(swappedValue(job.plan[2]), 2200.0);
    EXPECT_TRUE(job.plan[2].on);
    EXPECT_TRUE(std::holds_alternative<AddInSeries>(job.plan[4].change));
    const auto now = nowCircuit(job);
    ASSERT_TRUE(now);
    EXPECT_NE(findPartByReference(*now, "R5b"), nullptr);
}

TEST(PlanChanges, OneThatCannotBeMadeRefusesAll) {
    EXPECT_THAT(refusal(planChanges(demo(), {SwapValue{"r5", 2200.0}, SwapValue{"z9", 1.0}})), HasSubstr("z9"));
}

TEST(AsOneChange, TwoNewPartsHaveIdsOfTheirOwn) {
    const Change one = asOneChange(
        {AddAcross{"r5", 0, 1, resistor("R5b", 10e3), false}, AddAcross{"r6", 0, 1, resistor("R6b", 10e3), false}});
    const Job job = done(addMod(demo(), one));
    const auto now = nowCircuit(job);
    ASSERT_TRUE(now) << now.error().message;
    EXPECT_NE(findPart(*now, "R5b"), nullptr);
    EXPECT_NE(findPart(*now, "R6b"), nullptr);
}

TEST(SetThrow, StandsASwitchAtAThrowThatItHas) {
    Job job = demo();
    job.plan = {
        Mod{"mod-s", "S", "Clip switch", FitSwitch{"d1", {{"silicon", {}}, {"centre off", {RemovePart{"d1"}}}}}, true},
        Mod{"mod-v", "V", "Gain", SwapValue{"r5", 2200.0}, true}};
    const Job off = done(setThrow(job, "mod-s", "centre off"));
    EXPECT_EQ(throwOf(off.setting.throws, "mod-s"), "centre off");
    EXPECT_NE(findPart(*nowCircuit(job), "d1"), nullptr);
    EXPECT_EQ(findPart(*nowCircuit(off), "d1"), nullptr);
    EXPECT_THAT(refusal(setThrow(job, "mod-s", "LED")), HasSubstr("Choose one of: silicon, centre off"));
    EXPECT_THAT(refusal(setThrow(job, "mod-v", "silicon")), HasSubstr("fits no switch"));
    EXPECT_THAT(refusal(setThrow(job, "mod-x", "silicon")), HasSubstr("mod-x"));
}

TEST(Edits, AMeasuredValueIsOfTheUnitAsFound) {
    const Job job = test::harbourLamp();
    const auto measured = setPartMeasured(job, "vr1", 262e3);
    ASSERT_TRUE(measured) << measured.error().message;
    EXPECT_EQ(findPart(measured->stock, "vr1")->measured, 262e3);
    EXPECT_EQ(findPart(measured->stock, "vr1")->knowledge, Knowledge::measured);
    EXPECT_EQ(measured->plan, job.plan);
    const auto takenBack = setPartMeasured(*measured, "vr1", {});
    EXPECT_FALSE(findPart(takenBack->stock, "vr1")->measured);
    EXPECT_EQ(findPart(takenBack->stock, "vr1")->knowledge, Knowledge::seen);
    EXPECT_FALSE(setPartMeasured(job, "nobody", 1.0));
    EXPECT_FALSE(setPartMeasured(job, "d1", 1.0)) << "a diode has no value";
    EXPECT_FALSE(setPartMeasured(job, "r5", -1.0));
    EXPECT_FALSE(setPartMeasured(job, "r5", std::nan("")));
}

}  // namespace
}  // namespace ohmwright
