// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/mod_menu.h"

#include "app/document/job_document.h"
#include "core/plan/edits.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <QMenu>

namespace ohmwright::test {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::Not;

std::vector<QString> entriesOf(const QMenu& menu) {
    std::vector<QString> entries;
    for (const QAction* action : menu.actions()) {
        if (!action->isSeparator()) {
            entries.push_back(action->text());
        }
    }
    return entries;
}

class ModMenuTest : public testing::Test {
protected:
    ModMenuTest() {
        document.setJob(harbourLamp(), {});
        QObject::connect(&menus, &ModMenu::valueAsked, [this](const ValueQuestion& asked) { question = asked; });
    }

    [[nodiscard]] std::unique_ptr<QMenu> menuOf(const PartId& part) const {
        return std::unique_ptr<QMenu>(menus.build(part, nullptr));
    }
    /// The entry at the end of a path of menu texts.
    static QAction* entry(const QMenu& menu, const QStringList& path) {
        const QMenu* level = &menu;
        QAction* found = nullptr;
        for (const QString& text : path) {
            found = nullptr;
            for (QAction* action : level->actions()) {
                if (action->text() == text) {
                    found = action;
                }
            }
            if (!found) {
                ADD_FAILURE() << "no entry " << text.toStdString();
                return nullptr;
            }
            level = found->menu() ? found->menu() : level;
        }
        return found;
    }
    [[nodiscard]] const Mod& lastMod() const { return document.job()->plan.back(); }

