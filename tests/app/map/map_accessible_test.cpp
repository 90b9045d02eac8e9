// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_view.h"
#include "app/map/stage_map.h"
#include "core/plan/edits.h"
#include "tests/support/heard_events.h"
#include "tests/support/open_job.h"

#include <QAccessible>
#include <QTest>

namespace ohmwright::test {
namespace {

class MapAccessibleTest : public testing::Test {
protected:
    MapAccessibleTest() {
        map.resize(1040, 405);
        map.show();
        QCoreApplication::processEvents();
    }

    [[nodiscard]] QAccessibleInterface* list() { return QAccessible::queryAccessibleInterface(&map.view()); }
    [[nodiscard]] QAccessibleInterface* partNamed(const QString& start) {
        for (int i = 0; i < list()->childCount(); ++i) {
            QAccessibleInterface* part = list()->child(i);
            if (part && part->text(QAccessible::Name).startsWith(start)) {
                return part;
            }
        }
        return nullptr;
    }

    OpenJob open;
    StageMap map{open.document, open.selection, open.solver};
};

TEST_F(MapAccessibleTest, TheMapIsAListOfItsParts) {
    ASSERT_NE(list(), nullptr);
    EXPECT_EQ(list()->role(), QAccessible::List);
    EXPECT_EQ(list()->text(QAccessible::Name), "Stage map");
    EXPECT_EQ(list()->childCount(), static_cast<int>(map.view().parts().size()));
    EXPECT_GT(list()->childCount(), 30);
    EXPECT_EQ(list()->child(-1), nullptr);
    EXPECT_EQ(list()->child(list()->childCount()), nullptr);
}

TEST_F(MapAccessibleTest, APartIsSpokenWithValueModAndKnowledge) {
    QAccessibleInterface* part = partNamed("C4");
    ASSERT_NE(part, nullptr);
    EXPECT_EQ(part->text(QAccessible::Name), "C4 Cg, capacitor, stock 56 nano, now 120 nano, mod A, seen");
    EXPECT_EQ(part->role(), QAccessible::ListItem);
    EXPECT_EQ(part->parent(), list());
    EXPECT_EQ(list()->indexOfChild(part), list()->indexOfChild(partNamed("C4 Cg")));
}

TEST_F(MapAccessibleTest, APartIsFoundWhereItIsDrawn) {
    QAccessibleInterface* part = partNamed("C4");
    ASSERT_NE(part, nullptr);
    const QPoint centre = part->rect().center();
    EXPECT_EQ(list()->childAt(centre.x(), centre.y()), part);
}

TEST_F(MapAccessibleTest, TheSelectedPartSaysSo) {
    open.selection.setPart("c4");
    QCoreApplication::processEvents();
    EXPECT_TRUE(partNamed("C4")->state().selected);
    EXPECT_FALSE(partNamed("C5")->state().selected);
    EXPECT_EQ(list()->focusChild(), partNamed("C4"));
}

TEST_F(MapAccessibleTest, PartsFollowTheSignal) {
    // The pickup feeds the pots of the guitar, these the input capacitor, the op-amp, and the output's load comes last.
    const auto place = [this](const char* start) { return list()->indexOfChild(partNamed(start)); };
    EXPECT_LT(place("C2"), place("C4"));
    EXPECT_LT(place("C4"), place("R7"));
    EXPECT_LT(place("R7"), place("R10"));
}

TEST_F(MapAccessibleTest, APartHasItsValueNowAndInStockAndWhatItsLegsJoin) {
    QAccessibleInterface* changed = partNamed("C4");
    ASSERT_NE(changed, nullptr);
    EXPECT_EQ(changed->text(QAccessible::Value), "now 120 nano, stock 56 nano");
    ASSERT_NE(changed->valueInterface(), nullptr);
    EXPECT_DOUBLE_EQ(changed->valueInterface()->currentValue().toDouble(), 120e-9);
    EXPECT_EQ(partNamed("R5")->text(QAccessible::Value), "3.9 kilo");
    const QStringList legs = changed->text(QAccessible::Description).split(", ");
    ASSERT_EQ(legs.size(), 2);
    EXPECT_TRUE(legs[0].startsWith("leg 1 at ")) << legs[0].toStdString();
    EXPECT_TRUE(legs[1].startsWith("leg 2 at ")) << legs[1].toStdString();
}

TEST_F(MapAccessibleTest, WhatCanBeDoneWithAPartIsDone) {
    PartId chosen;
    int steps = 0;
    QPoint menuAt;
    QObject::connect(&map, &StageMap::valueStepped, [&](const PartId& part, int by) {
        chosen = part;
        steps = by;
    });
    QObject::connect(&map, &StageMap::contextMenuAsked, [&](const PartId&, const QPoint& at) { menuAt = at; });
    QAccessibleInterface* part = partNamed("C4");
    QAccessibleActionInterface* actions = part->actionInterface();
    ASSERT_NE(actions, nullptr);
    actions->doAction(QAccessibleActionInterface::pressAction());
    EXPECT_EQ(open.selection.part(), "c4");
    actions->doAction(QAccessibleActionInterface::increaseAction());
    EXPECT_EQ(chosen, "c4");
    EXPECT_EQ(steps, 1);
    actions->doAction(QAccessibleActionInterface::decreaseAction());
    EXPECT_EQ(steps, -1);
    part->valueInterface()->setCurrentValue(1e-6);
    EXPECT_EQ(steps, 1) << "a larger number is the next value";
    actions->doAction(QAccessibleActionInterface::showMenuAction());
    EXPECT_EQ(menuAt, part->rect().center());
    for (const QString& name : actions->actionNames()) {
        EXPECT_FALSE(actions->localizedActionDescription(name).isEmpty()) << name.toStdString();
    }
}

TEST_F(MapAccessibleTest, APartStaysTheSameForWhoHoldsItWhileArrowsAndModsMove) {
    map.activateWindow();
    map.setFocus();
    open.selection.setPart("c4");
    QCoreApplication::processEvents();
    QAccessibleInterface* part = partNamed("C4");
    ASSERT_EQ(list()->focusChild(), part);
    QTest::keyClick(&map.view(), Qt::Key_Right);
    QCoreApplication::processEvents();
    EXPECT_NE(list()->focusChild(), part);
    EXPECT_TRUE(list()->focusChild()->state().selected);
    EXPECT_FALSE(part->state().selected);

    ASSERT_TRUE(open.document.edit(setModOn(*open.document.job(), open.document.job()->plan.front().id, false), "off"));
    QCoreApplication::processEvents();
    EXPECT_TRUE(part->isValid());
    EXPECT_EQ(partNamed("C4"), part);
    EXPECT_EQ(part->text(QAccessible::Value), "56 nano");
    EXPECT_DOUBLE_EQ(part->valueInterface()->currentValue().toDouble(), 56e-9);
    EXPECT_TRUE(part->text(QAccessible::Name).contains("mod A off"));
}

TEST_F(MapAccessibleTest, AnotherJobGivesOtherParts) {
    QAccessible::setActive(true);
    ASSERT_NE(partNamed("R10"), nullptr);
    Job job = harbourLamp();
    std::erase_if(job.stock.parts, [](const Part& part) { return part.reference == "R10"; });
    open.document.setJob(job, {});
    QCoreApplication::processEvents();
    EXPECT_EQ(partNamed("R10"), nullptr);
    ASSERT_NE(partNamed("C4"), nullptr);
    QAccessible::setActive(false);
}

TEST_F(MapAccessibleTest, AnotherSelectedPartIsToldAsTheFocus) {
    map.activateWindow();
    map.setFocus();
    open.selection.setPart("c4");
    QCoreApplication::processEvents();
    const HeardEvents heard;
    QTest::keyClick(&map.view(), Qt::Key_Right);
    QCoreApplication::processEvents();
    const std::vector<HeardEvent> focus = heard.of(QAccessible::Focus);
    ASSERT_EQ(focus.size(), 1u);
    EXPECT_EQ(focus[0].name, list()->focusChild()->text(QAccessible::Name));
    EXPECT_FALSE(focus[0].name.startsWith("C4 ")) << focus[0].name.toStdString();
}

TEST_F(MapAccessibleTest, AStepOfAValueIsToldOnceWithTheFigure) {
    const HeardEvents heard;
    ASSERT_TRUE(open.document.edit(setPartValue(*open.document.job(), "c4", 150e-9), "150n"));
    QCoreApplication::processEvents();
    const std::vector<HeardEvent> values = heard.of(QAccessible::ValueChanged);
    ASSERT_EQ(values.size(), 1u) << "of the part whose value changed, and of no other";
    EXPECT_TRUE(values[0].name.startsWith("C4 Cg, capacitor, stock 56 nano, now 150 nano"))
        << values[0].name.toStdString();
    EXPECT_DOUBLE_EQ(values[0].value, 150e-9);
    const std::vector<HeardEvent> names = heard.of(QAccessible::NameChanged);
    ASSERT_EQ(names.size(), 1u);
    EXPECT_EQ(names[0].name, values[0].name);
}

TEST_F(MapAccessibleTest, AModThatGoesOffIsTold) {
    const HeardEvents heard;
    ASSERT_TRUE(open.document.edit(setModOn(*open.document.job(), open.document.job()->plan.front().id, false), "off"));
    QCoreApplication::processEvents();
    const std::vector<HeardEvent> values = heard.of(QAccessible::ValueChanged);
    ASSERT_EQ(values.size(), 1u);
    EXPECT_DOUBLE_EQ(values[0].value, 56e-9);
    EXPECT_TRUE(values[0].name.contains("mod A off")) << values[0].name.toStdString();
}

}  // namespace
}  // namespace ohmwright::test
