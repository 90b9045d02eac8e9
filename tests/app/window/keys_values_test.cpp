// Values and mods by the keyboard alone: from the start page to a part, its value, its corner, its spread, and back.
// Expected figures: the demo's own, made with a solver of its own and checked against an independent circuit simulator;
// corners by 1/(2 pi R C).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/keys_alone.h"

#include "app/consequences/claim_row.h"
#include "app/consequences/figure_line.h"

#include <QRegularExpression>

namespace ohmwright::test {
namespace {

class KeysValues : public KeysAlone {
protected:
    void expectCursorSays(double hz, const QString& words) {
        cursorTo(hz);
        EXPECT_TRUE(cursorWords().contains(words)) << cursorWords().toStdString();
    }
    [[nodiscard]] bool waitForConsequences() {
        const bool came =
            waitForAnswers() && QTest::qWaitFor([this] { return window->consequences().isCurrent(); }, patience);
        QCoreApplication::processEvents();
        return came;
    }
    [[nodiscard]] QString verdictOf(const QString& word) const {
        for (const ClaimHead* head : window->findChildren<ClaimHead*>()) {
            if (head->isVisible() && head->text().startsWith("“" + word + "”: ")) {
                return head->text().mid(word.size() + 4);
            }
        }
        return {};
    }
    [[nodiscard]] bool claimReads(const QString& figure) const {
        const auto lines = window->findChildren<FigureLine*>();
        return std::any_of(lines.begin(), lines.end(),
                           [&](const FigureLine* line) { return line->isVisible() && line->words().contains(figure); });
    }
    /// What a screen reader says of a row of the mods.
    [[nodiscard]] QString spokenRow(int row) const {
        const auto* list = find<QAbstractItemView>("Mods");
        return list->model()->index(row, 0).data(Qt::AccessibleTextRole).toString();
    }
    [[nodiscard]] double shownCorner() { return aloneRow("corner").now.toDouble(); }
};

TEST_F(KeysValues, FromTheStartPageToTheGainCapacitorAndBack) {
    startAnew();
    ASSERT_TRUE(tabTo("Harbour Lamp"));
    key(Qt::Key_Space);
    ASSERT_TRUE(waitForAnswers());
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_A, Qt::ShiftModifier);
    ASSERT_FALSE(isOn("A"));
    ASSERT_TRUE(waitForAnswers());
    const Job before = job();

    ASSERT_TRUE(walkTo("C4"));
    write("120n");
    key(Qt::Key_Return);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_TRUE(isOn("A"));
    EXPECT_EQ(aloneRow("corner").stock, "729");
    EXPECT_EQ(aloneRow("corner").now, "340");
    EXPECT_EQ(aloneRow("at 82 Hz").change, "+5.77");
    EXPECT_EQ(aloneRow("at 1 kHz").change, "+1.35");
    expectCursorSays(82.41, "change +5.77");
    expectCursorSays(220.0, "change +5.37");
    expectCursorSays(1000.0, "change +1.3");  // the steps end at 998 Hz
    EXPECT_TRUE(cursorWords().contains("stock ")) << cursorWords().toStdString();

    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(job(), before);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_TRUE(cursorWords().contains("change 0.00")) << cursorWords().toStdString();
}

TEST_F(KeysValues, PageUpTakesTheNextValueAsTheWheelDoes) {
    ASSERT_TRUE(walkTo("C4"));
    key(Qt::Key_PageUp);
    // The next value of E12 above 120n (IEC 60063).
    EXPECT_TRUE(QTest::qWaitFor([this] { return aloneRow("corner").now == "272"; }, patience))
        << aloneRow("corner").now.toStdString();  // 1/(2 pi 3k9 150n) = 272.1 Hz
}

TEST_F(KeysValues, TheGainResistorAloneMovesTheCornerUpAndLeavesTheLowEnd) {
    ASSERT_TRUE(walkTo("R5"));
    key(Qt::Key_A, Qt::ShiftModifier);
    key(Qt::Key_C, Qt::ShiftModifier);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_NEAR(shownCorner(), 1052.6, 5.0);
    EXPECT_TRUE(reads("corner moved up, low end unchanged (\u22120.09 dB at 82 Hz)"));
    key(Qt::Key_A, Qt::ShiftModifier);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_FALSE(reads("corner moved up"));
    // All four together, as the rail says it.
    key(Qt::Key_B, Qt::ShiftModifier);
    key(Qt::Key_D, Qt::ShiftModifier);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_TRUE(QTest::qWaitFor([this] { return reads("+4.49 dB") || reads("+4.48 dB") || reads("+4.50 dB"); }));
    EXPECT_TRUE(spokenRow(0).contains("+2.08")) << spokenRow(0).toStdString();
}

TEST_F(KeysValues, WordsOfTheCustomerAreHeldAndAnswered) {
    ASSERT_TRUE(waitForConsequences());
    EXPECT_EQ(verdictOf("less squashed"), "the other way");
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_A, Qt::ShiftModifier);
    key(Qt::Key_B, Qt::ShiftModifier);
    ASSERT_TRUE(waitForConsequences());
    EXPECT_EQ(verdictOf("less squashed"), "yes");

