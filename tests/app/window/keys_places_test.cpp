// Every place of the window by the keyboard alone: papers, drawer, history, settings, and the header's tabs.
// Expected words and readings: as in the walks with the mouse.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/keys_alone.h"

#include "app/history/history_place.h"
#include "app/papers/papers_place.h"
#include "app/window/settings_page.h"
#include "app/window/visit_strip.h"

#include <gmock/gmock.h>
#include <QPointer>
#include <QTableView>

namespace ohmwright::test {
namespace {

using testing::HasSubstr;

class KeysPlaces : public KeysAlone {};

TEST_F(KeysPlaces, TheArrowsWalkTheTabsOfTheHeaderAndEnterGoesIn) {
    ASSERT_TRUE(tabTo("Places"));
    for (std::size_t step = 1; step < allPlaces.size(); ++step) {
        key(Qt::Key_Right);
        EXPECT_EQ(window->place(), allPlaces[step]);
        EXPECT_EQ(focusName(), "Places") << "after " << placeName(allPlaces[step]);
    }
    key(Qt::Key_Home);
    EXPECT_EQ(window->place(), Place::map);
    key(Qt::Key_Down);
    ASSERT_TRUE(QApplication::focusWidget());
    EXPECT_TRUE(window->map().isAncestorOf(QApplication::focusWidget()));
}

TEST_F(KeysPlaces, EveryPlaceHasAKeyAndTakesTheKeyboardIn) {
    const auto hasKeyboard = [](const QString& stop) { return focusName() == stop; };
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_F7);
    EXPECT_EQ(window->place(), Place::drawer);
    EXPECT_TRUE(hasKeyboard("Search the drawer")) << focusName().toStdString();
    key(Qt::Key_F8);
    EXPECT_EQ(window->place(), Place::papers);
    EXPECT_TRUE(hasKeyboard("Bench sheet")) << focusName().toStdString();
    key(Qt::Key_F9);
    EXPECT_EQ(window->place(), Place::history);
    EXPECT_FALSE(focusName().isEmpty());
    key(Qt::Key_M, Qt::ControlModifier);
    EXPECT_EQ(window->place(), Place::map);
    EXPECT_TRUE(panelTo("StageMap"));
    EXPECT_TRUE(window->map().isAncestorOf(QApplication::focusWidget()));
}

// D, C, B, A: the reverse of fitting, with stock's values.
TEST_F(KeysPlaces, TheWayBackIsChosenAndReadAmongThePapers) {
    ASSERT_TRUE(panelTo("StageMap"));
    for (const Qt::Key letter : {Qt::Key_B, Qt::Key_C, Qt::Key_D}) {
        key(letter, Qt::ShiftModifier);
    }
    ASSERT_TRUE(isOn("A") && isOn("B") && isOn("C") && isOn("D"));
    std::string sheet;
    openWayBackOfAllMods(sheet);
    // What can be pressed there is a stop.
    for (const char* stop : {"Save as PDF …", "Print …", "Next page", "Larger", "Whole page"}) {
        EXPECT_TRUE(tabTo(stop));
    }
    // Of the two sizes one is a stop, the arrows choose.
    ASSERT_TRUE(tabTo(window->papers().paperSize() == PaperSize::a4 ? "A4" : "Letter"));
    const PaperSize before = window->papers().paperSize();
    key(before == PaperSize::a4 ? Qt::Key_Right : Qt::Key_Left);
    EXPECT_NE(window->papers().paperSize(), before);
}

TEST_F(KeysPlaces, APartIsAddedToTheDrawerChangedAndTakenOut) {
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_F7);
    ASSERT_TRUE(tabTo("Value or type of the new part"));
    write("4k7");
    key(Qt::Key_Tab);
    EXPECT_EQ(focusName(), "How many of the new part");
    write("12");
    key(Qt::Key_Return);
    auto* table = find<QTableView>("Drawer");
    ASSERT_NE(table, nullptr);
    const auto quantity = [table] {
        for (int column = 0; column < table->model()->columnCount(); ++column) {
            for (int row = 0; row < table->model()->rowCount(); ++row) {
                const QString cell = table->model()->index(row, column).data().toString();
                if (cell == "12" || cell == "9") {
                    return cell;
                }
            }
        }
        return QString();
    };
    EXPECT_EQ(quantity(), "12");
    ASSERT_TRUE(tabTo("Drawer", Qt::Key_Backtab));
    key(Qt::Key_Down);  // into the table
    key(Qt::Key_Home);
    for (int column = 0; column < 20 && table->currentIndex().data().toString() != "12"; ++column) {
        key(Qt::Key_Right);
    }
    key(Qt::Key_F2);
    key(Qt::Key_A, Qt::ControlModifier);
    write("9");
    key(Qt::Key_Return);
    EXPECT_EQ(quantity(), "9");
    // Tab leads out of the table.
    ASSERT_TRUE(tabTo("Drawer"));
    key(Qt::Key_Tab);
    EXPECT_NE(focusName(), "Drawer");
    ASSERT_TRUE(tabTo("Drawer", Qt::Key_Backtab));
    key(Qt::Key_Delete);
    EXPECT_EQ(quantity(), "");
}

