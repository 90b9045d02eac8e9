// A window is killed with unsaved work in it; the next one offers it.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/lost_work_band.h"

#include "core/plan/edits.h"
#include "tests/app/window/open_window.h"

#include <QPushButton>
#include <QStandardPaths>

namespace ohmwright::test {
namespace {

class LostWorkBandTest : public OpenWindow {
protected:
    [[nodiscard]] static QString journals() {
        return QDir(QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation)).filePath("journal");
    }
    /// As a killed window leaves it: a journal without a living lock.
    void leaveBehind(const Job& work, const QString& file, const QString& name = "left") {
        ASSERT_TRUE(QDir().mkpath(journals()));
        const JournalEntry entry{work, file.toStdString(), "2026-11-29T21:58:03"};
        ASSERT_TRUE(saveJournal(entry, QDir(journals()).filePath(name + ".journal").toStdString()));
    }
    void startAgain() {
        window.reset();
        window.emplace();
        window->resize(1600, 1000);
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&*window));
    }
    [[nodiscard]] QPushButton* button(const QString& words) {
        for (QPushButton* each : window->findChildren<QPushButton*>()) {
            if (each->text() == words && each->isVisible()) {
                return each;
            }
        }
        return nullptr;
    }
};

TEST_F(LostWorkBandTest, IsOfferedBroughtBackOnTopOfItsFileAndOfferedNoMore) {
    const Job saved = job();
    const Job work = *setPartValue(saved, "c4", 150e-9);
    leaveBehind(work, path);
    startAgain();
    EXPECT_TRUE(reads("The program ended on 29 Nov 21:58 with unsaved work on Harbour Lamp."));
    ASSERT_NE(button("Bring it back"), nullptr);
    button("Bring it back")->click();
    EXPECT_EQ(job(), work);
    EXPECT_EQ(window->document().path(), path);
    EXPECT_FALSE(window->document().isSaved());
    EXPECT_EQ(button("Bring it back"), nullptr);
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(job(), saved) << "what the file holds";
    window->actions().action("edit.redo")->trigger();
    ASSERT_TRUE(window->document().save());
    startAgain();
    EXPECT_EQ(button("Bring it back"), nullptr);
}

TEST_F(LostWorkBandTest, WorkThatNeverHadAFileComesBackAsANewJob) {
    const Job work = *setPartValue(job(), "c4", 150e-9);
    leaveBehind(work, {});
    startAgain();
    ASSERT_NE(button("Bring it back"), nullptr);
    button("Bring it back")->click();
    EXPECT_EQ(job(), work);
    EXPECT_TRUE(window->document().path().isEmpty());
    EXPECT_FALSE(window->document().isSaved());
}

TEST_F(LostWorkBandTest, DismissedItIsOfferedAgainAtTheNextStart) {
    leaveBehind(*setPartValue(job(), "c4", 150e-9), path);
    startAgain();
    ASSERT_NE(button("Dismiss"), nullptr);
    button("Dismiss")->click();
    EXPECT_EQ(button("Bring it back"), nullptr);
    startAgain();
    ASSERT_NE(button("Bring it back"), nullptr);
    button("Bring it back")->click();
    window->document().undoStack().undo();
    window->document().undoStack().setClean();
}

// It was offered at every start until it was brought back, wanted or not.
TEST_F(LostWorkBandTest, ThrownAwayItIsOfferedNoMore) {
    leaveBehind(*setPartValue(job(), "c4", 150e-9), path);
    startAgain();
    ASSERT_TRUE(window->openFile(path));
    window->showPlace(Place::map);
    QWidget* before = window->focusWidget();
    QPushButton* away = button("Throw it away");
    ASSERT_NE(away, nullptr);
    away->setFocus(Qt::TabFocusReason);
    QTest::keyClick(away, Qt::Key_Space);
    EXPECT_EQ(button("Throw it away"), nullptr);
    EXPECT_EQ(window->focusWidget(), before);
    startAgain();
    EXPECT_EQ(button("Bring it back"), nullptr);
}

// Two kills: "Dismiss" seemed to do nothing, since the next sentence was the same but for its time, and the keyboard
// went to the tabs.
TEST_F(LostWorkBandTest, OfSeveralEachIsCountedAndTheKeyboardGoesBackToWhereItWas) {
    leaveBehind(*setPartValue(job(), "c4", 150e-9), path);
    leaveBehind(*setPartValue(job(), "c4", 180e-9), path, "left-too");
    startAgain();
    ASSERT_TRUE(window->openFile(path));
    window->showPlace(Place::map);
    QWidget* before = window->focusWidget();
    ASSERT_NE(before, nullptr);
    EXPECT_TRUE(reads("The program ended on 29 Nov 21:58 with unsaved work on Harbour Lamp. (1 of 2)"));
    QPushButton* dismiss = button("Dismiss");
    ASSERT_NE(dismiss, nullptr);
    dismiss->setFocus(Qt::TabFocusReason);
    QTest::keyClick(dismiss, Qt::Key_Space);
    EXPECT_TRUE(reads("The program ended on 29 Nov 21:58 with unsaved work on Harbour Lamp. (2 of 2)"));
    EXPECT_TRUE(dismiss->hasFocus());
    QTest::keyClick(dismiss, Qt::Key_Space);
    EXPECT_EQ(button("Dismiss"), nullptr);
    EXPECT_EQ(window->focusWidget(), before);
    for (const QString& name : {QString("left.journal"), QString("left-too.journal")}) {
        EXPECT_TRUE(QFile::remove(QDir(journals()).filePath(name)));
    }
}

// A unit is called as its owner calls it: "Fuzz %2" stood there as "Fuzz 1".
TEST_F(LostWorkBandTest, OfSeveralAUnitKeepsItsNameWhateverStandsInIt) {
    Job work = *setPartValue(job(), "c4", 150e-9);
    work.unit.name = "Fuzz %2";
    leaveBehind(work, {});
    leaveBehind(work, {}, "left-too");
    startAgain();
    EXPECT_TRUE(reads("The program ended on 29 Nov 21:58 with unsaved work on Fuzz %2. (1 of 2)"));
    for (const QString& name : {QString("left.journal"), QString("left-too.journal")}) {
        EXPECT_TRUE(QFile::remove(QDir(journals()).filePath(name)));
    }
}

}  // namespace
}  // namespace ohmwright::test
