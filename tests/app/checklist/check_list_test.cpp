// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/check_list.h"

#include "app/background/bench_service.h"
#include "app/checklist/answer_button.h"
#include "app/checklist/work_list.h"
#include "tests/support/open_job.h"
#include "tests/support/planned_jobs.h"

#include <gmock/gmock.h>
#include <QPushButton>

namespace ohmwright::test {
namespace {

class CheckListTest : public testing::Test {
protected:
    void open(const Job& job) {
        document.setJob(job, {});
        list.emplace(document, service);
        list->setWho("T.");
        list->resize(1600, 900);
        list->show();
        list->activateWindow();
        constexpr int patience = 60000;
        ASSERT_TRUE(QTest::qWaitFor([this] { return list->step().has_value(); }, patience));
    }
    void press(int key) { QTest::keyClick(&*list, static_cast<Qt::Key>(key)); }
    void type(const char* text) { QTest::keyClicks(&*list, text); }
    /// Until a reading that was entered is signed.
    [[nodiscard]] bool waitForMark(std::size_t count) {
        constexpr int patience = 60000;
        return QTest::qWaitFor([&] { return marks().size() >= count; }, patience);
    }
    [[nodiscard]] const std::vector<StepMark>& marks() const { return document.job()->visit.marks; }
    [[nodiscard]] std::string words() const { return list->words().toStdString(); }
    [[nodiscard]] QString answer(int index) const { return list->findChildren<AnswerButton*>()[index]->text(); }

    JobDocument document;
    BenchService service{document};
    std::optional<CheckList> list;
};

using testing::HasSubstr;

TEST_F(CheckListTest, SpacePassesAndEverySignatureIsOneUndoStep) {
    open(harbourLampWith("A"));
    EXPECT_EQ(list->step(), 0u);
    EXPECT_THAT(words(), HasSubstr("Photograph"));
    EXPECT_THAT(words(), HasSubstr("step 1 of 2"));
    press(Qt::Key_Space);
    press(Qt::Key_Space);
    EXPECT_EQ(list->step(), 2u);
    ASSERT_EQ(marks().size(), 2u);
    EXPECT_EQ(marks()[1].who, "T.");
    EXPECT_FALSE(marks()[1].when.empty());
    EXPECT_EQ(document.undoStack().count(), 2);
    document.undoStack().undo();
    EXPECT_EQ(marks().size(), 1u);
    EXPECT_THAT(list->list().rows().join("\n").toStdString(), HasSubstr("1 |  | Photograph both sides"));
}

TEST_F(CheckListTest, AnswersAreHighAndNothingElseTakesKeys) {
    open(harbourLampWith("A"));
    for (const AnswerButton* button : list->findChildren<AnswerButton*>()) {
        EXPECT_GE(button->height(), 128);
        EXPECT_EQ(button->focusPolicy(), Qt::NoFocus);
    }
    const Job before = *document.job();
    for (const int key : {Qt::Key_S, Qt::Key_M, Qt::Key_Delete, Qt::Key_Tab, Qt::Key_X, Qt::Key_Return}) {
        press(key);
    }
    EXPECT_EQ(*document.job(), before);
    EXPECT_EQ(list->step(), 0u);
}

// 12 nF in the hand for 120 nF: the marking was read wrong.
TEST_F(CheckListTest, AReadingIsJudgedAtOnce) {
    open(harbourLampWith("A"));
    for (int k = 0; k < 3; ++k) {
        press(Qt::Key_Space);
    }
    ASSERT_THAT(words(), HasSubstr("Fit C4 Cg 120n"));
    EXPECT_THAT(words(), HasSubstr("allowed: 108 nF to 132 nF"));
    type("12");
    EXPECT_THAT(words(), HasSubstr("12 nF, then Enter"));
    press(Qt::Key_Return);
    ASSERT_TRUE(waitForMark(4));
    EXPECT_EQ(marks()[3].result, StepResult::failed);
    EXPECT_THAT(words(), HasSubstr("A tenth or less of the value"));
    EXPECT_EQ(list->step(), 3u);
    type("118");
    press(Qt::Key_Space);  // The foot key takes a typed reading too.
    ASSERT_TRUE(QTest::qWaitFor([&] { return list->step() == 4u; }));
    EXPECT_EQ(marks()[3].result, StepResult::passed);
    EXPECT_DOUBLE_EQ(*marks()[3].reading, 118e-9);
    EXPECT_EQ(marks()[3].read, "118 nF");
    EXPECT_EQ(marks()[3].allowed, "108 nF to 132 nF");
}

TEST_F(CheckListTest, ASilentBeepStepNamesItsLikelyMistakes) {
    open(harbourLampWith("A"));
    for (int k = 0; k < 4; ++k) {
        press(Qt::Key_Space);
    }
    ASSERT_THAT(words(), HasSubstr("Must beep"));
    EXPECT_THAT(words(), HasSubstr("black on U1 pin 2 (inverting input)"));
    EXPECT_EQ(answer(0), "Beeps");
    EXPECT_EQ(answer(1), "Silent");
    EXPECT_THAT(words(), HasSubstr("Do not power yet: opens after step"));
    press(Qt::Key_N);
    ASSERT_TRUE(waitForMark(5));
    EXPECT_EQ(marks().back().result, StepResult::failed);
    EXPECT_EQ(marks().back().read, "silent");
    EXPECT_THAT(words(), HasSubstr("C4 Cg"));
}

TEST_F(CheckListTest, BackspaceEatsADigitThenGoesBackAndASkippedStepStaysRed) {
    open(harbourLampWith("A"));
    for (int k = 0; k < 3; ++k) {
        press(Qt::Key_Space);
    }
    type("1");
    press(Qt::Key_Backspace);
    EXPECT_EQ(list->step(), 3u);
    press(Qt::Key_Backspace);
    EXPECT_EQ(list->step(), 2u);
    press(Qt::Key_Space);  // Signed before: only on.
    EXPECT_EQ(list->step(), 3u);
    EXPECT_EQ(marks().size(), 3u);
    for (auto* button : list->findChildren<QPushButton*>()) {
        if (button->text().startsWith("Skip")) {
            QTest::mouseClick(button, Qt::LeftButton);
        }
    }
    EXPECT_EQ(marks().back().result, StepResult::skipped);
    EXPECT_THAT(list->list().rows()[3].toStdString(), HasSubstr("skipped"));
}

}  // namespace
}  // namespace ohmwright::test
