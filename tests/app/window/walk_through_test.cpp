// A new user's way through the demo job, by mouse and keys, read where a user reads.
// Expected figures: the demo's own, made with a solver of its own and checked against an independent circuit simulator;
// corners by 1/(2 pi R C).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/look/value_field.h"
#include "core/measure/figures.h"

namespace ohmwright::test {
namespace {

class WalkThrough : public OpenWindow {
protected:
    void turnCursorTo(double hz, const QString& expected) {
        window->selection().setCursorHz(hz);
        ASSERT_TRUE(waitForAnswers());
        EXPECT_TRUE(cursorWords().contains(expected)) << cursorWords().toStdString();
    }

    /// Change of output level alone, as the mods list shows it.
    [[nodiscard]] double effectOf(int row) const {
        const auto* list = find<QAbstractItemView>("Mods");
        const QString spoken = list->model()->index(row, 0).data(Qt::AccessibleTextRole).toString();
        for (int role = Qt::UserRole; role < Qt::UserRole + 10; ++role) {
            const QString text = list->model()->index(row, 0).data(role).toString();
            bool isNumber = false;
            const double db = QString(text).replace(QChar(0x2212), '-').toDouble(&isNumber);
            if (isNumber && (text.startsWith('+') || text.startsWith(QChar(0x2212)))) {
                return db;
            }
        }
        ADD_FAILURE() << "no effect in: " << spoken.toStdString();
        return 0.0;
    }

    void expectTogether(double db) {
        ASSERT_TRUE(waitForAnswers());
        EXPECT_NEAR(window->solver().largeSignal()->togetherDb, db, 0.05);
        const QString shown = QString::number(window->solver().largeSignal()->togetherDb, 'f', 2);
        EXPECT_TRUE(reads("+" + shown + " dB")) << shown.toStdString();
    }
};

TEST_F(WalkThrough, TypingAValueOnThePartMovesTheCornerAndUndoReturnsExactly) {
    switchMod(0);
    ASSERT_FALSE(isOn("A"));
    ASSERT_TRUE(waitForAnswers());
    const Job before = job();

    clickPart("C4");
    EXPECT_EQ(window->selection().part(), idOf("C4"));
    type("120n");
    press(Qt::Key_Return);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_TRUE(isOn("A"));

    const Figure* stock = findFigure(window->solver().linear()->stock.figures, "gain_leg_corner");
    const Figure* now = findFigure(window->solver().linear()->now.figures, "gain_leg_corner");
    ASSERT_TRUE(stock && stock->value && now && now->value);
    EXPECT_NEAR(*stock->value, 728.7, 0.1);
    EXPECT_NEAR(*now->value, 340.1, 0.1);
    EXPECT_EQ(aloneRow("corner").stock, "729");
    EXPECT_EQ(aloneRow("corner").now, "340");
    EXPECT_EQ(aloneRow("at 82 Hz").change, "+5.77");
    EXPECT_EQ(aloneRow("at 1 kHz").change, "+1.35");
    turnCursorTo(82.41, "change +5.77");
    turnCursorTo(220.0, "change +5.37");
    turnCursorTo(1000.0, "change +1.35");
    // Stock stays beside it.
    EXPECT_TRUE(cursorWords().contains("stock 5.75")) << cursorWords().toStdString();

    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(job(), before);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_TRUE(cursorWords().contains("change 0.00")) << cursorWords().toStdString();
}

TEST_F(WalkThrough, TheGainResistorAloneMovesTheCornerUpAndLeavesTheLowEnd) {
    switchMod(0);
    switchMod(2);
    ASSERT_TRUE(waitForAnswers());
    const auto corner = [this] {
        return *findFigure(window->solver().linear()->now.figures, "gain_leg_corner")->value;
    };
    EXPECT_NEAR(corner(), 1052.6, 0.1);
    EXPECT_TRUE(reads("corner moved up, low end unchanged (\u22120.09 dB at 82 Hz)"));
    switchMod(0);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_NEAR(corner(), 491.2, 0.1);
    EXPECT_FALSE(reads("corner moved up"));
}

TEST_F(WalkThrough, EveryModSaysWhatItDoesAloneAndAllOfThemTogether) {
    ASSERT_TRUE(waitForAnswers());
    EXPECT_NEAR(effectOf(0), 2.08, 0.05);
    EXPECT_NEAR(effectOf(1), 1.21, 0.05);
    EXPECT_NEAR(effectOf(2), -0.08, 0.05);
    EXPECT_NEAR(effectOf(3), 0.02, 0.05);
    switchMod(1);
    switchMod(2);
    expectTogether(4.47);
    switchMod(3);
    expectTogether(4.49);
}

TEST_F(WalkThrough, TheWheelOverAPartStepsItsValue) {
    ASSERT_TRUE(waitForAnswers());
    clickPart("C4");
    MapView& view = window->map().view();
    const QPoint at = view.mapFromScene(window->map().scene().layout().part(idOf("C4"))->body.center());
    QWheelEvent event(at, view.viewport()->mapToGlobal(at), {}, {0, 120}, Qt::NoButton, Qt::NoModifier,
                      Qt::NoScrollPhase, false);
    QCoreApplication::sendEvent(view.viewport(), &event);
    // The next value of E12 above 120n (IEC 60063).
    EXPECT_TRUE(QTest::qWaitFor([this] {
        const Mod& mod = job().plan.front();
        return std::holds_alternative<SwapValue>(mod.change) &&
               std::abs(std::get<SwapValue>(mod.change).value - 150e-9) < 1e-12;
    }));
}

}  // namespace
}  // namespace ohmwright::test
