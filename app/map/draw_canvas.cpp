// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_canvas.h"

#include "app/look/spoken_events.h"
#include "app/look/theme.h"
#include "app/map/draw_hand.h"
#include "app/map/map_geometry.h"
#include "app/map/map_scene.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <utility>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
constexpr double largestScale = 1.25;
constexpr double largestLabelScale = 1.4;
constexpr double smallestZoom = 0.3;
constexpr double largestZoom = 2.5;
/// The sheet that can be drawn on, with a margin round it.
constexpr double border = 10 * pitch;

}  // namespace

DrawCanvas::DrawCanvas(DrawHand& hand, QWidget* parent) : DrawCanvas(hand, new MapScene, parent) {}

DrawCanvas::DrawCanvas(DrawHand& hand, MapScene* scene, QWidget* parent)
    : SheetView(*scene, parent), m_hand(hand), m_scene(scene) {
    scene->setParent(this);
    setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    setSceneRect(QRectF(-border, -border, largestGrid * pitch + 2 * border, largestGrid * pitch + 2 * border));
    setAccessibleName(tr("Drawing"));
    connect(&hand, &DrawHand::changed, this, &DrawCanvas::followHand);
    connect(&hand, &DrawHand::pointed, viewport(), qOverload<>(&QWidget::update));
    connect(&hand, &DrawHand::accepted, this, [this] { keepPlace(); });
    connect(&hand, &DrawHand::replaced, this, [this] { expectWhole(); });
}

QRectF DrawCanvas::whole() const {
    return m_scene->layout().sheet;
}

double DrawCanvas::largestFit() const {
    return largestScale;
}

std::pair<double, double> DrawCanvas::zoomLimits() const {
    return {smallestZoom, largestZoom};
}

/// Words stay readable when the drawing is shown smaller than it is.
double DrawCanvas::labelScaleAt(double scale) const {
    return std::max(Theme::current().textScale(), std::min(1.0 / scale, largestLabelScale));
}

void DrawCanvas::wasFitted() {
    m_caret = m_hand.caret();
}

void DrawCanvas::setState(const MapState& state) {
    MapState stock = state;
    stock.holdsStock = true;
    stock.selected.clear();
    stock.fault.clear();
    stock.isDrawnOn = true;
    m_scene->setState(stock);
    if (showsWhole()) {
        follow();
    } else {
        emit fitted();
    }
    followHand();
}

void DrawCanvas::setFaults(std::vector<DrawFault> faults) {
    m_faults = std::move(faults);
    viewport()->update();
}

QPoint DrawCanvas::viewPoint(GridPoint point) const {
    return mapFromScene(scenePoint(point));
}

QPointF DrawCanvas::inGrid(const QPoint& position) const {
    return mapToScene(position) / pitch;
}

/// The view moves only when the cross has left it.
void DrawCanvas::keepCaretInView() {
    if (m_caret == m_hand.caret()) {
        return;
    }
    m_caret = m_hand.caret();
    const QPointF at = scenePoint(m_caret);
    const QRectF shown = mapToScene(viewport()->rect()).boundingRect();
    constexpr double half = pitch / 2;  // a pointer inside may have its nearest point outside
    if (!shown.adjusted(-half, -half, half, half).contains(at)) {
        constexpr int room = 3 * space::mapPitch;
        keepPlace();
        ensureVisible(QRectF(at, QSizeF(1, 1)), room, room);
    }
}

void DrawCanvas::followHand() {
    const QString words = m_hand.placeWords();
    if (accessibleDescription() != words) {
        setAccessibleDescription(words);
        QAccessibleEvent said(this, QAccessible::DescriptionChanged);
        tellListeners(said);
    }
    keepCaretInView();
    viewport()->update();
}

bool DrawCanvas::event(QEvent* event) {
    // Letters, digits and editing keys are the hand's here, whatever else they call elsewhere in the window.
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const Qt::KeyboardModifiers all = key->modifiers() & ~Qt::KeypadModifier;
        const Qt::KeyboardModifiers modifiers = all & ~Qt::ShiftModifier;
        const bool copies = all == Qt::ControlModifier && (key->key() == Qt::Key_C || key->key() == Qt::Key_X ||
                                                           key->key() == Qt::Key_V || key->key() == Qt::Key_A);
        if (copies || (modifiers == Qt::NoModifier && !key->text().isEmpty()) || key->key() == Qt::Key_Delete) {
            event->accept();
            return true;
        }
    }
    return SheetView::event(event);
}

void DrawCanvas::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Home) {
        showWhole();
    } else if (!m_hand.key(*event)) {
        event->ignore();
    }
}

void DrawCanvas::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    if (event->button() == Qt::MiddleButton) {
        keepPlace();
        grabSheet(event->pos());
    } else if (event->button() == Qt::LeftButton) {
        m_hand.press(inGrid(event->pos()), event->modifiers());
    } else if (event->button() == Qt::RightButton) {
        m_hand.letGo();
    }
    event->accept();
}

void DrawCanvas::mouseMoveEvent(QMouseEvent* event) {
    if (dragSheet(event->pos())) {
        return;
    }
    m_hand.moveTo(inGrid(event->pos()));
}

void DrawCanvas::mouseReleaseEvent(QMouseEvent* event) {
    if (!releaseSheet() && event->button() == Qt::LeftButton) {
        m_hand.release();
    }
}

void DrawCanvas::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) {
        m_hand.pressTwice(inGrid(event->pos()), event->modifiers());
    }
    event->accept();
}

void DrawCanvas::leaveEvent(QEvent* event) {
    SheetView::leaveEvent(event);
    m_hand.pointAway();
}

/// The wheel moves the sheet, sideways with Shift; with Ctrl it makes it larger or smaller.
void DrawCanvas::wheelEvent(QWheelEvent* event) {
    keepPlace();
    const QPoint turned = event->angleDelta();
    if (event->modifiers() & Qt::ControlModifier) {
        zoomByWheel(*event);
    } else if (event->modifiers() & Qt::ShiftModifier) {
        pan({turned.x() + turned.y(), 0});
    } else {
        pan(turned);
    }
    event->accept();
}

/// A band of words that comes or goes above the sheet must not move the sheet.
void DrawCanvas::resizeEvent(QResizeEvent* event) {
    SheetView::resizeEvent(event);
    const QPoint place = mapTo(window(), QPoint());
    const QPoint moved = place - std::exchange(m_placeInWindow, place);
    const int grown = event->size().height() - event->oldSize().height();
    const bool isBandAbove = event->oldSize().width() == event->size().width() && moved.x() == 0 &&
                             ((moved.y() > 0 && grown <= 0) || (moved.y() < 0 && grown >= 0));
    if (isBandAbove) {
        verticalScrollBar()->setValue(verticalScrollBar()->value() + moved.y());
    } else if (showsWhole()) {
        follow();
    } else {
        emit fitted();
    }
}

void DrawCanvas::focusInEvent(QFocusEvent* event) {
    SheetView::focusInEvent(event);
    viewport()->update();
}

void DrawCanvas::focusOutEvent(QFocusEvent* event) {
    SheetView::focusOutEvent(event);
    viewport()->update();
}

}  // namespace ohmwright
