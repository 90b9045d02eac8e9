// The place Board in the window, with mouse and keys: beside the map by the selection, beside the step at the bench.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_place.h"
#include "app/board/board_view.h"
#include "app/checklist/check_list.h"
#include "app/window/place_tabs.h"
#include "tests/app/window/open_window.h"

#include <QDir>
#include <QTableWidget>

namespace ohmwright::test {
namespace {

class BoardInWindow : public OpenWindow {
protected:
    [[nodiscard]] BoardView& view() { return window->boardPlace().view(); }
    void clickLeg(const char* reference, int pin) {
        const auto at = view().placeOf({idOf(reference), pin});
        ASSERT_TRUE(at) << reference;
        QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, *at);
        QCoreApplication::processEvents();
    }
    void showStepWithProbes() {
        window->showPlace(Place::checkList);
        ASSERT_TRUE(QTest::qWaitFor([this] { return window->checkList().step().has_value(); }, 120'000));
        // Cold steps are skipped until one has probes on the board.
        for (int k = 0; k < 12 && !view().isPulsing(); ++k) {
            QTest::keyClick(&window->checkList(), Qt::Key_Space);
            QCoreApplication::processEvents();
        }
        ASSERT_TRUE(view().isPulsing()) << window->checkList().words().toStdString();
    }
};

TEST_F(BoardInWindow, StandsInTheHeaderBetweenMapAndCheckList) {
    auto* tabs = window->findChild<PlaceTabs*>();
    ASSERT_NE(tabs, nullptr);
    QStringList names;
    for (int index = 0; index < tabs->count(); ++index) {
        names << tabs->tabText(index);
    }
    EXPECT_GT(names.indexOf("Board"), names.indexOf("Map"));
    EXPECT_LT(names.indexOf("Board"), names.indexOf("Check list"));
    QTest::mouseClick(tabs, Qt::LeftButton, {}, tabs->tabRect(static_cast<int>(names.indexOf("Board"))).center());
    EXPECT_EQ(window->place(), Place::board);
    EXPECT_TRUE(window->boardPlace().isVisible());
}

TEST_F(BoardInWindow, BOnTheMapGoesThereAndThePartGoesAlong) {
    clickPart("C4");
    press(Qt::Key_B);
    EXPECT_EQ(window->place(), Place::board);
    EXPECT_EQ(window->boardPlace().leg(), (Leg{idOf("C4"), 0}));
    EXPECT_TRUE(reads("inverting input"));
    press(Qt::Key_Down);
    EXPECT_NE(window->selection().part(), idOf("C4"));
    clickLeg("R6", 1);
    window->showPlace(Place::map);
    EXPECT_EQ(window->selection().part(), idOf("R6"));
}

TEST_F(BoardInWindow, XTurnsItOver) {
    window->showPlace(Place::board);
    press(Qt::Key_X);
    EXPECT_EQ(window->boardPlace().side(), BoardSide::solder);
}

TEST_F(BoardInWindow, APhotoIsAnUndoStepThatIsSavedWithTheJob) {
    window->showPlace(Place::board);
    QImage image(800, 600, QImage::Format_RGB32);
    image.fill(Qt::darkGreen);
    const QString picture = folder.filePath("IMG.png");
    ASSERT_TRUE(image.save(picture));
    ASSERT_TRUE(window->boardPlace().addPhoto(picture));
    QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, view().viewport()->rect().center());
    EXPECT_EQ(job().board.partSide.marks.size(), 1u);
    ASSERT_TRUE(window->document().save());
    ASSERT_TRUE(window->openFile(path));
    EXPECT_EQ(job().board.partSide.marks.size(), 1u);
}

TEST_F(BoardInWindow, AtTheBenchItStandsLeftOfTheStepWithTheProbesOnIt) {
    showStepWithProbes();
    EXPECT_TRUE(window->boardPlace().isVisible());
    EXPECT_TRUE(window->checkList().isAncestorOf(&window->boardPlace()));
    EXPECT_TRUE(reads("Net under the probes"));
    QTest::keyClick(&window->checkList(), Qt::Key_X);
    EXPECT_EQ(window->boardPlace().side(), BoardSide::solder);
    // Nothing else is pressed by accident.
    const auto before = job().visit.marks.size();
    QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, view().viewport()->rect().center());
    EXPECT_EQ(job().visit.marks.size(), before);
    EXPECT_EQ(QApplication::focusWidget(), &window->checkList());
    QTest::keyClick(&window->checkList(), Qt::Key_Escape);
    EXPECT_EQ(window->place(), Place::map);
    window->showPlace(Place::board);
    EXPECT_TRUE(window->boardPlace().isVisible());
    EXPECT_FALSE(window->checkList().isAncestorOf(&window->boardPlace()));
}

TEST_F(BoardInWindow, KeepStillStandsTheRings) {
    showStepWithProbes();
    window->actions().action("view.keepStill")->trigger();
    EXPECT_FALSE(view().isPulsing());
}

// The list beside the board on a small screen: whole rows alone, the step at hand among them.
TEST_F(BoardInWindow, TheShortListOfWorkShowsWholeRowsAndTheStepAtHand) {
    window->resize(1366, 768);
    showStepWithProbes();
    auto* steps = window->checkList().findChild<QTableWidget*>();
    ASSERT_NE(steps, nullptr);
    ASSERT_TRUE(steps->isVisible());
    QTest::qWait(50);
    const int here = static_cast<int>(*window->checkList().step());
    int whole = 0;
    for (int row = 0; row < steps->rowCount(); ++row) {
        const QRect box = steps->visualItemRect(steps->item(row, 2));
        const QRect seen = box.intersected(steps->viewport()->rect());
        if (seen.isEmpty()) {
            continue;
        }
        EXPECT_EQ(seen.height(), box.height()) << "row " << row + 1 << " is cut";
        EXPECT_LT(box.height(), 2 * QFontMetrics(steps->item(row, 2)->font()).height()) << row;
        ++whole;
    }
    EXPECT_EQ(whole, 3);
    EXPECT_TRUE(steps->viewport()->rect().contains(steps->visualItemRect(steps->item(here, 2))));
}

}  // namespace
}  // namespace ohmwright::test
