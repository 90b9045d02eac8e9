// A new unit joined from the shelf: by mouse, by keyboard alone, and what can be done with it afterwards.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/stages/stage_joiner.h"

#include "app/window/start_page.h"
#include "core/circuit/check.h"
#include "core/files/stage_shelf.h"
#include "tests/app/window/open_window.h"

#include <QPushButton>
#include <QStackedWidget>

namespace ohmwright::test {
namespace {

class JoinStages : public OpenWindow {
protected:
    JoinStages() {
        window->actions().action("job.join")->trigger();
        QCoreApplication::processEvents();
        shelf = find<QAbstractItemView>("Shelf of stages");
        path = find<QAbstractItemView>("Signal path");
    }

    [[nodiscard]] QPushButton* button(const QString& words) {
        for (QPushButton* each : window->stageJoiner().findChildren<QPushButton*>()) {
            if (each->text() == words) {
                return each;
            }
        }
        ADD_FAILURE() << "no button " << words.toStdString();
        return nullptr;
    }
    void click(const QString& words) {
        QTest::mouseClick(button(words), Qt::LeftButton);
        QCoreApplication::processEvents();
    }
    /// Presses a row as a person does.
    void clickRow(QAbstractItemView& list, const QString& name) {
        for (int row = 0; row < list.model()->rowCount(); ++row) {
            const QModelIndex index = list.model()->index(row, 0);
            if (index.data().toString() == name) {
                list.scrollTo(index);
                QTest::mouseClick(list.viewport(), Qt::LeftButton, {}, list.visualRect(index).center());
                return;
            }
        }
        ADD_FAILURE() << "no row " << name.toStdString();
    }
    [[nodiscard]] QStringList chosen() {
        QStringList names;
        for (int row = 0; row < path->model()->rowCount(); ++row) {
            names << path->model()->index(row, 0).data().toString();
        }
        return names;
    }
    /// With the arrow keys, from wherever the list stands.
    void walkTo(QAbstractItemView& list, const QString& name) {
        ASSERT_EQ(QApplication::focusWidget(), &list);
        press(Qt::Key_Home);
        for (int tried = 0; tried < 40 && list.currentIndex().data().toString() != name; ++tried) {
            press(Qt::Key_Down);
        }
        ASSERT_EQ(list.currentIndex().data().toString(), name);
    }
    [[nodiscard]] std::vector<std::string> zones() {
        std::vector<std::string> names;
        for (const Stage& stage : job().stock.stages) {
            names.push_back(stage.name);
        }
        return names;
    }

