// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/action_table.h"

#include <gtest/gtest.h>
#include <QAction>
#include <QApplication>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>
#include <QVBoxLayout>

#include <set>

namespace ohmwright {
namespace {

TEST(ActionTable, HasEveryActionOfTheWindowOnce) {
    std::set<std::string> ids;
    for (const ActionEntry& entry : actionEntries()) {
        EXPECT_TRUE(ids.insert(entry.id).second) << entry.id;
    }
    for (const char* id :
         {"job.open",         "job.save",         "job.saveAs",      "job.recent",    "edit.undo",
          "edit.redo",        "view.holdStock",   "view.theme",      "view.textSize", "mod.mute",
          "mod.swap",         "mod.series",       "mod.across",      "mod.lift",      "mod.bridge",
          "mod.remove",       "paper.benchSheet", "curves.response", "curves.clip",   "go.nextPanel",
          "go.previousPanel", "help.shortcuts",   "help.about",      "app.quit",      "job.exportNetlist"}) {
        EXPECT_EQ(ids.count(id), 1U) << id;
    }
}

TEST(ActionTable, EveryActionHasWordsAHintAndAKeyOfItsOwn) {
    const ActionTable table;
    std::set<std::string> keys;
    for (const ActionEntry& entry : actionEntries()) {
        const QAction* action = table.action(entry.id);
        EXPECT_FALSE(action->text().isEmpty()) << entry.id;
        EXPECT_TRUE(action->statusTip().endsWith('.')) << entry.id << ": a sentence";
        EXPECT_EQ(action->objectName(), entry.id);
        for (const QKeySequence& key : action->shortcuts()) {
            EXPECT_FALSE(key.isEmpty()) << entry.id;
            EXPECT_TRUE(keys.insert(key.toString().toStdString()).second)
                << entry.id << " " << key.toString().toStdString();
        }
    }
}

TEST(ActionTable, KeysAreThoseOfTheLook) {
    // Source: LOOK section 7.
    const ActionTable table;
    EXPECT_EQ(table.action("edit.undo")->shortcut(), QKeySequence(Qt::CTRL | Qt::Key_Z));
    EXPECT_EQ(table.action("edit.redo")->shortcut(), QKeySequence(Qt::CTRL | Qt::Key_Y));
    EXPECT_EQ(table.action("edit.redo")->shortcuts().size(), 2);
    EXPECT_EQ(table.action("paper.benchSheet")->shortcut(), QKeySequence(Qt::CTRL | Qt::Key_P));
    EXPECT_EQ(table.action("curves.response")->shortcut(), QKeySequence(Qt::CTRL | Qt::Key_1));
    EXPECT_EQ(table.action("curves.clip")->shortcut(), QKeySequence(Qt::CTRL | Qt::Key_2));
    EXPECT_EQ(table.action("go.nextPanel")->shortcut(), QKeySequence(Qt::Key_F6));
    EXPECT_EQ(table.action("go.previousPanel")->shortcut(), QKeySequence(Qt::SHIFT | Qt::Key_F6));
    EXPECT_EQ(table.action("mod.mute")->shortcut(), QKeySequence(Qt::Key_M));
    EXPECT_TRUE(table.action("view.holdStock")->shortcut().isEmpty()) << "held down, not pressed";
    EXPECT_EQ(table.wordsWithKeys("view.holdStock").toStdString(), "Hold for stock (S)");
    EXPECT_EQ(table.wordsWithKeys("mod.swap").toStdString(), "Swap part");
}

TEST(ActionTable, MenuListsItsActionsInOrder) {
    const ActionTable table;
    const auto edit = table.menu("edit");
    ASSERT_EQ(edit.size(), 3U);
    EXPECT_EQ(edit[0]->objectName().toStdString(), "edit.undo");
    EXPECT_EQ(edit[1]->objectName().toStdString(), "edit.redo");
    EXPECT_EQ(edit[2]->objectName().toStdString(), "edit.copyDrawing");
    EXPECT_EQ(table.menu("mod").size(), 7U);
    EXPECT_TRUE(table.menu("nothing").empty());
}

TEST(ActionTable, LettersActInAPanelAndNeverInAField) {
    QWidget window;
    auto* layout = new QVBoxLayout(&window);
    auto* panel = new QWidget;
    panel->setFocusPolicy(Qt::StrongFocus);
    panel->setMinimumSize(80, 40);
    auto* field = new QLineEdit;
    layout->addWidget(panel);
    layout->addWidget(field);
    const ActionTable table;
    table.attachWindow(&window);
    table.attachPanel(panel);
    window.show();
    QApplication::setActiveWindow(&window);
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    QSignalSpy muted(table.action("mod.mute"), &QAction::triggered);
    QSignalSpy saved(table.action("job.save"), &QAction::triggered);
    panel->setFocus();
    QTest::keyClick(panel, Qt::Key_M);
    EXPECT_EQ(muted.count(), 1);
    field->setFocus();
    QTest::keyClicks(field, "M");
    EXPECT_EQ(muted.count(), 1);
    EXPECT_EQ(field->text().toStdString(), "M");
    QTest::keyClick(field, Qt::Key_S, Qt::ControlModifier);
    EXPECT_EQ(saved.count(), 1) << "window keys work in a field too";
}

TEST(ActionTable, GesturesAreWordsForTheHelpPage) {
    EXPECT_GE(gestures().size(), 8U);
    for (const Gesture& gesture : gestures()) {
        EXPECT_STRNE(gesture.keys, "");
        EXPECT_STRNE(gesture.hint, "");
    }
}

}  // namespace
}  // namespace ohmwright
