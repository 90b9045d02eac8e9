// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/sheet_view.h"

#include "app/look/theme.h"
#include "app/map/map_scene.h"

#include <QGestureEvent>
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

SheetView::SheetView(MapScene& scene, QWidget* parent) : QGraphicsView(parent), m_scene(scene) {
    setScene(&scene);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    // Thousands of round dots: the scene says when the sheet under the drawing changes.
    setCacheMode(QGraphicsView::CacheBackground);
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

double SheetView::fitScale() const {
    const QRectF sheet = whole();
    return sheet.isEmpty()
               ? 1.0
               : std::min({viewport()->width() / sheet.width(), viewport()->height() / sheet.height(), largestFit()});
}

void SheetView::showWhole() {
    m_showsWhole = true;
    follow();
}

void SheetView::follow() {
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
        m_scene.setLabelScale(labelScaleAt(scale));
    }
    wasFitted();
    emit fitted();
}

void SheetView::scaleTo(double scale) {
    setTransform(QTransform::fromScale(scale, scale));
    m_scene.setLabelScale(labelScaleAt(scale));
    emit fitted();
}

void SheetView::zoomAbout(const QPointF& position, double factor) {
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

void SheetView::zoom(int steps) {
    zoomAbout(QRectF(viewport()->rect()).center(), std::pow(zoomStep, steps));
}

void SheetView::zoomByWheel(const QWheelEvent& event) {
    zoomAbout(event.position(), std::pow(zoomStep, event.angleDelta().y() / wheelStep));
}

void SheetView::pan(const QPoint& by) {
    if (by.isNull()) {
        return;
    }
    horizontalScrollBar()->setValue(horizontalScrollBar()->value() - by.x());
    verticalScrollBar()->setValue(verticalScrollBar()->value() - by.y());
}

/// Words and signs stand beyond the sheet's edges, and a zone that is half seen keeps its head in sight: the outer ones
/// reach to the view's edges, the others are cut off there.
std::vector<double> SheetView::zoneEdges() const {
    std::vector<double> edges;
    const double width = viewport()->width();
    for (const double left : m_scene.layout().zoneLefts) {
        edges.push_back(std::clamp(viewportTransform().map(QPointF(left, 0.0)).x(), 0.0, width));
    }
    if (!edges.empty()) {
        edges.front() = 0.0;
        edges.push_back(width);
    }
    return edges;
}

void SheetView::grabSheet(const QPoint& position) {
    m_grabbedAt = position;
    viewport()->setCursor(Qt::ClosedHandCursor);
}

bool SheetView::dragSheet(const QPoint& position) {
    if (!m_grabbedAt) {
        return false;
    }
    pan(position - *m_grabbedAt);
    m_grabbedAt = position;
    return true;
}

bool SheetView::releaseSheet() {
    if (!m_grabbedAt) {
        return false;
    }
    m_grabbedAt.reset();
    viewport()->setCursor(Qt::ArrowCursor);
    return true;
}

bool SheetView::pinch(const QGestureEvent& event) {
    const auto* gesture = static_cast<const QPinchGesture*>(event.gesture(Qt::PinchGesture));
    if (!gesture) {
        return false;
    }
    zoomAbout(viewport()->mapFromGlobal(gesture->centerPoint()), gesture->scaleFactor());
    return true;
}

bool SheetView::viewportEvent(QEvent* event) {
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

void SheetView::scrollContentsBy(int dx, int dy) {
    QGraphicsView::scrollContentsBy(dx, dy);
    // A scene that dies before its view takes the scroll bars back to 0: nobody is there to be told.
    if (scene()) {
        emit fitted();
    }
}

}  // namespace ohmwright
