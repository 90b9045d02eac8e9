// The work at the bench by the keyboard alone: the third diode, the probe card of a booster, a valve unit.
// Expected figures: the demos' own, made with a solver of its own and checked against an independent circuit simulator.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/keys_alone.h"

#include "app/checklist/check_list.h"
#include "app/checklist/work_list.h"
#include "core/bench/work_log.h"

#include <gmock/gmock.h>
#include <QPushButton>

namespace ohmwright::test {
namespace {

using testing::HasSubstr;

class KeysBench : public KeysAlone {
protected:
    void openCheckList() {
        ASSERT_TRUE(panelTo("StageMap"));
        key(Qt::Key_C);
        ASSERT_EQ(window->place(), Place::checkList);
        ASSERT_TRUE(QTest::qWaitFor([this] { return list().step().has_value(); }, patience));
    }
    [[nodiscard]] CheckList& list() { return window->checkList(); }
    [[nodiscard]] std::string words() { return list().words().toStdString(); }
    [[nodiscard]] std::string rows() { return list().list().rows().join('\n').toStdString(); }
    [[nodiscard]] bool passUntil(const char* wanted) {
        for (int step = 0; step < 60 && !list().words().contains(wanted); ++step) {
            key(Qt::Key_Space);
        }
        return list().words().contains(wanted);
    }
    /// Whether the step offers it.
    [[nodiscard]] bool mayBeSkippedNow() const {
        for (const QPushButton* button : window->findChildren<QPushButton*>()) {
            if (button->isVisible() && button->text().startsWith("Skip")) {
                return true;
            }
        }
        return false;
    }
    [[nodiscard]] bool waitForWords(const char* wanted) {
        return QTest::qWaitFor([&] { return list().words().contains(wanted); }, patience);
    }
};

TEST_F(KeysBench, TheThirdDiodeIsReadAndAStepIsSkippedOnPurpose) {
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_A, Qt::ShiftModifier);
    key(Qt::Key_B, Qt::ShiftModifier);
    openCheckList();
    ASSERT_TRUE(passUntil("1.12 V to 1.22 V"));
    key(Qt::Key_N);
    ASSERT_TRUE(waitForWords("First suspicion: D3 reversed")) << words();
    write("1.17");
    key(Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([this] { return job().visit.marks.back().result == StepResult::passed; }, patience));

    // Skipping takes two keys, and stays on the paper.
    for (int step = 0; step < 30 && !mayBeSkippedNow(); ++step) {
        key(Qt::Key_Space);
    }
    const std::size_t before = *list().step();
    const std::size_t signedSteps = job().visit.marks.size();
    key(Qt::Key_Right);
    EXPECT_EQ(job().visit.marks.size(), signedSteps);
    key(Qt::Key_Right, Qt::ControlModifier);
    EXPECT_EQ(job().visit.marks.back().result, StepResult::skipped);
    EXPECT_NE(list().step(), before);
    key(Qt::Key_Escape);
    EXPECT_EQ(window->place(), Place::map);
}

TEST_F(KeysBench, AResistorOfATenthIsSeenByOhmsAndNotByALowTone) {
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_B, Qt::ShiftModifier);
    key(Qt::Key_C, Qt::ShiftModifier);
    openCheckList();
    ASSERT_TRUE(passUntil("2.54 kΩ to 2.86 kΩ")) << words();
    write("270R");
    key(Qt::Key_Return);
    ASSERT_TRUE(waitForWords("First suspicion: 270R fitted for 2k7")) << words();
    EXPECT_THAT(words(), HasSubstr("use 3.00 kHz (+15.1 dB) or ohms (270"));
}

TEST_F(KeysBench, TheProbeCardOfABoosterIsReachedFromTheStartPage) {
    startAnew();
    ASSERT_TRUE(tabTo("Small Rooster"));
    key(Qt::Key_Space);
    ASSERT_TRUE(waitForAnswers());
    openCheckList();
    ASSERT_TRUE(passUntil("red on Q1 collector")) << words();
    EXPECT_THAT(rows(), HasSubstr("Q1 collector | 4.43 V"));
    EXPECT_THAT(rows(), HasSubstr("3.15 to 5.40 V"));
    write("8.9");
    key(Qt::Key_Return);
    ASSERT_TRUE(waitForWords("Q1 is off or its bias path is open")) << words();
    EXPECT_THAT(words(), HasSubstr("330k open"));
}

TEST_F(KeysBench, AValveUnitOpensOnTheDischargeWhichNoKeySkips) {
    ASSERT_TRUE(window->openFile(copyOfDemo("night-ferry")));
    ASSERT_TRUE(waitForAnswers());
    cursorTo(82.41);
    EXPECT_TRUE(cursorWords().contains("change −5.3")) << cursorWords().toStdString();
    openCheckList();
    EXPECT_EQ(list().step(), 0u);
    EXPECT_THAT(words(), HasSubstr("Wait 10 s"));
    key(Qt::Key_Space);
    EXPECT_THAT(words(), HasSubstr("without a reading nothing opens"));
    key(Qt::Key_Right, Qt::ControlModifier);
    EXPECT_EQ(list().step(), 0u);
    EXPECT_TRUE(job().visit.marks.empty());
    write("4.2");
    key(Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([this] { return list().step() == 1u; }, patience));
    key(Qt::Key_Escape);
    openCheckList();
    key(Qt::Key_N);
    EXPECT_THAT(words(), HasSubstr("Work refused"));
}

}  // namespace
}  // namespace ohmwright::test