    QAbstractItemView* shelf = nullptr;
    QAbstractItemView* path = nullptr;
};

TEST_F(JoinStages, ThreeStagesByMouseAreANewJobOnTheMap) {
    for (const char* name : {"One transistor", "Level", "Tone, one knob"}) {
        clickRow(*shelf, name);
        click("Put it into the path");
    }
    EXPECT_EQ(chosen(), (QStringList{"One transistor", "Level", "Tone, one knob"}));
    click("Earlier");  // the tone before the level
    EXPECT_EQ(chosen(), (QStringList{"One transistor", "Tone, one knob", "Level"}));
    EXPECT_TRUE(reads("5 zones, "));
    QTest::keyClicks(find<QLineEdit>("Name of the unit"), "Quay Bell");
    click("Make the drawing");
    EXPECT_EQ(zones(), (std::vector<std::string>{"Source", "One transistor", "Tone", "Level", "Output"}));
    EXPECT_EQ(job().unit.name, "Quay Bell");
    EXPECT_EQ(window->place(), Place::map);
    EXPECT_TRUE(window->map().isVisible());
    ASSERT_TRUE(waitForAnswers());
    EXPECT_EQ(window->solver().fault(), "");
    EXPECT_FALSE(window->document().isSaved());
    EXPECT_EQ(window->document().path(), "");
}

TEST_F(JoinStages, TheSameByKeyboardAlone) {
    ASSERT_EQ(QApplication::focusWidget(), shelf);
    for (const char* name : {"JFET", "Soft clip", "Valve"}) {
        walkTo(*shelf, name);
        press(Qt::Key_Return);
    }
    EXPECT_EQ(chosen(), (QStringList{"JFET", "Soft clip", "Valve"}));
    // Two supplies: said, and nothing can be made.
    EXPECT_TRUE(reads("works on some 250 V"));
    EXPECT_FALSE(button("Make the drawing")->isEnabled());
    // Tab walks on to the path: the button first.
    press(Qt::Key_Tab);
    press(Qt::Key_Tab);
    ASSERT_EQ(QApplication::focusWidget(), path);
    press(Qt::Key_End);
    press(Qt::Key_Delete);
    press(Qt::Key_Up, Qt::AltModifier);
    EXPECT_EQ(chosen(), (QStringList{"Soft clip", "JFET"}));
    press(Qt::Key_Down, Qt::AltModifier);
    EXPECT_EQ(chosen(), (QStringList{"JFET", "Soft clip"}));
    for (int tried = 0; tried < 10 && QApplication::focusWidget() != button("Make the drawing"); ++tried) {
        press(Qt::Key_Tab);
    }
    ASSERT_EQ(QApplication::focusWidget(), button("Make the drawing"));
    press(Qt::Key_Space);
    EXPECT_EQ(zones(), (std::vector<std::string>{"Source", "JFET", "Soft clip", "Output"}));
}

TEST_F(JoinStages, UndoLeavesNoJobAndRedoBringsItBack) {
    clickRow(*shelf, "Buffer");
    click("Put it into the path");
    click("Make the drawing");
    ASSERT_EQ(zones().size(), 3U);
    window->actions().action("edit.undo")->trigger();
    EXPECT_TRUE(job().stock.parts.empty());
    EXPECT_TRUE(window->findChild<StartPage*>()->isVisible());
    window->actions().action("edit.redo")->trigger();
    EXPECT_EQ(zones().size(), 3U);
    EXPECT_TRUE(window->map().isVisible());
}

TEST_F(JoinStages, BackLeavesTheOpenJobAsItWas) {
    const Job before = job();
    clickRow(*shelf, "Buffer");
    click("Put it into the path");
    press(Qt::Key_Escape);
    EXPECT_EQ(job(), before);
    EXPECT_TRUE(window->map().isVisible());
    // The next time the path is empty.
    window->actions().action("job.join")->trigger();
    EXPECT_TRUE(chosen().isEmpty());
    EXPECT_TRUE(reads("Choose the first stage on the shelf."));
}

TEST_F(JoinStages, EveryControlHasANameAndEveryRowSaysWhatItIs) {
    for (const QWidget* widget : window->stageJoiner().findChildren<QWidget*>()) {
        if (widget->focusPolicy() == Qt::NoFocus || !widget->isVisible()) {
            continue;
        }
        const auto* pressed = qobject_cast<const QAbstractButton*>(widget);
        EXPECT_FALSE(widget->accessibleName().isEmpty() && (!pressed || pressed->text().isEmpty()))
            << widget->metaObject()->className();
    }
    EXPECT_EQ(shelf->model()->rowCount(), int(stagesToChoose({}).size()));
    for (int row = 0; row < shelf->model()->rowCount(); ++row) {
        const QString words = shelf->model()->index(row, 0).data(Qt::AccessibleTextRole).toString();
        EXPECT_GT(words.size(), 20) << row;
    }
}

TEST_F(JoinStages, TheStartPageLeadsHere) {
    window->document().setJob({}, {});
    auto* start = window->findChild<StartPage*>();
    ASSERT_TRUE(start->isVisible());
    auto* way = find<QAbstractButton>("Soft clip");
    ASSERT_NE(way, nullptr);
    QTest::mouseClick(way, Qt::LeftButton);
    EXPECT_TRUE(window->stageJoiner().isVisible());
    const Result<Job> begun = window->stageJoiner().unit();
    ASSERT_TRUE(begun) << begun.error().message;
    EXPECT_TRUE(std::any_of(begun->stock.parts.begin(), begun->stock.parts.end(), [](const Part& part) {
        return part.kind == PartKind::opamp;
    })) << "the stage that was pressed is the first of the path";
    if (!qEnvironmentVariableIsEmpty("OHMWRIGHT_TEST_PICTURES")) {
        for (const char* name : {"Buffer", "Soft clip", "Tone, mid scoop", "Recovery", "Level"}) {
            clickRow(*shelf, name);
            click("Put it into the path");
        }
        const QString target = qEnvironmentVariable("OHMWRIGHT_TEST_PICTURES");
        EXPECT_TRUE(window->grab().save(target + "/join-light.png"));
        Theme::current().setKind(ThemeKind::dark);
        window->resize(1366, 768);
        QCoreApplication::processEvents();
        EXPECT_TRUE(window->grab().save(target + "/join-dark-small.png"));
        Theme::current().setKind(ThemeKind::light);
    }
}

}  // namespace
}  // namespace ohmwright::test
