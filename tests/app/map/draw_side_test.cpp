// What is picked and what stands at the cross, changed in their fields.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_side.h"

#include "app/map/fault_list.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "tests/app/map/hand_on_sheet.h"
#include "tests/support/demo_job.h"

#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>

namespace ohmwright::test {
namespace {

class DrawSideTest : public HandOnSheet {
protected:
    DrawSideTest() {
        side.show();
        side.activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&side));
        QObject::connect(&side, &DrawSide::refused, [this](const QString& sentence) { refusal = sentence; });
        QObject::connect(&document, &JobDocument::refused, [this](const QString& sentence) { refusal = sentence; });
    }

    template <class Widget>
    [[nodiscard]] Widget* find(const QString& accessibleName) {
        for (Widget* widget : side.findChildren<Widget*>()) {
            if (widget->accessibleName() == accessibleName && widget->isVisible()) {
                return widget;
            }
        }
        ADD_FAILURE() << "no shown widget is called " << accessibleName.toStdString();
        return nullptr;
    }
    QLineEdit* field(const char* name) { return find<QLineEdit>(name); }
    QPushButton* button(const QString& words) {
        for (auto* one : side.findChildren<QPushButton*>()) {
            if (one->text() == words && one->isVisible()) {
                return one;
            }
        }
        ADD_FAILURE() << "no button says " << words.toStdString();
        return nullptr;
    }
    void fill(QLineEdit* entry, const QString& typed) {
        ASSERT_NE(entry, nullptr);
        entry->setFocus();
        entry->selectAll();
        QTest::keyClick(entry, Qt::Key_Delete);
        QTest::keyClicks(entry, typed);
    }
    void enter(QLineEdit* entry, const QString& typed) {
        fill(entry, typed);
        QTest::keyClick(entry, Qt::Key_Return);
    }
    void pick(const char* reference) { hand.pick({{part(reference).id}, {}, {}}); }

    DrawSide side{document, hand};
    QString refusal;
};

// "abc" made the tolerance 0 %, and -300 % was taken.
TEST_F(DrawSideTest, AToleranceIsReadOrRefused) {
    put('R', "1k", {10, 4});
    pick("R1");
    enter(field("Tolerance"), "2,5 %");
    EXPECT_DOUBLE_EQ(part("R1").tolerance, 0.025);
    for (const char* typed : {"abc", "-300", "100"}) {
        refusal.clear();
        enter(field("Tolerance"), typed);
        EXPECT_FALSE(refusal.isEmpty()) << typed;
        EXPECT_DOUBLE_EQ(part("R1").tolerance, 0.025) << typed;
        EXPECT_EQ(field("Tolerance")->text(), typed) << "it stays, to be put right";
    }
}

// The fields took a net's name and nothing came of it.
TEST_F(DrawSideTest, AnOpampHasTheSuppliesThatAreTyped) {
    put('U', "", {10, 4});
    put('B', "9V", {4, 6});
    put('V', "9 V", {4, 6});
    put('B', "9V", {30, 6});
    put('V', "minus", {30, 9});
    pick("U1");
    enter(field("Minus supply"), "minus");
    EXPECT_EQ(part("U1").nets[4], netAt(drawn(), {30, 9})) << refusal.toStdString();
    refusal.clear();
    enter(field("Plus supply"), "nowhere");
    EXPECT_FALSE(refusal.isEmpty());
    EXPECT_NE(part("U1").nets[3], "nowhere");
}

// What was typed was dropped when the field was left by a click or Tab.
TEST_F(DrawSideTest, AFieldThatIsLeftIsTaken) {
    put('R', "1k", {10, 4});
    pick("R1");
    fill(field("Value"), "47k");
    QTest::keyClick(field("Value"), Qt::Key_Tab);
    EXPECT_DOUBLE_EQ(part("R1").value, 47e3);

    fill(field("Value"), "47q");
    QTest::keyClick(field("Value"), Qt::Key_Tab);
    EXPECT_FALSE(refusal.isEmpty());
    EXPECT_EQ(field("Value")->text(), "47k") << "a field that is left shows what is true";
}

TEST_F(DrawSideTest, WhatIsHalfTypedBelongsToThePartItWasTypedFor) {
    put('R', "1k", {10, 4});
    put('R', "2k2", {10, 8});
    pick("R1");
    fill(field("Value"), "47k");
    pick("R2");
    EXPECT_DOUBLE_EQ(part("R1").value, 47e3);
    EXPECT_DOUBLE_EQ(part("R2").value, 2.2e3);
    EXPECT_EQ(field("Value")->text(), "2k2");

    fill(field("Value"), "99k");
    document.setJob(*document.job(), {});
    EXPECT_DOUBLE_EQ(part("R2").value, 2.2e3) << "it was about another document";
}