TEST_F(KeysPlaces, AVisitGoesToTheBenchFromTheStripInTheHeader) {
    ASSERT_TRUE(panelTo("StageMap"));
    ASSERT_TRUE(tabTo("Visit 2, draft"));
    key(Qt::Key_Right);
    key(Qt::Key_Right);
    EXPECT_TRUE(window->findChild<VisitStrip*>()->accessibleDescription().contains("on bench"));
    key(Qt::Key_Return);
    EXPECT_EQ(window->place(), Place::history);
    EXPECT_EQ(job().visit.state, VisitState::draft);
    EXPECT_TRUE(reads("What was agreed to do is not written down yet."));
    ASSERT_TRUE(QTest::qWaitFor([this] { return window->history().isCurrent(); }, patience));

    ASSERT_TRUE(tabTo("supply current, before the work"));
    write("3.9");
    key(Qt::Key_Return);
    ASSERT_EQ(job().visit.readings.size(), 1u);
    ASSERT_TRUE(tabTo("What was agreed"));
    write("A, nothing else.");
    ASSERT_TRUE(tabTo("Visit 2, draft"));
    key(Qt::Key_Right);
    key(Qt::Key_Right);
    key(Qt::Key_Return);
    EXPECT_EQ(job().visit.agreed, "A, nothing else.");
    EXPECT_EQ(job().visit.state, VisitState::onBench);
}

TEST_F(KeysPlaces, ValuesAreWrittenAnotherWayFromTheSettings) {
    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_Comma, Qt::ControlModifier);
    const QPointer<SettingsPage> page = window->findChild<SettingsPage*>();
    ASSERT_TRUE(page);
    page->activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(page));
    QStringList stops;
    for (int stop = 0; stop < mostStops && !stops.contains(focusName()); ++stop) {
        stops << focusName();
        key(Qt::Key_Tab);
    }
    EXPECT_TRUE(stops.contains("Choose the shop folder")) << stops.join(" | ").toStdString();
    EXPECT_TRUE(stops.contains("Back to the defaults")) << stops.join(" | ").toStdString();
    EXPECT_GE(stops.size(), 6) << stops.join(" | ").toStdString();
    key(Qt::Key_Escape);
    EXPECT_TRUE(!page || !page->isVisible());
}

TEST_F(KeysPlaces, EverythingOfTheStartPageIsAStop) {
    startAnew();
    QStringList stops;
    const QWidget* first = QApplication::focusWidget();
    for (int stop = 0; stop < mostStops && (stop == 0 || QApplication::focusWidget() != first); ++stop) {
        stops << focusName();
        key(Qt::Key_Tab);
    }
    for (const char* wanted :
         {"Harbour Lamp", "Three Hills", "Open a job or a netlist", "draw it part by part", "paste a netlist"}) {
        EXPECT_TRUE(stops.contains(wanted)) << wanted << " is not among " << stops.join(" | ").toStdString();
    }
}

}  // namespace
}  // namespace ohmwright::test
