// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/job_rail.h"

#include "app/background/consequence_service.h"
#include "app/look/painters.h"
#include "app/look/sign_text.h"
#include "app/mods/mod_delegate.h"
#include "app/mods/mod_list.h"
#include "app/mods/mod_menu.h"
#include "app/mods/mods_model.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QRegularExpression>

namespace ohmwright::test {
namespace {

class JobRailTest : public testing::Test {
protected:
    JobRailTest() {
        rail.resize(rail.sizeHint().width(), 760);
        rail.show();
        QCoreApplication::processEvents();
    }

    [[nodiscard]] ModList& list() const { return *rail.findChild<ModList*>(); }
    [[nodiscard]] QString at(int row, int role) const { return list().model()->index(row, 0).data(role).toString(); }
    [[nodiscard]] QRect rowBox(int row) const { return list().visualRect(list().model()->index(row, 0)); }
    void press(const QPoint& at, Qt::MouseButton button = Qt::LeftButton) const {
        QTest::mouseClick(list().viewport(), button, {}, at);
    }
    [[nodiscard]] const Plan& plan() const { return open.job().plan; }

    OpenJob open;
    /// Shares and marks too.
    bool waitForTogether() {
        constexpr int patienceMilliseconds = 120'000;
        return open.waitForAnswers() &&
               QTest::qWaitFor([this] { return consequences.isCurrent(); }, patienceMilliseconds);
    }

