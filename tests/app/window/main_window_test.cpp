// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/main_window.h"

#include "app/knobs/knob_row.h"
#include "app/window/message_band.h"
#include "app/window/mod_spine.h"
#include "app/window/start_page.h"
#include "app/window/status_line.h"
#include "core/plan/edits.h"
#include "tests/app/window/open_window.h"

#include <QAbstractButton>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>
#include <QMimeData>
#include <QPushButton>
#include <QTimer>

namespace ohmwright::test {
namespace {

class MainWindowTest : public OpenWindow {
protected:
    /// Answers the question that the next action asks; returns whether it was asked.
    void answer(QMessageBox::StandardButton button) {
        QTimer::singleShot(0, &*window, [this, button] {
            auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
            m_wasAsked = box != nullptr;
            if (box) {
                box->button(button)->click();
            }
        });
    }
    void changeSomething() { ASSERT_TRUE(window->document().edit(setKnob(job(), "drive", 7.0), "Turn Drive")); }
    [[nodiscard]] bool wasAsked() const { return m_wasAsked; }
    [[nodiscard]] QByteArray fileText() const {
        QFile file(path);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }

private:
    bool m_wasAsked = false;
};

// --- keys --------------------------------------------------------------------------------------------------------

TEST_F(MainWindowTest, HoldingSShowsStockOnTheMap) {
    QWidget* view = &window->map().view();
    view->setFocus();
    QTest::keyPress(view, Qt::Key_S);
    EXPECT_TRUE(window->selection().holdsStock());
    QTest::keyRelease(view, Qt::Key_S);
    EXPECT_FALSE(window->selection().holdsStock());
}

TEST_F(MainWindowTest, SPressedTwiceLatchesAndOnceMoreLetsGo) {
    QWidget* view = &window->map().view();
    view->setFocus();
    press(Qt::Key_S);
    press(Qt::Key_S);
    EXPECT_TRUE(window->selection().holdsStock());
    EXPECT_TRUE(window->actions().action("view.holdStock")->isChecked());
    press(Qt::Key_S);
    EXPECT_FALSE(window->selection().holdsStock());
    EXPECT_FALSE(window->actions().action("view.holdStock")->isChecked());
}

TEST_F(MainWindowTest, LettersAreTextWhereTextIsTyped) {
    clickPart("C4");
    type("1");
    auto* field = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    ASSERT_NE(field, nullptr) << QApplication::focusWidget()->metaObject()->className();
    QTest::keyPress(field, Qt::Key_S);
    EXPECT_FALSE(window->selection().holdsStock());
    QTest::keyRelease(field, Qt::Key_S);
    QTest::keyClick(field, Qt::Key_B, Qt::ShiftModifier);
    EXPECT_FALSE(isOn("B"));
}

TEST_F(MainWindowTest, ShiftAndALetterSwitchesThatModFromMapAndCurves) {
    window->map().view().setFocus();
    press(Qt::Key_B, Qt::ShiftModifier);
    EXPECT_TRUE(isOn("B"));
    window->curves().setFocus();
    if (QApplication::focusWidget() == &window->curves() ||
        window->curves().isAncestorOf(QApplication::focusWidget())) {
        press(Qt::Key_B, Qt::ShiftModifier);
        EXPECT_FALSE(isOn("B"));
    }
}

TEST_F(MainWindowTest, MMutesTheModOfTheSelectedPartAndDeleteTakesItOut) {
    clickPart("C4");
    press(Qt::Key_M);
    EXPECT_FALSE(isOn("A"));
    press(Qt::Key_Delete);
    EXPECT_EQ(job().plan.size(), 3U);
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(job().plan.size(), 4U);
    clickPart("R1");
    press(Qt::Key_Delete);
    EXPECT_TRUE(window->refusal().contains("No mod is planned")) << window->refusal().toStdString();
    EXPECT_EQ(job().plan.size(), 4U);
}

TEST_F(MainWindowTest, EscapeGoesOneLevelOut) {
    clickPart("C4");
    window->selection().setGhost(SwapValue{idOf("C4"), 150e-9});
    window->map().view().setFocus();
    press(Qt::Key_Escape);
    EXPECT_FALSE(window->selection().ghost());
    EXPECT_EQ(window->selection().part(), idOf("C4"));
    press(Qt::Key_Escape);
    EXPECT_EQ(window->selection().part(), "");
}

TEST_F(MainWindowTest, F6WalksThroughThePanelsAndBack) {
    window->map().view().setFocus();
    QSet<QWidget*> visited;
    for (int i = 0; i < 5; ++i) {
        press(Qt::Key_F6);
        ASSERT_NE(QApplication::focusWidget(), nullptr);
        visited.insert(QApplication::focusWidget());
    }
    EXPECT_GE(visited.size(), 4);
    window->map().view().setFocus();
    press(Qt::Key_F6);
    press(Qt::Key_F6, Qt::ShiftModifier);
    EXPECT_TRUE(window->map().isAncestorOf(QApplication::focusWidget()));
}

// --- words in place ----------------------------------------------------------------------------------------------

TEST_F(MainWindowTest, ARefusedEditIsSaidInABandUntilTheNextOneIsTaken) {
    EXPECT_FALSE(window->document().edit(setPartValue(job(), "no such part", 1.0), "Change nothing"));
    EXPECT_FALSE(window->refusal().isEmpty());
    EXPECT_TRUE(reads(window->refusal()));
    changeSomething();
    EXPECT_EQ(window->refusal(), "");
}

TEST_F(MainWindowTest, ARefusalCanBeDismissed) {
    window->document().edit(setPartValue(job(), "no such part", 1.0), "Change nothing");
    for (QPushButton* button : window->findChildren<QPushButton*>()) {
        if (button->text() == "Dismiss") {
            button->click();
        }
    }
    EXPECT_EQ(window->refusal(), "");
}

TEST_F(MainWindowTest, AMissingFileIsSaidAndTheOpenJobStays) {
    const auto before = window->document().job();
    EXPECT_FALSE(window->openFile(folder.filePath("gone.ohmjob")));
    EXPECT_TRUE(window->refusal().contains("gone.ohmjob")) << window->refusal().toStdString();
    EXPECT_EQ(window->document().job(), before);
}

TEST_F(MainWindowTest, NoSheetIsPrintedWhileThereIsAFault) {
    ASSERT_TRUE(waitForAnswers());
    Job broken = job();
    Part* part = findPart(broken.stock, idOf("R5"));
    ASSERT_NE(part, nullptr);
    part->nets[1] = "nowhere";
    window->document().edit(broken, "Break the gain leg");
    ASSERT_TRUE(QTest::qWaitFor([this] { return !window->solver().fault().isEmpty(); }, 60'000));
    EXPECT_FALSE(window->actions().action("paper.benchSheet")->isEnabled());
    EXPECT_TRUE(reads("not solved"));
    window->actions().action("edit.undo")->trigger();
    ASSERT_TRUE(waitForAnswers());
    EXPECT_TRUE(window->actions().action("paper.benchSheet")->isEnabled());
    EXPECT_FALSE(reads("not solved"));
}

TEST_F(MainWindowTest, HighVoltageStandsUnderTheHeaderForTheWholeJob) {
    Job valve = job();
    valve.setting.batteryVolts = 250.0;
    window->document().edit(valve, "Change the supply");
    EXPECT_TRUE(reads("High voltage: 250 V"));
    window->document().undoStack().undo();
    EXPECT_FALSE(reads("High voltage"));
}

TEST_F(MainWindowTest, TheStatusLineSaysHowTheSolveWent) {
    ASSERT_TRUE(waitForAnswers());
    EXPECT_TRUE(reads("solved in "));
    EXPECT_TRUE(reads("current residual "));
    EXPECT_TRUE(reads("resistors IEC 60617     levels in mVpk"));
}

TEST_F(MainWindowTest, TheTitleNamesTheUnitAndMarksUnsavedWork) {
    EXPECT_TRUE(window->windowTitle().startsWith("Harbour Lamp")) << window->windowTitle().toStdString();
    EXPECT_FALSE(window->isWindowModified());
    changeSomething();
    EXPECT_TRUE(window->isWindowModified());
}

// --- files and closing -------------------------------------------------------------------------------------------

TEST_F(MainWindowTest, SavingWritesTheFile) {
    const QByteArray before = fileText();
    changeSomething();
    window->actions().action("job.save")->trigger();
    EXPECT_EQ(window->refusal(), "");
    EXPECT_NE(fileText(), before);
    EXPECT_FALSE(window->isWindowModified());
}

TEST_F(MainWindowTest, SavingOverAnothersChangeIsRefusedInWords) {
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::Append));
    file.write("\n\n");
    file.close();
    const QByteArray theirs = fileText();
    changeSomething();
    window->actions().action("job.save")->trigger();
    EXPECT_TRUE(reads("was changed by another program"));
    EXPECT_EQ(fileText(), theirs);
    EXPECT_TRUE(window->isWindowModified());
}

TEST_F(MainWindowTest, ClosingWithoutChangesAsksNothing) {
    answer(QMessageBox::Cancel);
    EXPECT_TRUE(window->close());
    QCoreApplication::processEvents();
    EXPECT_FALSE(wasAsked());
}

TEST_F(MainWindowTest, ClosingWithChangesMayBeTakenBack) {
    changeSomething();
    answer(QMessageBox::Cancel);
    EXPECT_FALSE(window->close());
    EXPECT_TRUE(wasAsked());
    EXPECT_TRUE(window->isVisible());
}

TEST_F(MainWindowTest, ClosingWithChangesSavesThem) {
    const QByteArray before = fileText();
    changeSomething();
    answer(QMessageBox::Save);
    EXPECT_TRUE(window->close());
    EXPECT_NE(fileText(), before);
}

TEST_F(MainWindowTest, ClosingWithChangesDiscardsThemWhenToldSo) {
    const QByteArray before = fileText();
    changeSomething();
    answer(QMessageBox::Discard);
    EXPECT_TRUE(window->close());
    EXPECT_EQ(fileText(), before);
}

TEST_F(MainWindowTest, ClosingInTheMiddleOfASolveIsQuick) {
    changeSomething();
    QCoreApplication::processEvents();
    window->document().undoStack().undo();
    window.reset();
    SUCCEED();
}

TEST_F(MainWindowTest, OpenedJobsAreOfferedAgain) {
    EXPECT_EQ(Settings().recentFiles().value(0), path);
    QMenu* recent = window->actions().action("job.recent")->menu();
    ASSERT_NE(recent, nullptr);
    emit recent->aboutToShow();
    ASSERT_FALSE(recent->actions().isEmpty());
    EXPECT_EQ(recent->actions().first()->text(), "harbour-lamp.ohmjob");
}

TEST_F(MainWindowTest, AJobMayBeDropped) {
    window->document().setJob(Job{}, {});
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(path)});
    QDragEnterEvent enter(QPoint(10, 10), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(&*window, &enter);
    EXPECT_TRUE(enter.isAccepted());
    QDropEvent drop(QPointF(10, 10), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(&*window, &drop);
    EXPECT_EQ(job().unit.name, "Harbour Lamp");
}

// --- layout and look ---------------------------------------------------------------------------------------------

TEST_F(MainWindowTest, ANarrowWindowFoldsTheModsToASpineAndUnfoldsThemOnDemand) {
    auto* spine = window->findChild<ModSpine*>();
    auto* mods = find<QAbstractItemView>("Mods");
    auto* status = window->findChild<StatusLine*>();
    EXPECT_FALSE(spine->isVisible());
    EXPECT_TRUE(mods->isVisible());
    EXPECT_TRUE(status->isVisible());
    window->resize(1366, 768);
    QCoreApplication::processEvents();
    EXPECT_TRUE(spine->isVisible());
    EXPECT_FALSE(mods->isVisible());
    EXPECT_FALSE(status->isVisible());
    EXPECT_TRUE(window->curves().isNarrow());
    QTest::mouseClick(spine, Qt::LeftButton, {}, QPoint(14, 24));
    EXPECT_TRUE(mods->isVisible());
    QTest::mouseClick(spine, Qt::LeftButton, {}, QPoint(14, 24));
    EXPECT_FALSE(mods->isVisible());
    window->resize(1600, 1000);
    QCoreApplication::processEvents();
    EXPECT_FALSE(spine->isVisible());
    EXPECT_TRUE(mods->isVisible());
}

TEST_F(MainWindowTest, EverySizeAndTextSizeKeepsItsPanelsInsideTheWindow) {
    for (const double scale : {1.0, 1.3}) {
        Theme::current().setTextScale(scale);
        for (const QSize size : {QSize(1024, 640), QSize(1366, 768), QSize(1600, 1000), QSize(1920, 1080)}) {
            window->resize(size);
            for (int i = 0; i < 5; ++i) {
                QCoreApplication::processEvents();
            }
            EXPECT_EQ(window->size(), size) << "text " << scale;
            const QWidget* panels[] = {&window->map(), &window->curves(), &window->partPanel(),
                                       window->findChild<KnobRow*>()};
            for (const QWidget* panel : panels) {
                const QRect place(panel->mapTo(&*window, QPoint(0, 0)), panel->size());
                EXPECT_LE(place.right(), size.width()) << panel->metaObject()->className() << " " << size.width();
                EXPECT_GE(place.left(), 0) << panel->metaObject()->className();
                EXPECT_LE(place.bottom(), size.height()) << panel->metaObject()->className() << " " << size.height();
            }
        }
    }
    Theme::current().setTextScale(1.0);
}

TEST_F(MainWindowTest, TheThemeIsChosenFromTheMenuAndRemembered) {
    QMenu* themes = window->actions().action("view.theme")->menu();
    ASSERT_NE(themes, nullptr);
    ASSERT_EQ(themes->actions().size(), 3);
    themes->actions()[1]->trigger();
    EXPECT_EQ(Theme::current().kind(), ThemeKind::dark);
    EXPECT_EQ(Settings().theme(), ThemeChoice::dark);
    themes->actions()[0]->trigger();
    EXPECT_EQ(Theme::current().kind(), ThemeKind::light);
}

TEST_F(MainWindowTest, TextSizeIsChosenFromTheMenuAndRemembered) {
    QMenu* sizes = window->actions().action("view.textSize")->menu();
    ASSERT_NE(sizes, nullptr);
    sizes->actions()[2]->trigger();
    EXPECT_NEAR(Theme::current().textScale(), 1.3, 1e-9);
    sizes->actions()[0]->trigger();
    EXPECT_NEAR(Settings().textScale(), 1.0, 1e-9);
}

TEST_F(MainWindowTest, EveryActionOfAMenuHasWordsAndAHint) {
    const auto* bar = window->findChild<QMenuBar*>();
    ASSERT_NE(bar, nullptr);
    QStringList menus;
    for (const QAction* top : bar->actions()) {
        menus.append(top->text().remove('&'));
        ASSERT_NE(top->menu(), nullptr);
        for (const QAction* action : top->menu()->actions()) {
            if (!action->isSeparator()) {
                EXPECT_FALSE(action->text().isEmpty());
            }
        }
    }
    EXPECT_EQ(menus, QStringList({"File", "Edit", "View", "Help"}));
}

TEST_F(MainWindowTest, WithoutAJobTheStartPageOffersTheDemo) {
    MainWindow empty;
    empty.show();
    auto* page = empty.findChild<StartPage*>();
    ASSERT_NE(page, nullptr);
    EXPECT_TRUE(page->isVisible());
    EXPECT_FALSE(empty.actions().action("paper.benchSheet")->isEnabled());
    emit page->demoAsked("harbour-lamp");
    EXPECT_FALSE(page->isVisible());
    EXPECT_EQ(empty.document().job()->unit.name, "Harbour Lamp");
    EXPECT_EQ(empty.document().saveStateText(), "not saved yet");
}

}  // namespace
}  // namespace ohmwright::test
