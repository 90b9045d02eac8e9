// A new user's way to the sums: a figure is pressed, by hand or from the keyboard, and its formula stands on a card
// with the values of this unit. Worked values by hand from the parts of the demos.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/consequences/effect_strip.h"
#include "app/consequences/figure_line.h"
#include "app/curves/clip_figures.h"
#include "app/curves/response_plot.h"
#include "app/knobs/knob_dial.h"
#include "app/look/note_card.h"
#include "app/part/target_panel.h"

#include <QAbstractButton>

namespace ohmwright::test {
namespace {

class WalkThroughSums : public OpenWindow {
protected:
    bool waitForSums() {
        const bool came =
            waitForAnswers() && QTest::qWaitFor([this] { return window->consequences().isCurrent(); }, 120'000);
        QCoreApplication::processEvents();
        return came;
    }
    void openDemo(const QString& name) {
        ASSERT_TRUE(window->openFile(copyOfDemo(name)));
        QCoreApplication::processEvents();
        ASSERT_TRUE(waitForSums());
    }
    /// What the open card says; it is closed with Esc.
    QString readCard() {
        const auto* card = qobject_cast<NoteCard*>(QApplication::activePopupWidget());
        if (card == nullptr) {
            ADD_FAILURE() << "no card is open";
            return {};
        }
        const QString text = card->text();
        QTest::keyClick(QApplication::activePopupWidget(), Qt::Key_Escape);
        EXPECT_EQ(QApplication::activePopupWidget(), nullptr);
        // Without a window manager nobody gives the keyboard back.
        window->activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&*window));
        return text;
    }
    static void expectSays(const QString& text, const QStringList& words) {
        for (const QString& word : words) {
            EXPECT_TRUE(text.contains(word)) << word.toStdString() << " in\n" << text.toStdString();
        }
    }
};

TEST_F(WalkThroughSums, EnterOnTheCurvesShowsTheSumOfTheCorner) {
    ASSERT_TRUE(waitForSums());
    window->findChild<ResponsePlot*>()->setFocus();
    press(Qt::Key_Return);
    expectSays(readCard(), {"gain-leg corner: 728.7 Hz → 340.1 Hz", "1/(2π·Rg·Cg)", "stock: 1/(2π·3k9·56n) = 728.7 Hz",
                            "now: 1/(2π·3k9·120n) = 340.1 Hz", "solved 679", "stage gain at 1 kHz: 23.80 dB → 25.15 dB",
                            "solved 23.73 dB: the sum is 0.07 dB high", "√(5.00² + 10.0²) % = 11.2 %"});
}

TEST_F(WalkThroughSums, ACornerThatIsPressedShowsItsSumAndIsNotDragged) {
    ASSERT_TRUE(waitForSums());
    auto* plot = window->findChild<ResponsePlot*>();
    ASSERT_FALSE(plot->cornerBoxes().empty());
    QWidget* canvas = plot->childAt(plot->cornerBoxes().front().center().toPoint());
    ASSERT_NE(canvas, nullptr);
    QTest::mouseClick(canvas, Qt::LeftButton, {},
                      canvas->mapFrom(plot, plot->cornerBoxes().front().center().toPoint()));
    expectSays(readCard(), {"gain-leg corner: 728.7 Hz → 340.1 Hz"});
    EXPECT_FALSE(window->targetPanel().isVisible());
}

TEST_F(WalkThroughSums, APotTellsItsLaw) {
    ASSERT_TRUE(waitForSums());
    for (KnobDial* dial : window->findChildren<KnobDial*>()) {
        if (dial->objectName() == "drive") {
            dial->setFocus();
        }
    }
    press(Qt::Key_Equal);
    expectSays(readCard(), {"Drive: wiper to bottom: 37k5", "R(x) = P·(a^x − 1)/(a − 1), a = (1/m − 1)²",
                            "250k·(32.1^0.50 − 1)/(32.1 − 1) = 37k5, m = 15.0 %"});
}

TEST_F(WalkThroughSums, AClipFigureShowsTheCeilingOfItsDiodes) {
    switchMod(0);
    ASSERT_TRUE(waitForSums());
    auto* figures = window->findChild<ClipFigures*>();
    ASSERT_NE(figures, nullptr);
    figures->setFocus();
    press(Qt::Key_Down);
    press(Qt::Key_Return);
    expectSays(readCard(), {"diode ceiling, + half-wave: 0.359 V", "n·Vt·ln(i/Is), i = Vin/|Zg|",
                            "1.75·25.9 mV·ln(6.89 µA", "/2.52 nA) = 0.359 V", "solved 0.365 V: the sum is 1.7 % low"});
}

TEST_F(WalkThroughSums, ThePickupsPeakStandsInTheStripAndAtItsParts) {
    ASSERT_TRUE(waitForSums());
    window->selection().setPart("lpu");
    QCoreApplication::processEvents();
    auto* link = find<QAbstractButton>("Show the sums");
    ASSERT_NE(link, nullptr);
    EXPECT_TRUE(link->isVisible());
    link->setFocus();
    press(Qt::Key_Space);
    expectSays(readCard(), {"pickup's own resonance: 3.851 kHz", "1/(2π·√(2.8 H·(110p + 500p))) = 3.851 kHz"});
    for (auto* cell : window->findChildren<StripCell*>()) {
        if (cell->isVisible() && cell->entry().sums.contains("pickup_peak")) {
            cell->click();
            break;
        }
    }
    expectSays(readCard(), {"pickup's own resonance: 3.851 kHz"});
}

TEST_F(WalkThroughSums, ARowOfThePartPanelShowsItsSum) {
    clickPart("C4");
    ASSERT_TRUE(waitForSums());
    for (FigureTable* table : window->partPanel().findChildren<FigureTable*>()) {
        table->setFocus();
    }
    press(Qt::Key_Down);
    press(Qt::Key_Down);
    press(Qt::Key_Return);
    expectSays(readCard(), {"stage gain at 1 kHz: 23.80 dB → 25.15 dB", "plateau gain: 25.61 dB"});
}

TEST_F(WalkThroughSums, AClaimsFigureShowsWhatWasTakenFromWhat) {
    ASSERT_TRUE(waitForSums());
    FigureLine* line = nullptr;
    for (auto* each : window->findChildren<FigureLine*>()) {
        line = line == nullptr && each->isVisible() && each->words().startsWith("82 Hz") ? each : line;
    }
    ASSERT_NE(line, nullptr);
    line->setFocus();
    press(Qt::Key_Return);
    expectSays(readCard(),
               {"now − stock = ", "= +5.77 dB; yes from +3.00 dB, partly from +1.50 dB", "Spread of stock"});
}

TEST_F(WalkThroughSums, TheValvesShelfIsShownAtItsCathodeCapacitor) {
    openDemo("night-ferry");
    window->selection().setPart("c1");
    window->map().setFocus();
    QCoreApplication::processEvents();
    press(Qt::Key_Equal);
    expectSays(readCard(), {"shelf of V1, lower end: 4.823 Hz → 156.0 Hz", "1/(2π·1k5·680n) = 156.0 Hz",
                            "shelf of V1, upper end", "317.0 Hz", "shelf of V1, height: 6.16 dB"});
}

/// Every figure of a demo that can be pressed has a card: no crash, no empty one.
TEST_F(WalkThroughSums, EveryDemoHasSums) {
    for (const char* name : {"quarry-bell", "small-rooster", "moss-engine", "paper-boat", "three-hills"}) {
        openDemo(name);
        window->selection().setPart({});
        window->map().setFocus();
        press(Qt::Key_Equal);
        expectSays(readCard(), {"pickup's own resonance"});
    }
}

}  // namespace
}  // namespace ohmwright::test