TEST_F(DrawSideTest, EscDropsWhatIsTyped) {
    put('R', "1k", {10, 4});
    pick("R1");
    fill(field("Value"), "47k");
    QTest::keyClick(field("Value"), Qt::Key_Escape);
    EXPECT_EQ(field("Value")->text(), "1k");
    QTest::keyClick(field("Value"), Qt::Key_Tab);
    EXPECT_DOUBLE_EQ(part("R1").value, 1e3);
}

// The net was named that the cross was on at Enter, not the one that was clicked.
TEST_F(DrawSideTest, ANetEntryIsAboutTheNetWhereItBegan) {
    put('R', "1k", {10, 4});
    put('R', "1k", {10, 8});
    hand.setCaret({10, 4});
    fill(field("Net"), "tone");
    hand.setCaret({10, 8});
    QTest::keyClick(field("Net"), Qt::Key_Return);
    EXPECT_EQ(part("R1").nets[0], "tone");
    EXPECT_NE(part("R2").nets[0], "tone");
}

// After F, "Begin a stage here" framed another area, and the parts left their stages.
TEST_F(DrawSideTest, AStageIsBegunAlsoAfterAnArea) {
    put('R', "1k", {10, 4});
    put('R', "1k", {30, 4});
    hand.setCaret({9, 3});
    for (int step = 0; step < 5; ++step) {
        press(Qt::Key_Right, Qt::ShiftModifier);
    }
    press(Qt::Key_Down, Qt::ShiftModifier);
    press(Qt::Key_Down, Qt::ShiftModifier);
    type("f");
    ASSERT_NE(field("Area"), nullptr);
    hand.setCaret({0, 3});
    QTest::mouseClick(button("Begin a stage here"), Qt::LeftButton);
    enter(field("New stage"), "Input");
    EXPECT_TRUE(drawn().drawing.fields.empty());
    ASSERT_EQ(drawn().stages.size(), 1U);
    EXPECT_EQ(drawn().stages[0].name, "Input");
    EXPECT_EQ(drawn().stages[0].parts.size(), 2U);
}

TEST_F(DrawSideTest, AnAreaIsSetApartAndGivenBack) {
    put('R', "1k", {10, 4});
    hand.press({8.0, 2.0}, Qt::NoModifier);
    hand.moveTo({15.0, 7.0});
    hand.release();
    QTest::mouseClick(button("Set the box apart as an area"), Qt::LeftButton);
    QTest::keyClick(field("Area"), Qt::Key_Return);
    ASSERT_EQ(drawn().drawing.fields.size(), 1U) << refusal.toStdString();
    EXPECT_EQ(drawn().drawing.fields[0].name, "Supply");
    hand.setCaret({9, 3});
    QTest::mouseClick(button("Give the area back to the stages"), Qt::LeftButton);
    EXPECT_TRUE(drawn().drawing.fields.empty());

    refusal.clear();
    hand.pick({});
    QObject::connect(&hand, &DrawHand::refused, [this](const QString& sentence) { refusal = sentence; });
    type("f");
    EXPECT_TRUE(refusal.contains("box")) << "an old box frames nothing";
}

TEST_F(DrawSideTest, StagesAreNamedWithoutASolveMovedAndEnded) {
    put('R', "1k", {10, 4});
    put('R', "1k", {30, 4});
    hand.setCaret({0, 3});
    QTest::mouseClick(button("Begin a stage here"), Qt::LeftButton);
    enter(field("New stage"), "Input");
    hand.setCaret({20, 3});
    QTest::mouseClick(button("Begin a stage here"), Qt::LeftButton);
    enter(field("New stage"), "Tone");
    ASSERT_EQ(drawn().stages.size(), 2U) << refusal.toStdString();

    QSignalSpy changed(&document, &JobDocument::jobChanged);
    enter(field("Stage"), "Treble");
    ASSERT_EQ(changed.count(), 1);
    EXPECT_EQ(changed.front().front().value<JobAspect>(), JobAspect::words);

    hand.setCaret({24, 3});
    QTest::mouseClick(button("Bring the nearest stage edge here"), Qt::LeftButton);
    EXPECT_EQ(drawn().stages[1].firstColumn, 24) << refusal.toStdString();

    enter(field("Stage"), "");
    EXPECT_EQ(drawn().stages.size(), 1U);
    EXPECT_EQ(document.undoStack().undoText(), "End the stage Treble");
}

