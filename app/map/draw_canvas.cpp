// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_canvas.h"

#include "app/look/theme.h"
#include "app/map/draw_hand.h"
#include "app/map/map_geometry.h"
#include "app/map/map_scene.h"
#include "app/map/map_view.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
constexpr double largestScale = 1.25;
constexpr double largestLabelScale = 1.4;
constexpr double smallestZoom = 0.3;
constexpr double largestZoom = 2.5;
/// A step of an ordinary wheel: 15 degrees in eighths.
constexpr double wheelStep = 120.0;
constexpr double zoomStep = 1.15;
/// The sheet that can be drawn on, with a margin round it.
constexpr double border = 10 * pitch;

}  // namespace

DrawCanvas::DrawCanvas(DrawHand& hand, QWidget* parent)
    : QGraphicsView(parent), m_hand(hand), m_scene(new MapScene(this)) {
    setScene(m_scene);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    setDragMode(QGraphicsView::NoDrag);
    setSceneRect(QRectF(-border, -border, largestGrid * pitch + 2 * border, largestGrid * pitch + 2 * border));
    setTransformationAnchor(QGraphicsView::AnchorUnderMouse);
    viewport()->setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", false);  // the cross shows the focus
    setMinimumSize(200, 120);
    setAccessibleName(tr("Drawing"));
    connect(&hand, &DrawHand::changed, this, &DrawCanvas::followHand);
    connect(&hand, &DrawHand::pointed, viewport(), qOverload<>(&QWidget::update));
    connect(&hand, &DrawHand::accepted, this, [this] { m_showsWhole = false; });
    connect(&hand, &DrawHand::replaced, this, [this] { m_showsWhole = true; });
    connect(&Theme::current(), &Theme::changed, this, [this] { scaleTo(transform().m11()); });
}

void DrawCanvas::setState(const MapState& state) {
    MapState stock = state;
    stock.holdsStock = true;
    stock.selected.clear();
    stock.fault.clear();
    stock.isDrawnOn = true;
    m_scene->setState(stock);
    if (m_showsWhole) {
        fit();
    } else {
        emit fitted();
    }
    followHand();
}

void DrawCanvas::setFaults(std::vector<DrawFault> faults) {
    m_faults = std::move(faults);
    viewport()->update();
}

std::vector<double> DrawCanvas::zoneEdges() const {
    return zoneEdgesIn(*this, m_scene->layout());
}

QPoint DrawCanvas::viewPoint(GridPoint point) const {
    return mapFromScene(scenePoint(point));
}

QPointF DrawCanvas::inGrid(const QPoint& position) const {
    return mapToScene(position) / pitch;
}

void DrawCanvas::showWhole() {
    m_showsWhole = true;
    fit();
}

void DrawCanvas::fit() {
    const QRectF sheet = m_scene->layout().sheet;
    if (sheet.isEmpty() || viewport()->width() < 2 || viewport()->height() < 2) {
        return;
    }
    scaleTo(std::min({viewport()->width() / sheet.width(), viewport()->height() / sheet.height(), largestScale}));
    centerOn(sheet.center());
    m_caret = m_hand.caret();
    emit fitted();
}

void DrawCanvas::scaleTo(double scale) {
    setTransform(QTransform::fromScale(scale, scale));
    // Words stay readable when the drawing is shown smaller than it is.
    m_scene->setLabelScale(std::max(Theme::current().textScale(), std::min(1.0 / scale, largestLabelScale)));
    emit fitted();
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
        m_showsWhole = false;
        ensureVisible(QRectF(at, QSizeF(1, 1)), room, room);
    }
}

void DrawCanvas::scrollContentsBy(int dx, int dy) {
    QGraphicsView::scrollContentsBy(dx, dy);
    emit fitted();
}

void DrawCanvas::followHand() {
    const QString words = m_hand.placeWords();
    if (accessibleDescription() != words) {
        setAccessibleDescription(words);
        QAccessibleEvent said(this, QAccessible::DescriptionChanged);
        QAccessible::updateAccessibility(&said);
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
    return QGraphicsView::event(event);
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
    if (event->button() == Qt::LeftButton) {
        m_hand.press(inGrid(event->pos()), event->modifiers());
    } else if (event->button() == Qt::RightButton) {
        m_hand.letGo();
    }
    event->accept();
}

void DrawCanvas::mouseMoveEvent(QMouseEvent* event) {
    m_hand.moveTo(inGrid(event->pos()));
}

void DrawCanvas::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) {
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
    QGraphicsView::leaveEvent(event);
    m_hand.pointAway();
}

/// The wheel moves the sheet, sideways with Shift; with Ctrl it makes it larger or smaller.
void DrawCanvas::wheelEvent(QWheelEvent* event) {
    m_showsWhole = false;
    const QPoint turned = event->angleDelta();
    if (event->modifiers() & Qt::ControlModifier) {
        const double scale = transform().m11() * std::pow(zoomStep, turned.y() / wheelStep);
        scaleTo(std::clamp(scale, smallestZoom, largestZoom));
    } else if (event->modifiers() & Qt::ShiftModifier) {
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() - turned.x() - turned.y());
    } else {
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() - turned.x());
        verticalScrollBar()->setValue(verticalScrollBar()->value() - turned.y());
    }
    event->accept();
}

/// A band of words that comes or goes above the sheet must not move the sheet.
void DrawCanvas::resizeEvent(QResizeEvent* event) {
    QGraphicsView::resizeEvent(event);
    const QPoint place = mapTo(window(), QPoint());
    const QPoint moved = place - std::exchange(m_placeInWindow, place);
    const int grown = event->size().height() - event->oldSize().height();
    const bool isBandAbove = event->oldSize().width() == event->size().width() && moved.x() == 0 &&
                             ((moved.y() > 0 && grown <= 0) || (moved.y() < 0 && grown >= 0));
    if (isBandAbove) {
        verticalScrollBar()->setValue(verticalScrollBar()->value() + moved.y());
    } else if (m_showsWhole) {
        fit();
    } else {
        emit fitted();
    }
}

void DrawCanvas::focusInEvent(QFocusEvent* event) {
    QGraphicsView::focusInEvent(event);
    viewport()->update();
}

void DrawCanvas::focusOutEvent(QFocusEvent* event) {
    QGraphicsView::focusOutEvent(event);
    viewport()->update();
}

}  // namespace ohmwright
