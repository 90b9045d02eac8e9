// The work at the bench as a new user does it: check list of the third diode, probes of a booster, a valve unit.
// Expected figures: the demos' own, made with a solver of its own and checked against an independent circuit simulator.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/checklist/answer_button.h"
#include "app/checklist/check_list.h"
#include "app/checklist/step_view.h"
#include "app/checklist/work_list.h"
#include "core/bench/work_log.h"

#include <gmock/gmock.h>

namespace ohmwright::test {
namespace {

using testing::HasSubstr;
using testing::Not;

class BenchWalk : public OpenWindow {
protected:
    static constexpr int patience = 60000;

    void openDemo(const QString& name) {
        const QString own = folder.filePath(name + "-copy.ohmjob");
        ASSERT_TRUE(
            QFile::copy(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/" + name + "/" + name + ".ohmjob", own));
        ASSERT_TRUE(window->openFile(own)) << window->refusal().toStdString();
    }
    /// By the key C on the map, as a user goes there.
    void openCheckList() {
        window->map().setFocus();
        press(Qt::Key_C);
        ASSERT_EQ(window->place(), Place::checkList);
        ASSERT_TRUE(QTest::qWaitFor([this] { return list().step().has_value(); }, patience));
    }
    [[nodiscard]] CheckList& list() { return window->checkList(); }
    void key(Qt::Key which) { QTest::keyClick(&list(), which); }
    [[nodiscard]] std::string words() { return list().words().toStdString(); }
    [[nodiscard]] std::string rows() { return list().list().rows().join('\n').toStdString(); }
    /// Space until the screen reads so.
    [[nodiscard]] bool passUntil(const char* wanted) {
        for (int k = 0; k < 60 && !QString::fromStdString(words()).contains(wanted); ++k) {
            key(Qt::Key_Space);
        }
        return QString::fromStdString(words()).contains(wanted);
    }
    [[nodiscard]] bool waitForWords(const char* wanted) {
        return QTest::qWaitFor([&] { return QString::fromStdString(words()).contains(wanted); }, patience);
    }
};

// The third diode in line: 0.58 V one way, 1.17 V the other (at 1 mA); none one way: it is the wrong way round.
TEST_F(BenchWalk, TheThirdDiodeIsReadBothWaysAndNoReadingSuspectsItReversed) {
    switchMod(0);
    switchMod(1);
    openCheckList();
    ASSERT_TRUE(passUntil("meter on diode range"));
    EXPECT_THAT(words(), testing::AnyOf(HasSubstr("0.53"), HasSubstr("1.12")));
    ASSERT_TRUE(passUntil("1.12 V to 1.22 V"));
    key(Qt::Key_N);
    ASSERT_TRUE(waitForWords("First suspicion: D3 reversed")) << words();
    EXPECT_EQ(job().visit.marks.back().result, StepResult::failed);
    EXPECT_EQ(job().visit.marks.back().read, "no reading");
    QTest::keyClicks(&list(), "1.17");
    key(Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([this] { return job().visit.marks.back().result == StepResult::passed; }, patience));
    EXPECT_NEAR(*job().visit.marks.back().reading, 1.17, 1e-12);
}

// It stood in the middle of the place, between two lines of its own and the place's.
TEST_F(BenchWalk, WhileTheStepsAreWorkedOutTheStepStandsAtItsSide) {
    window->map().setFocus();
    press(Qt::Key_C);
    const auto* view = list().findChild<StepView*>();
    ASSERT_NE(view, nullptr);
    QCoreApplication::processEvents();
    EXPECT_EQ(view->geometry().right(), list().width() - 1);
    if (!list().step()) {
        EXPECT_THAT(words(), HasSubstr("Working out the steps"));
        window->grab().save(OHMWRIGHT_PICTURES_DIR "/check-list-waiting.png");
    }
    ASSERT_TRUE(QTest::qWaitFor([this] { return list().step().has_value(); }, patience));
    EXPECT_EQ(view->geometry().right(), list().width() - 1);
}

// 270R for 2k7: 220 Hz and 110 Hz do not move, 3 kHz rises by 15.1 dB, and an ohmmeter sees it at once.
TEST_F(BenchWalk, AResistorOfATenthIsSeenByOhmsAndNotByALowTone) {
    switchMod(1);
    switchMod(2);
    openCheckList();
    ASSERT_TRUE(passUntil("2.54 kΩ to 2.86 kΩ")) << words();
    QTest::keyClicks(&list(), "270R");
    key(Qt::Key_Return);
    ASSERT_TRUE(waitForWords("First suspicion: 270R fitted for 2k7")) << words();
    EXPECT_THAT(words(), HasSubstr("a tone of 110 Hz cannot see it (−0.08 dB)"));
    EXPECT_THAT(words(), HasSubstr("use 3.00 kHz (+15.1 dB) or ohms (270"));
    EXPECT_EQ(job().visit.marks.back().result, StepResult::failed);
}

// Base 1.12, emitter 0.46, collector 4.43 V; collector 5.40 to 3.15 V for current gains of 100 to 900.
TEST_F(BenchWalk, TheProbeCardHasTheBandsAndAReadingNearTheSupplyNamesTheParts) {
    openDemo("small-rooster");
    openCheckList();
    ASSERT_TRUE(passUntil("red on Q1 collector")) << words();
    EXPECT_THAT(rows(), HasSubstr("Q1 collector | 4.43 V"));
    EXPECT_THAT(rows(), HasSubstr("3.15 to 5.40 V"));
    EXPECT_THAT(rows(), HasSubstr("Q1 base | 1.12 V"));
    EXPECT_THAT(rows(), HasSubstr("Q1 emitter | 0.46 V"));
    QTest::keyClicks(&list(), "8.9");
    key(Qt::Key_Return);
    ASSERT_TRUE(waitForWords("Q1 is off or its bias path is open")) << words();
    EXPECT_THAT(words(), HasSubstr("330k open"));
    EXPECT_THAT(words(), HasSubstr("Q1 emitter open"));
    EXPECT_THAT(words(), HasSubstr("Q1 with collector and emitter exchanged"));
}

// 47 uF through 10k falls from 300 to 30 V in 1.1 s; the wait is rounded up to 10 s.
TEST_F(BenchWalk, AValveUnitOpensOnTheDischargeThatCannotBeSkippedOnlyRefused) {
    openDemo("night-ferry");
    openCheckList();
    EXPECT_EQ(list().step(), 0u);
    EXPECT_THAT(words(), HasSubstr("Discharge"));
    EXPECT_THAT(words(), HasSubstr("Wait 10 s"));
    EXPECT_THAT(words(), HasSubstr("allowed: under 30.0 V"));
    EXPECT_FALSE(reads("Skip, stays red on paper"));
    key(Qt::Key_Space);
    EXPECT_EQ(list().step(), 0u);
    EXPECT_THAT(words(), HasSubstr("without a reading nothing opens"));
    QTest::keyClicks(&list(), "120");
    key(Qt::Key_Return);
    ASSERT_TRUE(waitForWords("Do not touch")) << words();
    EXPECT_EQ(list().step(), 0u);
    QTest::keyClicks(&list(), "4.2");
    key(Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([this] { return list().step() == 1u; }, patience));

    // Another day: signed or not, it opens on the discharge again.
    key(Qt::Key_Escape);
    EXPECT_EQ(window->place(), Place::map);
    openCheckList();
    EXPECT_EQ(list().step(), 0u);
    key(Qt::Key_Space);
    EXPECT_EQ(list().step(), 0u);
    key(Qt::Key_N);
    EXPECT_EQ(job().visit.marks.back().result, StepResult::refused);
    EXPECT_FALSE(list().step());
    EXPECT_THAT(words(), HasSubstr("Work refused"));
}

}  // namespace
}  // namespace ohmwright::test
