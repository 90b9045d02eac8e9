// The map under the hand, in the whole window: owners, volts, a value that is dragged, the sheet, the copy.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/response_plot.h"
#include "app/map/owner_legend.h"
#include "tests/app/window/open_window.h"

#include <QClipboard>
#include <QMimeData>
#include <QMouseEvent>
#include <QPdfWriter>
#include <QUndoStack>

namespace ohmwright::test {
namespace {

class MapUnderHand : public OpenWindow {
protected:
    MapUnderHand() {
        EXPECT_TRUE(waitForAnswers());
        window->map().setFocus();
        QCoreApplication::processEvents();
    }

    [[nodiscard]] MapView& view() { return window->map().view(); }
    void key(Qt::Key pressed, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(&view(), pressed, modifiers);
        QCoreApplication::processEvents();
    }
    void send(QEvent::Type type, const QPoint& at, Qt::MouseButton button, Qt::MouseButtons buttons) {
        QMouseEvent event(type, at, view().viewport()->mapToGlobal(at), button, buttons, {});
        QCoreApplication::sendEvent(view().viewport(), &event);
        QCoreApplication::processEvents();
    }
    [[nodiscard]] QPoint centreOf(const PartId& part) {
        return view().mapFromScene(window->map().scene().layout().part(part)->body.center());
    }
    [[nodiscard]] QString valueOn(const PartId& part) {
        return window->map().scene().layout().part(part)->view.nowValue;
    }
};

TEST_F(MapUnderHand, OPinsTheOwnersAndEscLetsThemGo) {
    key(Qt::Key_O);
    ASSERT_TRUE(QTest::qWaitFor([this] { return window->map().legend().isVisible(); }, 60000));
    EXPECT_EQ(window->map().legend().ranks().front(), "1 C4 Cg +0.76");
    EXPECT_TRUE(window->actions().action("view.owners")->isChecked());
    key(Qt::Key_O);
    EXPECT_TRUE(QTest::qWaitFor([this] { return !window->map().legend().isVisible(); }));
    key(Qt::Key_O);
    key(Qt::Key_Escape);
    EXPECT_FALSE(window->selection().pinsOwners());
    EXPECT_FALSE(window->actions().action("view.owners")->isChecked());
}

TEST_F(MapUnderHand, TheCursorThatIsHeldShowsTheOwnersWhileItIsHeld) {
    auto* plot = window->curves().findChild<ResponsePlot*>();
    ASSERT_NE(plot, nullptr);
    QWidget* face = plot->childAt(plot->rect().center());
    ASSERT_NE(face, nullptr);
    QTest::mousePress(face, Qt::LeftButton, {}, face->rect().center());
    EXPECT_TRUE(QTest::qWaitFor([this] { return window->map().legend().isVisible(); }, 60000));
    QTest::mouseRelease(face, Qt::LeftButton, {}, face->rect().center());
    EXPECT_TRUE(QTest::qWaitFor([this] { return !window->map().legend().isVisible(); }, 60000));
}

TEST_F(MapUnderHand, PWritesTheVoltsOnTheMap) {
    key(Qt::Key_P);
    EXPECT_FALSE(window->map().scene().probeMarks().empty());
    key(Qt::Key_P);
    EXPECT_TRUE(window->map().scene().probeMarks().empty());
}

TEST_F(MapUnderHand, ADraggedValueFollowsSnapsAndIsOneUndoStep) {
    const int steps = window->document().undoStack().count();
    const QPoint at = centreOf("r7");
    send(QEvent::MouseButtonPress, at, Qt::LeftButton, Qt::LeftButton);
    for (int y = 10; y <= 60; y += 10) {
        send(QEvent::MouseMove, at - QPoint(0, y), Qt::NoButton, Qt::LeftButton);
    }
    // 1k5 * 10^(60/240) = 2667 ohms.
    EXPECT_EQ(valueOn("r7"), "2k67");
    send(QEvent::MouseButtonRelease, at - QPoint(0, 60), Qt::LeftButton, Qt::NoButton);
    EXPECT_EQ(valueOn("r7"), "2k7");
    EXPECT_TRUE(view().accessibleDescription().startsWith(QString::fromUtf8("R7 snapped 2k67 → 2k7")))
        << view().accessibleDescription().toStdString();
    EXPECT_EQ(window->document().undoStack().count(), steps + 1);
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(valueOn("r7"), "1k5");
}

TEST_F(MapUnderHand, EscInTheMiddleOfADragTakesItBack) {
    const int steps = window->document().undoStack().count();
    const QPoint at = centreOf("r7");
    send(QEvent::MouseButtonPress, at, Qt::LeftButton, Qt::LeftButton);
    send(QEvent::MouseMove, at + QPoint(0, 80), Qt::NoButton, Qt::LeftButton);
    EXPECT_NE(valueOn("r7"), "1k5");
    key(Qt::Key_Escape);
    EXPECT_EQ(valueOn("r7"), "1k5");
    send(QEvent::MouseMove, at + QPoint(0, 120), Qt::NoButton, Qt::LeftButton);
    send(QEvent::MouseButtonRelease, at + QPoint(0, 120), Qt::LeftButton, Qt::NoButton);
    EXPECT_EQ(valueOn("r7"), "1k5") << "a drag that was taken back is over";
    EXPECT_EQ(window->document().undoStack().count(), steps);
    EXPECT_EQ(window->selection().part(), "r7") << "one level out: the part is still selected";
}

TEST_F(MapUnderHand, MenuActionsBringTheDrawingNearerAndBack) {
    const double before = view().transform().m11();
    window->actions().action("view.nearer")->trigger();
    EXPECT_GT(view().transform().m11(), before * 1.1);
    window->actions().action("view.farther")->trigger();
    window->actions().action("view.farther")->trigger();
    EXPECT_TRUE(view().showsWhole());
}

TEST_F(MapUnderHand, TheDrawingIsCopiedAndWritten) {
    window->actions().action("edit.copyDrawing")->trigger();
    const QMimeData* copied = QApplication::clipboard()->mimeData();
    ASSERT_NE(copied, nullptr);
    EXPECT_TRUE(copied->hasFormat("image/svg+xml"));
    EXPECT_TRUE(window->exportDrawing(folder.filePath("lamp.pdf")));
    EXPECT_TRUE(QFile::exists(folder.filePath("lamp.pdf")));
    QPdfWriter page(folder.filePath("printed.pdf"));
    EXPECT_TRUE(window->printDrawing(page));
    EXPECT_TRUE(reads("The drawing is printed."));
    EXPECT_FALSE(window->exportDrawing(folder.filePath("lamp.txt")));
    EXPECT_TRUE(window->refusal().contains(".svg")) << window->refusal().toStdString();
}

}  // namespace
}  // namespace ohmwright::test