// Every log pot said 15 %, whatever it held, and choosing log again wrote 15 % over it.
TEST_F(DrawSideTest, ALawIsShownWithThePotsOwnShare) {
    Job job = jobIn(OHMWRIGHT_SOURCE_DIR "/demo-projects/three-hills/three-hills.ohmjob");
    document.setJob(job, {});
    const Part* pot = nullptr;
    for (const Part& one : drawn().parts) {
        if (one.kind == PartKind::potentiometer && one.taper == Taper::logarithmic && one.shareAtHalf == 0.1) {
            pot = &one;
        }
    }
    ASSERT_NE(pot, nullptr);
    const PartId id = pot->id;
    hand.pick({{id}, {}, {}});
    auto* law = find<QComboBox>("Law");
    EXPECT_EQ(law->currentText(), "log, 10 % at half");
    emit law->activated(law->currentIndex());
    EXPECT_DOUBLE_EQ(findPart(drawn(), id)->shareAtHalf, 0.1);
    law->setCurrentIndex(0);
    emit law->activated(0);
    EXPECT_EQ(findPart(drawn(), id)->taper, Taper::linear);
    EXPECT_DOUBLE_EQ(findPart(drawn(), id)->shareAtHalf, 0.5);
}

TEST_F(DrawSideTest, RoomIsMadeAtTheCross) {
    put('R', "1k", {10, 4});
    hand.setCaret({8, 2});
    QTest::mouseClick(button("Room to the right"), Qt::LeftButton);
    EXPECT_EQ(pinPoint(part("R1"), 0), (GridPoint{14, 4}));
    QTest::mouseClick(button("Room below"), Qt::LeftButton);
    EXPECT_EQ(pinPoint(part("R1"), 0), (GridPoint{14, 8}));
}

TEST_F(DrawSideTest, TidyIsWorkedOutBesideTheWindow) {
    document.setJob(harbourLamp(), {});
    const Circuit before = drawn();
    QTest::mouseClick(find<QPushButton>("Tidy"), Qt::LeftButton);
    EXPECT_EQ(drawn(), before) << "not in the click";
    EXPECT_FALSE(find<QPushButton>("Tidy")->isEnabled());
    ASSERT_TRUE(QTest::qWaitFor([this] { return find<QPushButton>("Tidy")->isEnabled(); }, 60000));
    EXPECT_NE(drawn().drawing, before.drawing);
    EXPECT_EQ(steps(), 1);

    // An edit on the way: the answer is about another drawing.
    const Circuit tidied = drawn();
    QTest::mouseClick(find<QPushButton>("Tidy"), Qt::LeftButton);
    document.undoStack().undo();
    ASSERT_TRUE(QTest::qWaitFor([this] { return find<QPushButton>("Tidy")->isEnabled(); }, 60000));
    EXPECT_EQ(drawn(), before);
    EXPECT_TRUE(refusal.contains("Press Tidy again")) << refusal.toStdString();
}

TEST_F(DrawSideTest, ASignalHasNoValueAndHintsAreOfTheKind) {
    put('S', "", {4, 6});
    put('C', "10n", {10, 4});
    pick("C1");
    EXPECT_EQ(field("Value")->placeholderText(), "100n");
    hand.pick({{drawn().parts.front().id}, {}, {}});
    for (const auto* entry : side.findChildren<QLineEdit*>()) {
        EXPECT_FALSE(entry->accessibleName() == "Value" && entry->isVisible());
    }
}

TEST_F(DrawSideTest, ARowOfWhatIsToDoPicksThePartWithoutAPlace) {
    put('R', "1k", {10, 4});
    Job job = *document.job();
    job.stock.parts[0].placement.reset();
    document.setJob(job, {});
    MapState state;
    state.job = document.job();
    side.faultList().setFaults(drawFaults(state), drawn(), false);
    auto* list = find<QListWidget>("Still to do");
    const QList<QListWidgetItem*> rows = list->findItems("R1 has no place", Qt::MatchStartsWith);
    ASSERT_EQ(rows.size(), 1);
    QTest::mouseClick(list->viewport(), Qt::LeftButton, {}, list->visualItemRect(rows.front()).center());
    EXPECT_EQ(hand.picked().parts, std::vector<PartId>{drawn().parts[0].id});
}

}  // namespace
}  // namespace ohmwright::test
