// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/pan_view.h"

#include "app/look/theme.h"

#include <QGestureEvent>
#include <QKeyEvent>
#include <QNativeGestureEvent>
#include <QPinchGesture>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

/// A step of an ordinary wheel: 15 degrees in eighths.
constexpr double wheelStep = 120.0;
constexpr double zoomStep = 1.15;
/// Nearer than this the whole is shown instead: a sheet one pixel off its place looks like a mistake.
constexpr double sameScale = 1.005;

}  // namespace

PanView::PanView(QGraphicsScene& scene, QWidget* parent) : QGraphicsView(parent) {
    setScene(&scene);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    setDragMode(QGraphicsView::NoDrag);
    setTransformationAnchor(QGraphicsView::NoAnchor);
    setMouseTracking(true);
    viewport()->setMouseTracking(true);
    viewport()->grabGesture(Qt::PinchGesture);
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", false);  // brackets and cross show the focus
    setMinimumSize(200, 120);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        if (m_showsWhole) {
            follow();
        } else {
            scaleTo(transform().m11());
        }
    });
}

double PanView::fitScale() const {
    const QRectF sheet = whole();
    return sheet.isEmpty()
               ? 1.0
               : std::min({viewport()->width() / sheet.width(), viewport()->height() / sheet.height(), largestFit()});
}

void PanView::showWhole() {
    m_showsWhole = true;
    follow();
}

void PanView::follow() {
    if (!m_showsWhole) {
        scaleTo(transform().m11());
        return;
    }
    if (whole().isEmpty() || viewport()->width() < 2 || viewport()->height() < 2) {
        return;
    }
    // Where words stand hangs on their size, and that on how large the drawing is shown: twice comes near enough.
    for (int pass = 0; pass < 2; ++pass) {
        const double scale = fitScale();
        setTransform(QTransform::fromScale(scale, scale));
        centerOn(whole().center());
        wasScaled(scale);
    }
    wasFitted();
    emit fitted();
}

void PanView::scaleTo(double scale) {
    setTransform(QTransform::fromScale(scale, scale));
    wasScaled(scale);
    emit fitted();
}

void PanView::zoomAbout(const QPointF& position, double factor) {
    const auto [smallest, largest] = zoomLimits();
    const double scale = std::clamp(transform().m11() * factor, smallest, std::max(smallest, largest));
    if (factor < 1.0 && scale <= fitScale() * sameScale && smallest >= fitScale()) {
        showWhole();
        return;
    }
    const QPointF held = viewportTransform().inverted().map(position);
    m_showsWhole = false;
    scaleTo(scale);
    pan((position - viewportTransform().map(held)).toPoint());
}

void PanView::zoom(int steps) {
    zoomAbout(QRectF(viewport()->rect()).center(), std::pow(zoomStep, steps));
}

void PanView::zoomByWheel(const QWheelEvent& event) {
    zoomAbout(event.position(), std::pow(zoomStep, event.angleDelta().y() / wheelStep));
}

void PanView::pan(const QPoint& by) {
    if (by.isNull()) {
        return;
    }
    horizontalScrollBar()->setValue(horizontalScrollBar()->value() - by.x());
    verticalScrollBar()->setValue(verticalScrollBar()->value() - by.y());
}

bool PanView::moveSheetByKey(const QKeyEvent& event) {
    constexpr int step = 60;
    const bool isShifted = event.modifiers() & Qt::ShiftModifier;
    switch (event.key()) {
        case Qt::Key_Plus:
            zoom(1);
            return true;
        case Qt::Key_Minus:
            zoom(-1);
            return true;
        case Qt::Key_Home:
            showWhole();
            return true;
        case Qt::Key_Left:
        case Qt::Key_Right:
            if (isShifted) {
                pan({event.key() == Qt::Key_Left ? step : -step, 0});
            }
            return isShifted;
        case Qt::Key_Up:
        case Qt::Key_Down:
            if (isShifted) {
                pan({0, event.key() == Qt::Key_Up ? step : -step});
            }
            return isShifted;
        default:
            return false;
    }
}

void PanView::grabSheet(const QPoint& position) {
    m_grabbedAt = position;
    viewport()->setCursor(Qt::ClosedHandCursor);
}

bool PanView::dragSheet(const QPoint& position) {
    if (!m_grabbedAt) {
        return false;
    }
    pan(position - *m_grabbedAt);
    m_grabbedAt = position;
    return true;
}

bool PanView::releaseSheet() {
    if (!m_grabbedAt) {
        return false;
    }
    m_grabbedAt.reset();
    viewport()->setCursor(Qt::ArrowCursor);
    return true;
}

bool PanView::pinch(const QGestureEvent& event) {
    const auto* gesture = static_cast<const QPinchGesture*>(event.gesture(Qt::PinchGesture));
    if (!gesture) {
        return false;
    }
    zoomAbout(viewport()->mapFromGlobal(gesture->centerPoint()), gesture->scaleFactor());
    return true;
}

bool PanView::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::Gesture && pinch(*static_cast<QGestureEvent*>(event))) {
        return true;
    }
    if (event->type() == QEvent::NativeGesture) {
        const auto* gesture = static_cast<QNativeGestureEvent*>(event);
        if (gesture->gestureType() == Qt::ZoomNativeGesture) {
            zoomAbout(gesture->position(), 1.0 + gesture->value());
            return true;
        }
    }
    return QGraphicsView::viewportEvent(event);
}

void PanView::scrollContentsBy(int dx, int dy) {
    QGraphicsView::scrollContentsBy(dx, dy);
    // A scene that dies before its view takes the scroll bars back to 0: nobody is there to be told.
    if (scene()) {
        emit fitted();
    }
}

}  // namespace ohmwright