    ASSERT_TRUE(panelTo("LeftRail"));
    ASSERT_TRUE(tabTo("Add a word"));
    key(Qt::Key_Space);
    ASSERT_TRUE(choose("brighter"));
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_B, Qt::ShiftModifier);
    key(Qt::Key_D, Qt::ShiftModifier);
    ASSERT_TRUE(waitForConsequences());
    EXPECT_EQ(verdictOf("brighter"), "partly");
    EXPECT_TRUE(claimReads("+1.61"));
    EXPECT_EQ(verdictOf("less squashed"), "no");
    key(Qt::Key_D, Qt::ShiftModifier);
    key(Qt::Key_C, Qt::ShiftModifier);
    ASSERT_TRUE(waitForConsequences());
    EXPECT_EQ(verdictOf("brighter"), "yes");
    EXPECT_TRUE(claimReads("+2.56"));

    // And taken out again.
    ASSERT_TRUE(panelTo("LeftRail"));
    ASSERT_TRUE(tabTo("“brighter”: yes"));
    key(Qt::Key_Space);
    ASSERT_TRUE(tabTo("Take out “brighter”"));
    key(Qt::Key_Space);
    EXPECT_EQ(verdictOf("brighter"), "");
}

TEST_F(KeysValues, ASmallStepLiesWithinTheSpreadAndAMeasuredPotNarrowsIt) {
    ASSERT_TRUE(walkTo("R5"));
    key(Qt::Key_A, Qt::ShiftModifier);
    write("3k6");
    key(Qt::Key_Return);
    cursorTo(1000.0);
    ASSERT_TRUE(waitForConsequences());
    EXPECT_TRUE(cursorWords().contains("change +0.41")) << cursorWords().toStdString();
    const auto* column = window->findChild<CursorColumn*>();
    // Sampled ±1.06 dB; the quick band lies 2 % under to 12 % over.
    static const QRegularExpression wide("differ by ±1\\.(0[4-9]|1[0-9]) here");
    EXPECT_TRUE(column->spreadWords().contains(wide)) << column->spreadWords().toStdString();

    ASSERT_TRUE(walkTo("VR1"));
    ASSERT_TRUE(panelTo("PartPanel"));
    ASSERT_TRUE(tabTo("Enter the measured whole track"));
    key(Qt::Key_Space);
    write("250k");
    key(Qt::Key_Return);
    ASSERT_TRUE(waitForConsequences());
    static const QRegularExpression narrow("differ by ±0\\.5[0-9] here");
    EXPECT_TRUE(column->spreadWords().contains(narrow)) << column->spreadWords().toStdString();
    EXPECT_TRUE(spokenRow(2).contains("response within spread")) << spokenRow(2).toStdString();
}

}  // namespace
}  // namespace ohmwright::test
