// What the file held before: listed with what differs, shown beside, taken back.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/earlier_versions.h"

#include "app/window/file_band.h"
#include "core/plan/edits.h"
#include "tests/app/window/open_window.h"

#include <QListWidget>
#include <QPushButton>

namespace ohmwright::test {
namespace {

class EarlierVersionsTest : public OpenWindow {
protected:
    void saveWith(double farads) {
        ASSERT_TRUE(window->document().edit(setPartValue(job(), "c4", farads), "Change C4"));
        window->actions().action("job.save")->trigger();
        ASSERT_TRUE(window->document().isSaved());
    }
    [[nodiscard]] EarlierVersions& versions() {
        window->actions().action("job.earlier")->trigger();
        auto* dialog = window->findChild<EarlierVersions*>();
        EXPECT_NE(dialog, nullptr);
        return *dialog;
    }
    static void press(QWidget& in, const QString& words) {
        for (QPushButton* each : in.findChildren<QPushButton*>()) {
            if (each->text().remove('&') == words) {
                ASSERT_TRUE(each->isEnabled()) << words.toStdString();
                QTest::keyClick(each, Qt::Key_Space);
                QCoreApplication::processEvents();
                return;
            }
        }
        ADD_FAILURE() << "no button " << words.toStdString();
    }
};

TEST_F(EarlierVersionsTest, AFileThatWasSavedOnceHasNone) {
    EarlierVersions& dialog = versions();
    EXPECT_TRUE(reads("harbour-lamp.ohmjob was saved once only"));
    EXPECT_EQ(dialog.findChild<QListWidget*>()->count(), 0);
}

TEST_F(EarlierVersionsTest, EachStandsWithItsTimeAndWhatDiffersAndIsTakenBackAsAStep) {
    const Job first = job();
    saveWith(150e-9);
    saveWith(22e-9);
    const Job last = job();
    EarlierVersions& dialog = versions();
    auto* list = dialog.findChild<QListWidget*>();
    ASSERT_EQ(list->count(), 2);
    EXPECT_TRUE(list->item(0)->text().contains("56n → 150n → 56n → 22n")) << list->item(0)->text().toStdString();
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Down);
    press(dialog, "Take this one back");
    EXPECT_EQ(job(), first);
    EXPECT_FALSE(window->document().isSaved());
    EXPECT_TRUE(list->item(1)->text().contains("as it is open"));
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(job(), last);
}

TEST_F(EarlierVersionsTest, OneIsShownInAWindowOfItsOwnThatChangesNothing) {
    const Job first = job();
    saveWith(150e-9);
    EarlierVersions& dialog = versions();
    press(dialog, "Show it beside");
    MainWindow* beside = nullptr;
    for (QWidget* each : QApplication::topLevelWidgets()) {
        auto* other = qobject_cast<MainWindow*>(each);
        beside = other && other != &*window ? other : beside;
    }
    ASSERT_NE(beside, nullptr);
    EXPECT_EQ(*beside->document().job(), first);
    EXPECT_TRUE(beside->findChild<FileBand*>()->sentence().startsWith("This is what harbour-lamp.ohmjob held on "));
    EXPECT_FALSE(beside->document().edit(setPartValue(first, "c4", 10e-9), "Change C4"));
    EXPECT_FALSE(beside->document().save());
    delete beside;
    EXPECT_EQ(*window->document().job(), *setPartValue(first, "c4", 150e-9));
}

}  // namespace
}  // namespace ohmwright::test
