/// A unit's stays, by mouse and keys: intake read and judged, the states by the strip in the header, the work signed,
/// the record of what leaves, and the unit back again. Reference: tests/reference/demos/figures.csv for the supply
/// current of Harbour Lamp (3.91 mA).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/history/history_place.h"
#include "app/history/words_field.h"
#include "app/window/visit_strip.h"
#include "core/bench/order_of_work.h"
#include "core/bench/work_log.h"

#include <QLineEdit>
#include <QPushButton>

namespace ohmwright::test {
namespace {

class WalkThroughVisits : public OpenWindow {
protected:
    static constexpr int patienceMilliseconds = 120'000;

    /// Presses the state in the header; the strip has five of the same width.
    void pressState(VisitState state) {
        auto* strip = window->findChild<VisitStrip*>();
        ASSERT_NE(strip, nullptr);
        const int x = strip->width() * (2 * static_cast<int>(state) + 1) / 10;
        QTest::mouseClick(strip, Qt::LeftButton, {}, QPoint(x, strip->height() / 2));
        QCoreApplication::processEvents();
    }
    bool waitForHistory() {
        return QTest::qWaitFor([this] { return window->history().isCurrent(); }, patienceMilliseconds);
    }
    void typeReading(const QString& name, const QString& text) {
        auto* entry = find<QLineEdit>(name);
        ASSERT_NE(entry, nullptr);
        entry->setFocus();
        entry->selectAll();
        QTest::keyClicks(entry, text);
        QTest::keyClick(entry, Qt::Key_Return);
        QCoreApplication::processEvents();
    }
    void pressButton(const QString& words) {
        for (QPushButton* each : window->findChildren<QPushButton*>()) {
            if (each->text() == words && each->isVisible()) {
                QTest::mouseClick(each, Qt::LeftButton);
                return;
            }
        }
        ADD_FAILURE() << "no button " << words.toStdString();
    }
    /// As the check list signs: every step passed.
    void signEverything() {
        const auto work = orderOfWork(job());
        ASSERT_TRUE(work);
        Job signedJob = job();
        for (const std::string& key : stepKeys(work->steps)) {
            StepMark mark;
            mark.step = key;
            mark.when = "2026-11-29T11:00:00";
            signedJob.visit.marks.push_back(mark);
        }
        window->document().edit(signedJob, "Sign the work", JobAspect::words);
    }
};

TEST_F(WalkThroughVisits, FromIntakeToTheRecordAndBack) {
    pressState(VisitState::onBench);
    EXPECT_EQ(window->place(), Place::history);
    EXPECT_EQ(job().visit.state, VisitState::draft);
    EXPECT_TRUE(reads("What was agreed to do is not written down yet."));
    ASSERT_TRUE(waitForHistory());
    typeReading("supply current, before the work", "3.9");
    ASSERT_EQ(job().visit.readings.size(), 1u);

    auto* agreed = find<WordsField>("What was agreed");
    ASSERT_NE(agreed, nullptr);
    agreed->setFocus();
    QTest::keyClicks(agreed, "A, nothing else.");
    pressState(VisitState::onBench);  // Leaving the field writes it.
    agreed->clearFocus();
    pressState(VisitState::onBench);
    EXPECT_EQ(job().visit.state, VisitState::onBench);
    EXPECT_EQ(job().visit.agreed, "A, nothing else.");

    pressState(VisitState::proven);
    EXPECT_EQ(job().visit.state, VisitState::onBench);
    signEverything();
    pressState(VisitState::proven);
    EXPECT_EQ(job().visit.state, VisitState::proven);
    typeReading("supply current, on leaving", "3.91");
    pressButton("Write what leaves and end the visit");
    ASSERT_EQ(job().departures.size(), 1u);
    EXPECT_EQ(job().departures[0].readings.size(), 1u);
    EXPECT_TRUE(reads("C4 Cg 56n → 120n"));

    pressButton("Begin the next visit");
    EXPECT_EQ(job().visit.number, 3);
    ASSERT_TRUE(waitForHistory());
    typeReading("supply current, before the work", "3.92");
    EXPECT_TRUE(QTest::qWaitFor([this] { return reads("Nothing changed since the unit left"); }, patienceMilliseconds));

    // Everything is one stack of undo steps, back to the file.
    while (window->document().undoStack().canUndo()) {
        window->document().undoStack().undo();
    }
    EXPECT_TRUE(window->document().isSaved());
    EXPECT_EQ(job().visit.number, 2);
    EXPECT_TRUE(job().departures.empty());
}

}  // namespace
}  // namespace ohmwright::test