    JobDocument document;
    ModMenu menus{document};
    std::optional<ValueQuestion> question;
};

TEST_F(ModMenuTest, APartWithAValueOffersWhatCanBeDone) {
    EXPECT_THAT(entriesOf(*menuOf("c4")), ElementsAre("Swap value…", "Add in series", "Add across", "Lift", "Bridge"));
    EXPECT_THAT(entriesOf(*menuOf("d1")), ElementsAre("Swap type", "Add in series", "Add across", "Lift", "Bridge"));
}

TEST_F(ModMenuTest, WhatIsSetInTheKnobRowSaysSo) {
    EXPECT_THAT(entriesOf(*menuOf("vbat")), ElementsAre("The battery is set in the knob row"));
    EXPECT_THAT(entriesOf(*menuOf("rload")), ElementsAre("The next box is set in the knob row"));
    EXPECT_THAT(entriesOf(*menuOf("vsig")), ElementsAre("The pick level is set in the knob row"));
    EXPECT_THAT(entriesOf(*menuOf("none")), ElementsAre("Select a part first"));
}

TEST_F(ModMenuTest, TypesOfTheCircuitComeBeforeThoseOfTheLibraryEachOnce) {
    menus.setModels({Model{"LED red", PartKind::diode, {{"IS", 1e-20}}, "test"},
                     Model{"1N4148", PartKind::diode, {}, "test"}, Model{"BC549", PartKind::bipolar, {}, "test"}});
    const auto menu = menuOf("d1");
    EXPECT_THAT(entriesOf(*entry(*menu, {"Swap type"})->menu()), ElementsAre("1N4148, fitted now", "LED red"));
}

TEST_F(ModMenuTest, ATypeIsSwappedAtOnceAndSwappedAgainInTheSameMod) {
    menus.setModels({Model{"LED red", PartKind::diode, {{"IS", 1e-20}}, "test"}});
    const std::size_t before = document.job()->plan.size();
    entry(*menuOf("d1"), {"Swap type", "LED red"})->trigger();
    ASSERT_EQ(document.job()->plan.size(), before + 1);
    EXPECT_EQ(std::get<SwapType>(lastMod().change).model.name, "LED red");
    EXPECT_EQ(document.undoStack().undoText(), "Change D1 to LED red");
    entry(*menuOf("d1"), {"Swap type", "1N4148"})->trigger();
    EXPECT_EQ(document.job()->plan.size(), before) << "back at stock, the mod is gone";
}

TEST_F(ModMenuTest, ADiodeIsAddedInSeriesEitherWayRound) {
    entry(*menuOf("d1"), {"Add in series", "Diode 1N4148, turned round"})->trigger();
    const auto& added = std::get<AddInSeries>(lastMod().change);
    EXPECT_EQ(added.part, "d1");
    EXPECT_EQ(added.pin, 1);
    EXPECT_TRUE(added.reversed);
    EXPECT_EQ(added.fitted.model.name, "1N4148");
    EXPECT_FALSE(added.fitted.reference.empty());
    EXPECT_EQ(document.undoStack().undoText(), "Add 1N4148, turned round in series with D1");
}

TEST_F(ModMenuTest, APartAcrossAsksForItsValueFirst) {
    entry(*menuOf("c4"), {"Add across", "Capacitor…"})->trigger();
    ASSERT_TRUE(question);
    EXPECT_EQ(question->title, "Across C4 Cg: capacitor");
    EXPECT_EQ(question->unit, Unit::farad);
    const Result<Job> edited = question->edit(*document.job(), 68e-9);
    ASSERT_TRUE(edited);
    const auto& added = std::get<AddAcross>(edited->plan.back().change);
    EXPECT_EQ(added.part, "c4");
    EXPECT_EQ(added.fitted.kind, PartKind::capacitor);
    EXPECT_DOUBLE_EQ(added.fitted.value, 68e-9);
}

TEST_F(ModMenuTest, ASwapOfValueAsksWithTheValueOfNow) {
    entry(*menuOf("c4"), {"Swap value…"})->trigger();
    ASSERT_TRUE(question);
    EXPECT_EQ(question->start, "120n") << "mod A is on";
    const Result<Job> edited = question->edit(*document.job(), 82e-9);
    ASSERT_TRUE(edited);
    EXPECT_DOUBLE_EQ(std::get<SwapValue>(edited->plan.front().change).value, 82e-9);
    EXPECT_EQ(edited->plan.size(), document.job()->plan.size()) << "mod A is changed, no other is made";
}

TEST_F(ModMenuTest, LegsAreNamedAsTheyAreFoundOnThePart) {
    EXPECT_THAT(entriesOf(*entry(*menuOf("c4"), {"Lift"})->menu()), ElementsAre("leg 1", "leg 2"));
    EXPECT_THAT(entriesOf(*entry(*menuOf("d1"), {"Lift"})->menu()), ElementsAre("anode", "cathode"));
    EXPECT_THAT(entriesOf(*entry(*menuOf("u1a"), {"Lift"})->menu()),
                ElementsAre("pin 3", "pin 2", "pin 1", "pin 8", "pin 4"));
    EXPECT_THAT(entriesOf(*entry(*menuOf("q1"), {"Bridge"})->menu()), Contains("base to emitter"));
    EXPECT_THAT(entriesOf(*entry(*menuOf("u1a"), {"Bridge"})->menu()), Not(Contains("pin 8 to pin 4")));
}

TEST_F(ModMenuTest, ALegIsLiftedAndPinsAreBridged) {
    entry(*menuOf("c7"), {"Lift", "leg 2"})->trigger();
    EXPECT_EQ(lastMod().change, Change(Lift{"c7", 1}));
    EXPECT_EQ(document.undoStack().undoText(), "Lift leg 2 of C7 Clp");
    entry(*menuOf("r7"), {"Bridge"})->trigger();
    EXPECT_EQ(lastMod().change, Change(Bridge{"r7", 0, 1}));
}

TEST_F(ModMenuTest, APartThatAModHasFittedIsAPlaceForModsToo) {
    document.edit(setModOn(*document.job(), "mod-b", true), "Switch mod B on");
    EXPECT_THAT(entriesOf(*menuOf("mod-b")), Contains("Swap type"));
}

}  // namespace
}  // namespace ohmwright::test
