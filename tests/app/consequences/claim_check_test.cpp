// The customer's words in the rail. Figures of the demo: reference/demos/claims.csv.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/claim_check.h"

#include "app/consequences/claim_row.h"
#include "app/consequences/figure_line.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <QMenu>
#include <QPushButton>

namespace ohmwright::test {
namespace {

class ClaimCheckTest : public testing::Test {
protected:
    ClaimCheckTest() {
        panel.resize(256, 500);
        panel.show();
    }
    bool wait() {
        QCoreApplication::processEvents();
        const bool came =
            QTest::qWaitFor([this] { return open.solver.isCurrent() && consequences.isCurrent(); }, 120'000);
        QCoreApplication::processEvents();  // new lines are shown with the next turn of the event loop
        return came;
    }
    static ClaimHead& headOf(const ClaimRow& row) { return *row.findChild<ClaimHead*>(); }
    static QStringList figuresOf(const ClaimRow& row) {
        QStringList words;
        for (const FigureLine* line : row.findChildren<FigureLine*>()) {
            words << line->words();
        }
        return words;
    }

    OpenJob open;
    ConsequenceService consequences{open.document, open.solver, open.shop};
    ClaimCheckPanel panel{open.document, consequences};
};

TEST_F(ClaimCheckTest, EveryWordHasItsVerdictAndItsFigures) {
    ASSERT_EQ(panel.rows().size(), 2U);
    EXPECT_EQ(headOf(*panel.rows()[0]).text(), "“fuller”: solving");
    ASSERT_TRUE(wait());
    EXPECT_EQ(headOf(*panel.rows()[0]).text(), "“fuller”: yes");
    EXPECT_TRUE(figuresOf(*panel.rows()[0]).first().startsWith("82 Hz: −10.5 → −4.71 dB, +5.77, spread ±1.1"))
        << figuresOf(*panel.rows()[0]).join('|').toStdString();
    EXPECT_TRUE(figuresOf(*panel.rows()[0]).last().endsWith("+4.42"));
    EXPECT_EQ(headOf(*panel.rows()[1]).text(), "“less squashed”: the other way");
    EXPECT_EQ(figuresOf(*panel.rows()[1]), QStringList{"slope: 0.52 → 0.36 dB per dB"});
    EXPECT_FALSE(shownWords(panel).filter("B alone: yes").isEmpty());
    EXPECT_EQ(clippedWords(panel), QStringList());
}

TEST_F(ClaimCheckTest, PressedAWordSaysWhatItIsHeldAgainstAndCanBeTakenOut) {
    ASSERT_TRUE(wait());
    ClaimRow& row = *panel.rows()[1];
    EXPECT_TRUE(shownWords(panel).filter("Level slope").isEmpty());
    headOf(row).setFocus();
    QTest::keyClick(&headOf(row), Qt::Key_Space);
    EXPECT_FALSE(
        shownWords(panel).filter("Level slope at the player's level up by 0.10 dB per dB; partly from 0.03").isEmpty());
    EXPECT_FALSE(shownWords(panel).filter("no source").isEmpty());
    auto* remove = row.findChild<QPushButton*>();
    QTest::mouseClick(remove, Qt::LeftButton);
    EXPECT_EQ(open.job().visit.words, std::vector<std::string>{"fuller"});
    EXPECT_EQ(panel.rows().size(), 1U);
    open.document.undoStack().undo();
    EXPECT_EQ(open.job().visit.words.size(), 2U);
}

TEST_F(ClaimCheckTest, AWordIsAddedFromTheTableWithItsRule) {
    ASSERT_TRUE(wait());
    QMenu* menu = panel.buildWordMenu(&panel);
    QAction* brighter = nullptr;
    for (QAction* action : menu->actions()) {
        EXPECT_FALSE(action->text().startsWith("fuller:")) << "it is held already";
        brighter = action->text().startsWith("brighter:") ? action : brighter;
    }
    ASSERT_NE(brighter, nullptr);
    EXPECT_EQ(brighter->text(), "brighter: Response at 3 kHz against 330 Hz up by 2.00 dB; partly from 1.00 dB.");
    brighter->trigger();
    ASSERT_EQ(panel.rows().size(), 3U);
    ASSERT_TRUE(wait());
    EXPECT_EQ(headOf(*panel.rows()[2]).text(), "“brighter”: the other way");
    EXPECT_EQ(open.document.undoStack().undoText(), "Hold the word “brighter”");
}

TEST_F(ClaimCheckTest, AWordOutsideTheTableSaysSo) {
    Job job = open.job();
    job.visit.words = {"purple"};
    open.document.setJob(job, {});
    ASSERT_TRUE(wait());
    EXPECT_EQ(headOf(*panel.rows()[0]).text(), "“purple”: no answer");
    EXPECT_FALSE(shownWords(panel).filter("not in the table").isEmpty());
}

TEST_F(ClaimCheckTest, StandsInBothThemesAndLargeText) {
    ASSERT_TRUE(wait());
    takePicture(panel, "claim-check", ThemeKind::light);
    takePicture(panel, "claim-check", ThemeKind::dark);
    Theme::current().setTextScale(1.3);
    panel.resize(333, 700);
    takePicture(panel, "claim-check-130", ThemeKind::light);
    EXPECT_EQ(clippedWords(panel), QStringList());
    Theme::current().setTextScale(1.0);
}

}  // namespace
}  // namespace ohmwright::test
