// Reference: tests/reference/demos/figures.csv for the bias of Harbour Lamp (idle 3.91 mA, output of U1 at 4.46 V).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/history_place.h"

#include "app/background/bench_service.h"
#include "app/history/past_visits.h"
#include "app/history/recipe_bench.h"
#include "app/history/sentence_list.h"
#include "app/history/visit_card_view.h"
#include "app/history/words_field.h"
#include "core/bench/visit_card.h"
#include "core/bench/visits.h"
#include "core/bench/work_log.h"
#include "core/files/job_file.h"
#include "core/files/recipe_file.h"
#include "tests/support/open_job.h"
#include "tests/support/temporary_folder.h"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

namespace ohmwright::test {
namespace {

constexpr int patienceMilliseconds = 120'000;

class HistoryPlaceTest : public testing::Test {
protected:
    HistoryPlaceTest() {
        open.shop.open(QString::fromStdString((folder / "shop").string()));
        place.resize(1600, 900);
        place.show();
        EXPECT_TRUE(waitFor([this] { return place.isCurrent(); }));
    }

    template <class Condition>
    bool waitFor(Condition condition) {
        return QTest::qWaitFor(condition, patienceMilliseconds);
    }
    template <class Widget>
    [[nodiscard]] Widget& named(const QString& name) const {
        for (Widget* widget : place.findChildren<Widget*>()) {
            if (widget->accessibleName() == name && !widget->isHidden()) {
                return *widget;
            }
        }
        ADD_FAILURE() << "no widget is called " << name.toStdString();
        return *place.findChild<Widget*>();
    }
    void press(const QString& words) {
        for (QPushButton* button : place.findChildren<QPushButton*>()) {
            if (button->text() == words && button->isVisible()) {
                QTest::mouseClick(button, Qt::LeftButton);
                return;
            }
        }
        ADD_FAILURE() << "no button " << words.toStdString();
    }
    [[nodiscard]] bool reads(const QString& words) const {
        for (const QWidget* widget : place.findChildren<QWidget*>()) {
            const auto* label = qobject_cast<const QLabel*>(widget);
            const auto* sign = qobject_cast<const SignText*>(widget);
            const QString text = label ? label->text() : sign ? sign->text() : QString();
            if (text.contains(words) && widget->isVisible()) {
                return true;
            }
        }
        return false;
    }
    [[nodiscard]] SignKind signOf(const QString& words) const {
        for (const SignText* line : place.findChildren<SignText*>()) {
            if (line->text().contains(words) && line->isVisible()) {
                return line->sign();
            }
        }
        ADD_FAILURE() << "nowhere: " << words.toStdString();
        return SignKind::none;
    }
    void typeInto(const QString& name, const QString& text) {
        auto& entry = named<QLineEdit>(name);
        entry.setFocus();
        entry.selectAll();
        QTest::keyClicks(&entry, text);
        QTest::keyClick(&entry, Qt::Key_Return);
    }
    void askState(const char* word) {
        QTest::mouseClick(&named<QPushButton>(QString("Visit state: ") + word), Qt::LeftButton);
    }
    /// In both themes and at the smallest size no word is cut off.
    void expectReadable(const QString& picture) {
        for (const QSize& size : {QSize(1600, 900), QSize(1366, 690)}) {
            place.resize(size);
            for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark}) {
                takePicture(place, QString("%1-%2").arg(picture).arg(size.width()), kind);
            }
            EXPECT_EQ(clippedWords(place), QStringList());
        }
    }
    [[nodiscard]] const Job& job() { return *open.document.job(); }

    TemporaryFolder folder;
    OpenJob open;
    BenchService bench{open.document};
    HistoryPlace place{open.document, open.shop, bench};
};

