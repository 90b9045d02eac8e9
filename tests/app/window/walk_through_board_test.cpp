// A technician's way over the board of Small Rooster, by the keyboard alone, and a capacitor that is not as drawn.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/papers/papers_place.h"
#include "app/part/walk_panel.h"
#include "core/plan/board_walk.h"
#include "core/plan/correct.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>

namespace ohmwright::test {
namespace {

class WalkOverTheBoard : public OpenWindow {
protected:
    void openDrawnOnly(const QString& demo) {
        ASSERT_TRUE(window->openDemo(demo));
        Job drawn = job();
        for (Part& part : drawn.stock.parts) {
            part.knowledge = Knowledge::drawn;
            part.measured.reset();
        }
        window->document().setJob(drawn, {});
        QCoreApplication::processEvents();
        window->map().setFocus();
    }
    /// What the walk's panel says, all its visible words.
    [[nodiscard]] QString panelWords() {
        QStringList words;
        for (const QLabel* label : window->walkPanel().findChildren<QLabel*>()) {
            if (label->isVisible()) {
                words << label->text();
            }
        }
        for (const SignText* label : window->walkPanel().findChildren<SignText*>()) {
            if (label->isVisible()) {
                words << label->text();
            }
        }
        return words.join('\n');
    }
    [[nodiscard]] bool says(const QString& words) { return panelWords().contains(words); }
};

TEST_F(WalkOverTheBoard, OfSmallRoosterByKeysAlone) {
    openDrawnOnly("small-rooster");
    press(Qt::Key_K);
    ASSERT_TRUE(window->walkPanel().isVisible());
    EXPECT_TRUE(says("Part 1 of 10 · 10 left, 0 seen, 0 measured")) << panelWords().toStdString();
    EXPECT_EQ(window->selection().part(), "r5");
    press(Qt::Key_Space);
    EXPECT_EQ(window->selection().part(), "c1");
    EXPECT_TRUE(says("9 left, 1 seen"));

    // The input capacitor is measured, with its echo while it is typed.
    type("4.61n");
    EXPECT_TRUE(says("4.61 nF, \u22121.91 % off the drawing")) << panelWords().toStdString();
    press(Qt::Key_Return);
    EXPECT_EQ(findPart(job().stock, "c1")->measured, 4.61e-9);
    EXPECT_EQ(window->selection().part(), "r1");

    press(Qt::Key_Right);  // skipped
    EXPECT_EQ(window->selection().part(), "r2");
    press(Qt::Key_Backspace);
    EXPECT_EQ(window->selection().part(), "r1");
    press(Qt::Key_Right);

    // The board has 47k for the drawing's 56k: built so.
    press(Qt::Key_N);
    type("47k");
    press(Qt::Key_Return);
    EXPECT_EQ(findPart(job().stock, "r2")->value, 47e3);
    ASSERT_EQ(job().corrections.size(), 1u);
    EXPECT_EQ(job().corrections[0].reason, CorrectionReason::boardDiffers);
    EXPECT_EQ(window->selection().part(), "q1");

    // A transistor has nothing that a meter reads.
    press(Qt::Key_1);
    EXPECT_TRUE(says("has no value that a meter reads"));
    for (int part = 0; part < 6; ++part) {
        press(Qt::Key_Space);
    }
    EXPECT_TRUE(says("The end of the board")) << panelWords().toStdString();
    EXPECT_TRUE(says("1 part was skipped: Space walks over what is left, Esc ends."));
    press(Qt::Key_Space);
    EXPECT_EQ(window->selection().part(), "r1");
    press(Qt::Key_Space);
    EXPECT_TRUE(says("Every part was looked at."));
    EXPECT_EQ(walkProgress(job().stock), (WalkProgress{0, 9, 1}));
    press(Qt::Key_Escape);
    EXPECT_FALSE(window->walkPanel().isVisible());
    EXPECT_TRUE(window->partPanel().isVisible());
    EXPECT_EQ(window->selection().part(), PartId());
}

TEST_F(WalkOverTheBoard, EachStepIsUndoneAndWalkedToAgain) {
    openDrawnOnly("small-rooster");
    const Job before = job();
    press(Qt::Key_K);
    press(Qt::Key_Space);
    press(Qt::Key_Space);
    EXPECT_EQ(window->selection().part(), "r1");
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(window->selection().part(), "c1");
    EXPECT_TRUE(says("9 left, 1 seen"));
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(window->selection().part(), "r5");
    EXPECT_EQ(job(), before);
}

TEST_F(WalkOverTheBoard, TheGainCapacitorOfAnotherBoardIsCorrectedAndTakenBack) {
    const Job before = job();
    clickPart("C4");
    press(Qt::Key_N);
    ASSERT_TRUE(window->walkPanel().isVisible());
    EXPECT_TRUE(says("C4 Cg: the drawing says 56n, printed 563")) << panelWords().toStdString();
    type("68n");
    EXPECT_TRUE(says("68.0 nF"));
    find<QLineEdit>("Printed on the body")->setFocus();
    type("683");
    press(Qt::Key_Return);
    EXPECT_EQ(findPart(job().stock, "c4")->value, 68e-9);
    EXPECT_EQ(job().plan, before.plan);
    // Mod A is on and goes on from there.
    EXPECT_TRUE(says("Mod A (Gain cap) starts from what the board has: C4 Cg 68n (printed 683), not 56n"))
        << panelWords().toStdString();
    press(Qt::Key_Escape);
    EXPECT_EQ(window->selection().part(), "c4");
    EXPECT_EQ(revisionWords(job()), "PB-14 rev 2, differs in C4 Cg");
    EXPECT_EQ(window->document().undoStack().undoText(), "Correct C4 Cg");

    // The sheet says both, and leads back to what the board had.
    ASSERT_TRUE(waitForAnswers());
    window->actions().action("paper.benchSheet")->trigger();
    constexpr int patience = 120'000;
    ASSERT_TRUE(QTest::qWaitFor([this] { return window->papers().isReady(); }, patience));
    const QString sheet = window->papers().words().simplified();
    EXPECT_TRUE(sheet.contains("On this board: C4 Cg: 68n (printed 683), the drawing says 56n (printed 563)"))
        << sheet.toStdString();
    EXPECT_TRUE(sheet.contains("C4 Cg back to 68n")) << sheet.toStdString();
    window->showPlace(Place::map);
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(job(), before);
    window->actions().action("edit.redo")->trigger();
    EXPECT_EQ(job().corrections.size(), 1u);
}

// Somebody soldered 100p across the collector resistor once: the capacitor is of the unit as found.
TEST_F(WalkOverTheBoard, APartMoreIsFoundBesideTheOneThatIsLookedAt) {
    openDrawnOnly("small-rooster");
    const Job before = job();
    window->selection().setPart("r3");
    press(Qt::Key_N);
    auto* what = find<QComboBox>("What differs");
    what->setCurrentIndex(what->findText("A part more sits beside it"));
    find<QComboBox>("On the board")->setCurrentIndex(1);
    find<QLineEdit>("Printed on the body")->setText("C40");
    find<QLineEdit>("What the board has")->setFocus();
    type("100p");
    press(Qt::Key_Return);
    const Part* more = findPartByReference(job().stock, "C40");
    ASSERT_NE(more, nullptr) << panelWords().toStdString();
    EXPECT_EQ(more->value, 100e-12);
    EXPECT_EQ(more->nets, findPart(before.stock, "r3")->nets);
    // One part was asked for: the walk is not begun by it.
    EXPECT_FALSE(window->walkPanel().isVisible());
    EXPECT_TRUE(window->partPanel().isVisible());
    EXPECT_EQ(window->selection().part(), "r3");
    EXPECT_EQ(findPart(job().stock, "r3")->knowledge, Knowledge::drawn);
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(job(), before);
}

TEST_F(WalkOverTheBoard, AModThatMakesWhatTheBoardHasCanBeSwitchedOffThere) {
    clickPart("C4");
    press(Qt::Key_N);
    type("120n");
    press(Qt::Key_Return);
    EXPECT_TRUE(says("changes nothing now: switch A off or take it out.")) << panelWords().toStdString();
    for (QPushButton* button : window->walkPanel().findChildren<QPushButton*>()) {
        if (button->isVisible() && button->text() == "Switch it off") {
            button->click();
            break;
        }
    }
    EXPECT_FALSE(isOn("A"));
    EXPECT_EQ(findPart(job().stock, "c4")->value, 120e-9);
}

// The end of the board was not reached from a selected part: the walk's own selection was taken for a press on the map.
TEST_F(WalkOverTheBoard, EndsAtTheEndWhereverItBegan) {
    openDrawnOnly("small-rooster");
    window->selection().setPart("r2");
    press(Qt::Key_K);
    for (int part = 0; part < 10; ++part) {
        press(Qt::Key_Space);
    }
    EXPECT_TRUE(says("The end of the board")) << panelWords().toStdString();
    EXPECT_TRUE(says("Every part was looked at."));
    EXPECT_EQ(walkProgress(job().stock), (WalkProgress{0, 10, 0}));
    press(Qt::Key_Escape);
    EXPECT_EQ(window->selection().part(), "r2");
}

// Held down, Space went over the whole board in a second and a half.
TEST_F(WalkOverTheBoard, AHeldKeySeesOnePart) {
    openDrawnOnly("small-rooster");
    press(Qt::Key_K);
    press(Qt::Key_Space);
    for (int repeat = 0; repeat < 5; ++repeat) {
        QKeyEvent held(QEvent::KeyPress, Qt::Key_Space, Qt::NoModifier, " ", true);
        QApplication::sendEvent(QApplication::focusWidget(), &held);
    }
    EXPECT_EQ(walkProgress(job().stock).seen, 1);
}

// N without a part opened an empty form, and what was typed into it was recorded for another part.
TEST_F(WalkOverTheBoard, WithoutAPartThereIsNothingToDiffer) {
    openDrawnOnly("small-rooster");
    const Job before = job();
    window->selection().setPart({});
    press(Qt::Key_N);
    EXPECT_FALSE(window->walkPanel().isVisible());
    EXPECT_TRUE(window->refusal().contains("Select the part that differs")) << window->refusal().toStdString();
    EXPECT_EQ(job(), before);
}

// Digits, N and Backspace went through the form to the walk beneath.
TEST_F(WalkOverTheBoard, TheKeysOfTheFormAreTheForms) {
    openDrawnOnly("small-rooster");
    window->selection().setPart("r3");
    press(Qt::Key_N);
    window->walkPanel().findChildren<QRadioButton*>().front()->setFocus();
    for (const Qt::Key key : {Qt::Key_4, Qt::Key_N, Qt::Key_Backspace, Qt::Key_Right}) {
        press(key);
    }
    EXPECT_TRUE(says("R3 Rc: the drawing says")) << panelWords().toStdString();
    EXPECT_FALSE(find<QLineEdit>("What the meter reads")->isVisible());
    EXPECT_EQ(window->selection().part(), "r3");
}

// The form stayed open over a part that the undo had taken away, and pressing its button ended the program.
TEST_F(WalkOverTheBoard, AFormOfAPartThatIsGoneIsClosedInWords) {
    openDrawnOnly("small-rooster");
    Job more = job();
    Part part = *findPart(more.stock, "r3");
    part.id = "r40";
    part.reference = "R40";
    part.placement.reset();
    more.stock.parts.push_back(part);
    ASSERT_TRUE(window->document().edit(more, "Put R40"));
    window->selection().setPart("r40");
    press(Qt::Key_N);
    ASSERT_TRUE(says("R40 Rc: the drawing says")) << panelWords().toStdString();
    window->actions().action("edit.undo")->trigger();
    EXPECT_TRUE(says("The drawing has changed under the form")) << panelWords().toStdString();
    EXPECT_FALSE(find<QComboBox>("What differs")->isVisible());
}

// A reading was thrown away when the button for the eyes was pressed after it.
TEST_F(WalkOverTheBoard, AReadingThatWasTypedIsTakenBySeenToo) {
    openDrawnOnly("small-rooster");
    press(Qt::Key_K);
    press(Qt::Key_Space);
    type("4.61n");
    for (QPushButton* button : window->walkPanel().findChildren<QPushButton*>()) {
        if (button->text().startsWith("Seen")) {
            button->click();
        }
    }
    EXPECT_EQ(findPart(job().stock, "c1")->measured, 4.61e-9);
}

}  // namespace
}  // namespace ohmwright::test
