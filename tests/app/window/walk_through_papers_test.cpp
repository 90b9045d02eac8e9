// The papers, from the tab in the header to what stands on their pages.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/papers/paper_list.h"
#include "app/papers/papers_place.h"
#include "app/window/place_tabs.h"

#include <gmock/gmock.h>
#include <QRegularExpression>

namespace ohmwright::test {
namespace {

using testing::HasSubstr;

class PapersWalk : public OpenWindow {
protected:
    static constexpr int patience = 60000;

    /// By its tab in the header.
    void openPapers() {
        auto* tabs = window->findChild<PlaceTabs*>();
        ASSERT_NE(tabs, nullptr);
        for (int index = 0; index < tabs->count(); ++index) {
            if (tabs->tabText(index) == "Papers") {
                QTest::mouseClick(tabs, Qt::LeftButton, {}, tabs->tabRect(index).center());
            }
        }
        ASSERT_EQ(window->place(), Place::papers);
    }
    [[nodiscard]] bool waitForPages() {
        return QTest::qWaitFor([this] { return window->papers().isReady(); }, patience);
    }
    [[nodiscard]] std::string words() { return window->papers().words().toStdString(); }
};

// Undone in the reverse order of fitting: D, C, B, A, with stock's 47n, 3k9, one diode alone in the arm, 56n. Stock's
// readings: Rg 3.90 k between its ends, each diode way 0.58 V (1N4148 at 1 mA by its card).
TEST_F(PapersWalk, TheWayBackListsTheModsInReverseWithStocksValuesAndReadings) {
    switchMod(1);
    switchMod(2);
    switchMod(3);
    ASSERT_TRUE(isOn("A") && isOn("B") && isOn("C") && isOn("D"));
    openPapers();
    auto* row = window->papers().findChildren<PaperRow*>().at(1);
    QTest::mouseClick(row, Qt::LeftButton);
    ASSERT_EQ(window->papers().chosen(), PaperKind::wayBack);
    ASSERT_TRUE(waitForPages());
    const std::string sheet = words();
    EXPECT_THAT(sheet, HasSubstr("D, C, B, A"));
    EXPECT_THAT(sheet, HasSubstr("Fit C7 Clp 47n, printed 473"));
    EXPECT_THAT(sheet, HasSubstr("Fit R5 Rg 3k9"));
    EXPECT_THAT(sheet, HasSubstr("Take D3 out, 1N4148"));
    EXPECT_THAT(sheet, HasSubstr("Fit C4 Cg 56n, printed 563"));
    // In that order down the pages.
    const auto at = [&](const char* line) { return sheet.find(line); };
    EXPECT_LT(at("Fit C7 Clp 47n"), at("Fit R5 Rg 3k9"));
    EXPECT_LT(at("Fit R5 Rg 3k9"), at("Take D3 out"));
    EXPECT_LT(at("Take D3 out"), at("Fit C4 Cg 56n"));
    // Both ways through the arms are one diode again.
    const QString text = QString::fromStdString(sheet);
    const QRegularExpression diodeRange("Diode range[^\\n]*\\n?[^\\n]*0\\.5[0-9] V to 0\\.6[0-9] V");
    auto found = diodeRange.globalMatch(text);
    int ways = 0;
    for (; found.hasNext(); found.next()) {
        ++ways;
    }
    EXPECT_EQ(ways, 2) << sheet;
    EXPECT_TRUE(text.contains(QRegularExpression("Ohms[^\\n]*\\n?[^\\n]*3\\.[67][0-9] k. to 4\\.[01][0-9] k")))
        << sheet;
}

// The key of the header's button goes to the same place, and what is printed there is void once the plan moves on.
TEST_F(PapersWalk, ThePrintedSheetIsVoidWhenThePlanChanges) {
    ASSERT_TRUE(waitForAnswers());
    window->actions().action("paper.benchSheet")->trigger();
    ASSERT_EQ(window->place(), Place::papers);
    ASSERT_TRUE(waitForPages());
    const QString pdf = folder.filePath("sheet.pdf");
    ASSERT_TRUE(window->papers().savePdf(pdf));
    EXPECT_TRUE(QFile::exists(pdf));
    EXPECT_TRUE(reads("bench sheet saved: " + pdf));
    EXPECT_TRUE(reads("Bench sheet")) << words();
    window->showPlace(Place::map);
    switchMod(1);
    openPapers();
    EXPECT_TRUE(QTest::qWaitFor([this] { return reads("void, printed from an earlier plan"); }, patience));
    EXPECT_EQ(window->papers().list().stateWords(PaperKind::bench), "void: printed from an earlier plan");
}

}  // namespace
}  // namespace ohmwright::test