    ConsequenceService consequences{open.document, open.solver, open.shop};
    JobRail rail{open.document, open.selection, open.solver, consequences};
};

TEST_F(JobRailTest, TheUnitCardSaysWhoseUnitThisIs) {
    const QStringList words = shownWords(rail);
    EXPECT_EQ(rail.width(), 256);
    EXPECT_TRUE(words.contains("Harbour Lamp"));
    EXPECT_TRUE(words.contains("customer A. N."));
    EXPECT_TRUE(words.contains("HL-0231, PB-14 rev 2"));
    EXPECT_TRUE(words.contains("visit 2, not saved yet"));
    EXPECT_TRUE(words.contains("“Low strings vanish in the band, and chords fold flat.”"));
}

TEST_F(JobRailTest, AUnitWithoutWordsTakesNoRoomForThem) {
    Job job = harbourLamp();
    job.customer.name.clear();
    job.visit.complaint.clear();
    open.document.setJob(job, {});
    EXPECT_TRUE(shownWords(rail).filter("customer").isEmpty());
    EXPECT_TRUE(shownWords(rail).filter("“").isEmpty());
}

TEST_F(JobRailTest, ARowPressedSelectsThePart) {
    press(rowBox(2).center());
    EXPECT_EQ(open.selection.part(), "r5");
    open.selection.setPart("c7");
    EXPECT_EQ(list().currentIndex().row(), 3) << "and a part selected elsewhere makes its row current";
    open.selection.setPart("r7");
    EXPECT_FALSE(list().currentIndex().isValid());
}

TEST_F(JobRailTest, TheWholeCheckBoxAreaSwitchesTheMod) {
    const QRect box = ModDelegate::checkBox(rowBox(1));
    EXPECT_EQ(box.size(), QSize(36, 52));
    press(box.bottomRight() - QPoint(1, 1));
    EXPECT_TRUE(plan()[1].on);
    EXPECT_EQ(open.document.undoStack().undoText(), "Switch mod B on");
    press(QPoint(box.right() + 40, box.center().y()));
    EXPECT_TRUE(plan()[1].on) << "the rest of the row selects only";
}

TEST_F(JobRailTest, KeysSwitchRenameMoveAndRemove) {
    list().setFocus();
    press(rowBox(0).center());
    QTest::keyClick(list().viewport(), Qt::Key_Space);
    EXPECT_FALSE(plan()[0].on);
    QTest::keyClick(&list(), Qt::Key_D, Qt::ShiftModifier);
    EXPECT_TRUE(plan()[3].on);
    QTest::keyClick(&list(), Qt::Key_M);
    EXPECT_TRUE(plan()[0].on) << "M is for the mod of the selected part";
    QTest::keyClick(&list(), Qt::Key_Down, Qt::AltModifier);
    EXPECT_EQ(plan()[1].letter, "A");
    EXPECT_EQ(list().currentIndex().row(), 1) << "the row goes with its mod";
    QTest::keyClick(&list(), Qt::Key_F2);
    auto* editor = list().viewport()->findChild<QLineEdit*>();
    ASSERT_NE(editor, nullptr);
    editor->setText("Fat cap");
    QTest::keyClick(editor, Qt::Key_Return);
    QCoreApplication::processEvents();  // the view takes an editor's text later
    EXPECT_EQ(plan()[1].name, "Fat cap");
    QTest::keyClick(&list(), Qt::Key_Delete);
    EXPECT_EQ(plan().size(), 3u);
    EXPECT_EQ(open.document.undoStack().undoText(), "Remove mod A");
}

TEST_F(JobRailTest, TheWindowsKeysReachTheSameMods) {
    rail.toggleMod("C");
    EXPECT_TRUE(plan()[2].on);
    rail.toggleMod("F");
    open.selection.setPart("c4");
    rail.muteSelectedPart();
    EXPECT_FALSE(plan()[0].on);
    open.selection.setPart("r7");
    const int steps = open.document.undoStack().count();
    rail.muteSelectedPart();
    EXPECT_EQ(open.document.undoStack().count(), steps) << "a part without a mod has nothing to mute";
}

TEST_F(JobRailTest, TheRowsMenuOffersTheSameAsTheKeys) {
    emit list().customContextMenuRequested(rowBox(3).center());
    auto* menu = rail.findChild<QMenu*>();
    ASSERT_NE(menu, nullptr);
    QStringList entries;
    for (const QAction* action : menu->actions()) {
        if (!action->isSeparator()) {
            entries << action->text();
        }
    }
    EXPECT_EQ(entries, QStringList({"Switch on", "Rename", "Move up", "Move down", "Remove"}));
    EXPECT_FALSE(menu->actions().at(4)->isEnabled()) << "the last cannot move down";
    menu->actions().first()->trigger();
    EXPECT_TRUE(plan()[3].on);
    menu->close();
}

TEST_F(JobRailTest, AValueAskedByTheMenuIsAskedInTheRail) {
    open.selection.setPart("c4");
    EXPECT_TRUE(shownWords(rail).contains("to C4 Cg"));
    emit rail.modMenu().valueAsked(
        {"Across C4 Cg: capacitor",
         Unit::farad,
         {},
         [](const Job& job, double value) {
             return addMod(job, AddAcross{"c4", 0, 1, {"C20", PartKind::capacitor, value, {}, 0.0}, false});
         },
         "Add capacitor across C4 Cg, %1"});
    EXPECT_TRUE(shownWords(rail).contains("Across C4 Cg: capacitor"));
    QLineEdit* field = nullptr;
    for (auto* candidate : rail.findChildren<QLineEdit*>()) {
        field = candidate->isVisibleTo(&rail) ? candidate : field;
    }
    ASSERT_NE(field, nullptr);
    QTest::keyClicks(field, "68n");
    QTest::keyClick(field, Qt::Key_Return);
    ASSERT_EQ(plan().size(), 5u);
    EXPECT_EQ(open.document.undoStack().undoText(), "Add capacitor across C4 Cg, 68n");
    EXPECT_FALSE(field->isVisibleTo(&rail));
}

TEST_F(JobRailTest, WithoutASelectedPartTheButtonSaysWhatIsMissing) {
    open.selection.setPart({});
    EXPECT_TRUE(shownWords(rail).contains("select a part first"));
    for (const auto* button : rail.findChildren<QPushButton*>()) {
        if (button->text() == "Add mod") {
            EXPECT_FALSE(button->isEnabled());
        }
    }
}

TEST_F(JobRailTest, AJobWithoutModsSaysHowToMakeOne) {
    Job job = harbourLamp();
    job.plan.clear();
    open.document.setJob(job, {});
    EXPECT_TRUE(shownWords(rail).contains("No mods yet. Select a part and type its new value."));
    EXPECT_FALSE(list().isVisibleTo(&rail));
    EXPECT_TRUE(shownWords(rail).filter("Level out").isEmpty());
}

// Demo figures: level at out, A +2.08 dB, B +1.21, C −0.08, D +0.02 alone; A and C together +2.06.
TEST_F(JobRailTest, EffectsAloneAndTogetherAreTheDemosFigures) {
    EXPECT_EQ(at(0, ModsModel::effectRole), "");
    ASSERT_TRUE(open.waitForAnswers());
    EXPECT_EQ(at(0, ModsModel::effectRole), "+2.08");
    EXPECT_EQ(at(1, ModsModel::effectRole), "+1.21");
    EXPECT_EQ(at(2, ModsModel::effectRole), "−0.08");
    EXPECT_EQ(at(3, ModsModel::effectRole), "+0.02");
    EXPECT_TRUE(shownWords(rail).contains("On: A"));
    EXPECT_TRUE(shownWords(rail).contains("+2.08 dB"));
    EXPECT_TRUE(shownWords(rail).contains("Level out in dB, 220 Hz, 100 mVpk"));
}

// Demo figures: all four +4.49 dB, sum of singles 3.23, interaction +1.26; shares 2.67, 1.80, 0.00, 0.02; of A, B and C
// +4.47 with the shares 2.67, 1.80, 0.00 (±0.05).
TEST_F(JobRailTest, SharesAreThoseOfTheWholePlanUntilTwoModsAreOn) {
    ASSERT_TRUE(waitForTogether());
    const auto share = [this](int row) { return at(row, ModsModel::shareRole).replace("−", "-").toDouble(); };
    EXPECT_NEAR(share(0), 2.67, 0.05);
    EXPECT_NEAR(share(1), 1.80, 0.05);
    EXPECT_NEAR(share(2), 0.00, 0.05);
    EXPECT_NEAR(share(3), 0.02, 0.05);
    EXPECT_TRUE(shownWords(rail).contains("All four"));
    EXPECT_EQ(shownWords(rail).filter(QRegularExpression("^\\+4\\.(4[4-9]|5[0-4]) dB$")).size(), 1);
    EXPECT_EQ(shownWords(rail)
                  .filter(QRegularExpression("^sum of singles\u00a03\\.2[0-9], interaction\u00a0\\+1\\.[23][0-9]$"))
                  .size(),
              1);
    rail.toggleMod("B");
    rail.toggleMod("C");
    ASSERT_TRUE(waitForTogether());
    EXPECT_NEAR(share(1), 1.80, 0.05);
    EXPECT_EQ(at(3, ModsModel::shareRole), "") << "D is off and has no share of what A, B and C do";
    EXPECT_TRUE(shownWords(rail).contains("On: A, B, C"));
    EXPECT_TRUE(shownWords(rail).contains("shares of A, B, C"));
    rail.toggleMod("D");
    ASSERT_TRUE(waitForTogether());
    EXPECT_TRUE(shownWords(rail).contains("All four"));
    EXPECT_TRUE(shownWords(rail).filter("On: ").isEmpty());
}

TEST_F(JobRailTest, AModThatMovesNoCopyBeyondAnotherSaysSo) {
    ASSERT_TRUE(waitForTogether());
    EXPECT_EQ(at(0, ModsModel::spreadRole), "");
    EXPECT_EQ(at(1, ModsModel::spreadRole), "response within spread");
    EXPECT_GT(rowBox(1).height(), rowBox(0).height());
    EXPECT_TRUE(at(0, Qt::AccessibleTextRole).contains("response bigger than the spread: "));
}

// Demo figures: C alone moves the corner from 729 to 1053 Hz and the response at 82 Hz by −0.09 dB.
TEST_F(JobRailTest, ACornerThatMovesForNothingIsSaid) {
    rail.toggleMod("A");
    rail.toggleMod("C");
    ASSERT_TRUE(open.waitForAnswers());
    const auto* note = rail.findChild<SignText*>();
    ASSERT_NE(note, nullptr);
    EXPECT_EQ(note->text(), "corner moved up, low end unchanged (−0.09 dB at 82 Hz)");
    EXPECT_EQ(note->sign(), SignKind::care);
    EXPECT_TRUE(note->isVisibleTo(&rail));
    rail.toggleMod("C");
    ASSERT_TRUE(open.waitForAnswers());
    EXPECT_FALSE(note->isVisibleTo(&rail));
    EXPECT_TRUE(shownWords(rail).contains("None on"));
}

TEST_F(JobRailTest, StandsInBothThemes) {
    ASSERT_TRUE(waitForTogether());
    open.selection.setPart("c4");
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark}) {
        const QImage picture = takePicture(rail, "job-rail", kind);
        Theme::current().setKind(kind);
        const ThemeColours colours = Theme::current().colours();
        EXPECT_GT(pixelsOf(picture, colours.nowSoft), 5000) << "the selected row";
        EXPECT_GT(pixelsOf(picture, colours.now), 300) << "box, triangle and figure of the mod that is on";
        EXPECT_EQ(pixelsOf(picture, colours.warnFill), 0) << "no care without a note";
    }
    Theme::current().setKind(ThemeKind::light);
}

TEST_F(JobRailTest, LargeTextWidensTheRailAndIsNotCutOff) {
    open.selection.setPart("c4");
    Theme::current().setTextScale(1.3);
    emit rail.modMenu().valueAsked({"In series with D1: resistor", Unit::ohm, "470", {}, {}});
    rail.resize(rail.sizeHint().width(), 900);
    takePicture(rail, "job-rail-130", ThemeKind::light);
    EXPECT_EQ(rail.width(), 333);
    EXPECT_EQ(clippedWords(rail), QStringList());
    EXPECT_EQ(rowBox(0).height(), 68);
    Theme::current().setTextScale(1.0);
}

}  // namespace
}  // namespace ohmwright::test