TEST_F(HistoryPlaceTest, AReadingOutsideIsSaidWithItsSignAndAGoodOneToo) {
    ASSERT_TRUE(reads("supply current"));
    typeInto("supply current, before the work", "9.2");
    ASSERT_EQ(job().visit.readings.size(), 1u);
    EXPECT_NEAR(job().visit.readings[0].value, 9.2e-3, 1e-9);
    EXPECT_EQ(signOf("supply current: 9.20 mA"), SignKind::care);
    EXPECT_TRUE(reads("find out before any mod"));
    typeInto("supply current, before the work", "3,91 mA");
    EXPECT_EQ(signOf("supply current: 3.91 mA"), SignKind::tick);
    ASSERT_EQ(job().visit.readings.size(), 1u);
    // One undo step each; what was read first is back.
    open.document.undoStack().undo();
    EXPECT_NEAR(job().visit.readings[0].value, 9.2e-3, 1e-9);
    typeInto("supply current, before the work", "much");
    EXPECT_TRUE(reads("“much” is no reading"));
    EXPECT_NEAR(job().visit.readings[0].value, 9.2e-3, 1e-9);
}

TEST_F(HistoryPlaceTest, WordsAreWrittenWhileTheyAreTypedAsOneStep) {
    auto& field = named<WordsField>("As it came in, and what came with it");
    field.setFocus();
    QTest::keyClicks(&field, "Scratched lid; strap with it.");
    // Not only once the field is left: a save, a crash, a close come before.
    EXPECT_EQ(job().visit.condition, "Scratched lid; strap with it.");
    named<WordsField>("What was agreed").setFocus();
    QCoreApplication::processEvents();
    field.clearFocus();
    EXPECT_EQ(job().visit.condition, "Scratched lid; strap with it.");
    open.document.undoStack().undo();
    EXPECT_EQ(job().visit.condition, "") << "one step";
    EXPECT_EQ(field.toPlainText(), "");
}

TEST_F(HistoryPlaceTest, AStateSaysWhatItAsksForAndIsTakenWhenItIsThere) {
    EXPECT_TRUE(reads("A quote asks for"));
    askState("quoted");
    EXPECT_EQ(job().visit.state, VisitState::quoted);
    askState("on bench");
    EXPECT_EQ(job().visit.state, VisitState::quoted);
    EXPECT_EQ(signOf("The visit is not on bench yet"), SignKind::care);
    open.document.edit(writeVisitWords(job(), {{}, "A.", {}}), "agree", JobAspect::words);
    askState("on bench");
    EXPECT_EQ(job().visit.state, VisitState::onBench);
    askState("proven");
    EXPECT_EQ(job().visit.state, VisitState::onBench);
    EXPECT_TRUE(reads("are not signed yet"));
    askState("gone");
    EXPECT_TRUE(reads("not proven yet"));
    askState("draft");
    EXPECT_EQ(job().visit.state, VisitState::draft) << "a step back asks for nothing";
}

// A quote that was declined: nothing is on, and the unit goes as it came.
TEST_F(HistoryPlaceTest, AUnitMayLeaveAsItCame) {
    Job bare = job();
    bare.plan.clear();
    open.document.setJob(bare, {});
    askState("gone");
    EXPECT_EQ(job().visit.state, VisitState::draft);
    EXPECT_TRUE(reads("the record is frozen"));
    press("Write what leaves and end the visit");
    EXPECT_EQ(job().visit.state, VisitState::gone);
    EXPECT_TRUE(reads("Nothing was changed."));
}

/// Signed to the end, as the check list does it.
Job signedToTheEnd(Job job, const WorkPlan& work) {
    job.visit.state = VisitState::onBench;
    for (const std::string& key : stepKeys(work.steps)) {
        StepMark mark;
        mark.step = key;
        mark.when = "2026-11-29T11:00:00";
        job.visit.marks.push_back(mark);
    }
    return job;
}

