// A new user's way to what a plan brings with it: shares, claims, spread, read where a user reads. Expected figures:
// the demo's own, as in tests/reference/harbour-lamp-figures.csv and demos/claims.csv (levels ±0.05 dB).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/consequences/claim_row.h"
#include "app/curves/cursor_column.h"
#include "core/plan/edits.h"

#include <QRegularExpression>

namespace ohmwright::test {
namespace {

class WalkThroughConsequences : public OpenWindow {
protected:
    bool waitForConsequences() {
        const bool came =
            waitForAnswers() && QTest::qWaitFor([this] { return window->consequences().isCurrent(); }, 120'000);
        QCoreApplication::processEvents();
        return came;
    }
    [[nodiscard]] QString spokenRow(int row) const {
        const auto* list = find<QAbstractItemView>("Mods");
        return list->model()->index(row, 0).data(Qt::AccessibleTextRole).toString();
    }
    /// "yes", "the other way" of a word in the rail.
    [[nodiscard]] QString verdictOf(const QString& word) const {
        for (const ClaimHead* head : window->findChildren<ClaimHead*>()) {
            if (head->isVisible() && head->text().startsWith("“" + word + "”: ")) {
                return head->text().mid(word.size() + 4);
            }
        }
        return {};
    }
};

TEST_F(WalkThroughConsequences, SharesFollowTheModsThatAreTicked) {
    switchMod(1);
    switchMod(2);
    ASSERT_TRUE(waitForConsequences());
    static const QRegularExpression shareA("share \\+2\\.(6[2-9]|7[0-2]) dB");
    static const QRegularExpression shareB("share \\+1\\.(7[5-9]|8[0-5]) dB");
    EXPECT_TRUE(spokenRow(0).contains(shareA)) << spokenRow(0).toStdString();
    EXPECT_TRUE(spokenRow(1).contains(shareB)) << spokenRow(1).toStdString();
    EXPECT_TRUE(reads("On: A, B, C"));
    EXPECT_TRUE(reads("All four"));
}

TEST_F(WalkThroughConsequences, LessSquashedIsKeptByBAndTurnedRoundByTheRest) {
    ASSERT_TRUE(waitForConsequences());
    EXPECT_EQ(verdictOf("less squashed"), "the other way");
    switchMod(0);
    switchMod(1);
    ASSERT_TRUE(waitForConsequences());
    EXPECT_EQ(verdictOf("less squashed"), "yes");
    switchMod(0);
    switchMod(2);
    ASSERT_TRUE(waitForConsequences());
    EXPECT_EQ(verdictOf("less squashed"), "the other way");
}

TEST_F(WalkThroughConsequences, ASmallStepOfTheGainResistorLiesWithinTheSpread) {
    switchMod(0);
    clickPart("R5");
    type("3k6");
    press(Qt::Key_Return);
    window->selection().setCursorHz(1000.0);
    ASSERT_TRUE(waitForConsequences());
    EXPECT_TRUE(cursorWords().contains("change +0.41")) << cursorWords().toStdString();
    const auto* column = window->findChild<CursorColumn*>();
    ASSERT_NE(column, nullptr);
    // Sampled ±1.06 dB; the quick band lies 2 % under to 12 % over.
    static const QRegularExpression spread("differ by ±1\\.(0[4-9]|1[0-9]) here");
    EXPECT_TRUE(column->spreadWords().contains(spread)) << column->spreadWords().toStdString();
    EXPECT_TRUE(spokenRow(2).contains("response within spread")) << spokenRow(2).toStdString();
}

}  // namespace
}  // namespace ohmwright::test
