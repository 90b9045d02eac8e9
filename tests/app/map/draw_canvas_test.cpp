// The view of the sheet that is drawn on.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_canvas.h"

#include "tests/app/map/hand_on_sheet.h"
#include "tests/support/demo_job.h"

#include <QSplitter>
#include <QVBoxLayout>

namespace ohmwright::test {
namespace {

class DrawCanvasTest : public HandOnSheet {
protected:
    DrawCanvasTest() {
        auto* column = new QVBoxLayout(&window);
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(0);
        band = new QWidget(&window);
        band->setFixedHeight(36);
        band->hide();
        column->addWidget(band);
        canvas = new DrawCanvas(hand, &window);
        // As in the window: what stands below gives some of the height too.
        auto* halves = new QSplitter(Qt::Vertical, &window);
        halves->addWidget(canvas);
        halves->addWidget(new QWidget);
        halves->setSizes({300, 200});
        column->addWidget(halves, 1);
        window.resize(900, 500);
        window.show();
        show();
    }
    void show() {
        MapState state;
        state.job = document.job();
        canvas->setState(state);
        QCoreApplication::processEvents();
    }
    [[nodiscard]] double scale() const { return canvas->transform().m11(); }
    [[nodiscard]] QPoint inWindow(GridPoint point) const { return canvas->mapTo(&window, canvas->viewPoint(point)); }

    QWidget window;
    QWidget* band = nullptr;
    DrawCanvas* canvas = nullptr;
};

// With the first part the view jumped and had another scale.
TEST_F(DrawCanvasTest, TheViewStaysWhileItIsDrawn) {
    const double before = scale();
    const QPoint place = inWindow({4, 4});
    put('R', "1k", {6, 4});
    show();
    put('R', "1k", {60, 40});
    show();
    EXPECT_DOUBLE_EQ(scale(), before);
    hand.setCaret({5, 4});
    canvas->showWhole();
    EXPECT_LT(scale(), before) << "asked for, the whole drawing is shown";

    document.setJob({}, {});
    show();
    EXPECT_DOUBLE_EQ(scale(), before) << "another document is shown whole";
    EXPECT_EQ(inWindow({4, 4}), place);
}

TEST_F(DrawCanvasTest, TheViewMovesOnlyWhenTheCrossLeavesIt) {
    put('R', "1k", {6, 4});
    show();
    const QPoint place = inWindow({4, 4});
    hand.setCaret({10, 6});
    EXPECT_EQ(inWindow({4, 4}), place);
    hand.setCaret({120, 6});
    EXPECT_NE(inWindow({4, 4}), place);
    EXPECT_TRUE(canvas->viewport()->rect().contains(canvas->viewPoint({120, 6})));
}

// The band with a refusal shifted the sheet and gave it another scale.
TEST_F(DrawCanvasTest, ABandAboveMovesNothing) {
    const double before = scale();
    const QPoint place = inWindow({4, 4});
    band->show();
    QCoreApplication::processEvents();
    EXPECT_EQ(inWindow({4, 4}), place);
    EXPECT_DOUBLE_EQ(scale(), before);
    band->hide();
    QCoreApplication::processEvents();
    EXPECT_EQ(inWindow({4, 4}), place);
    EXPECT_DOUBLE_EQ(scale(), before);
}

TEST_F(DrawCanvasTest, APastedNetlistIsLeftToTheWindow) {
    QKeyEvent netlist(QEvent::ShortcutOverride, Qt::Key_V, Qt::ControlModifier | Qt::ShiftModifier);
    netlist.ignore();
    QCoreApplication::sendEvent(canvas, &netlist);
    EXPECT_FALSE(netlist.isAccepted());
    QKeyEvent copy(QEvent::ShortcutOverride, Qt::Key_V, Qt::ControlModifier);
    copy.ignore();
    QCoreApplication::sendEvent(canvas, &copy);
    EXPECT_TRUE(copy.isAccepted());
}

}  // namespace
}  // namespace ohmwright::test