TEST_F(HistoryPlaceTest, AUnitLeavesWithItsReadingsComesBackAndIsCompared) {
    open.document.edit(signedToTheEnd(job(), *bench.work()), "sign", JobAspect::words);
    askState("proven");
    ASSERT_EQ(job().visit.state, VisitState::proven);
    typeInto("supply current, on leaving", "3.91");
    EXPECT_TRUE(job().departures.empty());
    EXPECT_TRUE(reads("How the work stands"));
    EXPECT_EQ(signOf("Mod A is proven."), SignKind::tick);
    press("Write what leaves and end the visit");
    ASSERT_EQ(job().departures.size(), 1u);
    EXPECT_EQ(job().visit.state, VisitState::gone);
    ASSERT_EQ(job().departures[0].readings.size(), 1u);
    EXPECT_TRUE(reads("Visit 2, gone"));
    EXPECT_TRUE(reads("C4 Cg 56n → 120n"));
    EXPECT_TRUE(reads("Read on leaving: supply current 3.91 mA"));
    EXPECT_TRUE(named<WordsField>("The customer's words").isReadOnly());

    typeInto("Note beside the record of visit 2", "The knob was new.");
    ASSERT_EQ(job().departures[0].notes.size(), 1u);
    EXPECT_TRUE(QString::fromStdString(job().departures[0].notes[0]).endsWith(": The knob was new."));

    press("Begin the next visit");
    EXPECT_EQ(job().visit.number, 3);
    EXPECT_TRUE(job().plan.empty());
    ASSERT_TRUE(waitFor([this] { return place.isCurrent(); }));
    typeInto("supply current, before the work", "3.93");
    ASSERT_TRUE(waitFor([this] { return reads("Nothing changed since the unit left"); }));
    typeInto("supply current, before the work", "9.4");
    ASSERT_TRUE(waitFor([this] { return reads("somebody was inside"); }));
    EXPECT_TRUE(reads("3.91 mA on leaving, 9.40 mA now, changed"));
    expectReadable("history-returned");

    // The job as it was then comes out as a file of its own.
    const QString then = QString::fromStdString((folder / "then.ohmjob").string());
    ASSERT_TRUE(place.visits().writeEarlierJob(2, then));
    EXPECT_EQ(loadJob(then.toStdString())->job.visit.number, 2);
    EXPECT_FALSE(place.visits().writeEarlierJob(7, then));
}

TEST_F(HistoryPlaceTest, TheSameUnitInAnotherFileOfTheShopIsTold) {
    Job older = job();
    older.visit.number = 1;
    older.visit.complaint = "Crackles.";
    std::filesystem::create_directories(folder / "shop");
    ASSERT_TRUE(saveJob(older, folder / "shop" / "older.ohmjob"));
    open.shop.setJobs(readShopJobs(folder / "shop"));
    EXPECT_TRUE(reads("“Crackles.”"));
    EXPECT_TRUE(reads("in older.ohmjob"));
}

TEST_F(HistoryPlaceTest, ARecipeIsTakenHeldAgainstTheUnitAndPutIntoThePlan) {
    press("Take a recipe of A");
    ASSERT_TRUE(waitFor([this] { return reads("Kept as"); }));
    ASSERT_EQ(readShopRecipes(folder / "shop").size(), 1u);

    // Another unit of the same board, its leg resistor another.
    Job unit = job();
    unit.plan.clear();
    unit.unit.serial = "HL-0300";
    findPart(unit.stock, "r5")->value = 2.7e3;
    open.document.setJob(unit, {});
    QTest::mouseClick(&named<QAbstractButton>("Recipe Harbour Lamp A"), Qt::LeftButton);
    EXPECT_TRUE(reads("solving"));
    ASSERT_TRUE(waitFor([this] { return place.recipes().isHolding(); }));
    EXPECT_TRUE(reads("C4 Cg is C4 Cg here, sure"));
    EXPECT_TRUE(reads("Mod A becomes A here: 56n → 120n"));
    EXPECT_TRUE(reads("3k9 there, 2k7 here"));
    EXPECT_TRUE(reads("340 Hz there, 491 Hz here"));
    EXPECT_TRUE(job().plan.empty()) << "not before it is accepted";
    expectReadable("history-recipe");
    press("Put it into the plan");
    ASSERT_EQ(job().plan.size(), 1u);
    EXPECT_EQ(open.document.undoStack().undoText(), "Apply the recipe Harbour Lamp A");
    open.document.undoStack().undo();
    EXPECT_TRUE(job().plan.empty());
}

}  // namespace
}  // namespace ohmwright::test
