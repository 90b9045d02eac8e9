// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_view.h"

#include "app/look/theme.h"
#include "app/map/map_accessible.h"
#include "app/map/map_scene.h"
#include "app/map/value_keys.h"

#include <QAccessible>
#include <QContextMenuEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>

#include <algorithm>

namespace ohmwright {
namespace {

/// Symbols of a small unit may be this much larger than on the look's boards.
constexpr double largestScale = 2.0;
/// Words grow more slowly than symbols do.
constexpr double largestTextGrowth = 1.25;
/// A step of an ordinary wheel: 15 degrees in eighths.
constexpr int wheelStep = 120;
constexpr double largestLabelScale = 1.4;

/// Words keep the text setting, and stay readable when the drawing is shown smaller than it is.
double labelScaleAt(double scale) {
    const double setting = Theme::current().textScale();
    const double readable = std::min(1.0 / scale, largestLabelScale);
    return scale > largestTextGrowth ? setting * largestTextGrowth / scale : std::max(setting, readable);
}

}  // namespace

MapView::MapView(MapScene& scene, QWidget* parent) : QGraphicsView(&scene, parent), m_scene(scene) {
    // First of all: the next setter that is announced makes and keeps the interface of whoever is asked then.
    installMapAccessibility();
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    setViewportUpdateMode(QGraphicsView::SmartViewportUpdate);
    setDragMode(QGraphicsView::NoDrag);
    setMouseTracking(true);
    viewport()->setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", false);  // on the map the brackets show the focus
    setMinimumSize(200, 120);
    setAccessibleName("Stage map");
    connect(&Theme::current(), &Theme::changed, this, &MapView::fitSheet);
}

void MapView::fitSheet() {
    if (m_scene.layout().sheet.isEmpty() || viewport()->width() < 2 || viewport()->height() < 2) {
        return;
    }
    // Where words stand hangs on their size, and that on how large the drawing is shown: twice comes near enough.
    for (int pass = 0; pass < 2; ++pass) {
        const QRectF shown = m_scene.layout().extent;
        const double scale =
            std::min({viewport()->width() / shown.width(), viewport()->height() / shown.height(), largestScale});
        setTransform(QTransform::fromScale(scale, scale));
        centerOn(shown.center());
        m_scene.setLabelScale(labelScaleAt(scale));
    }
    emit fitted();
}

std::vector<double> zoneEdgesIn(const QGraphicsView& view, const MapLayout& layout) {
    std::vector<double> edges;
    for (const double left : layout.zoneLefts) {
        edges.push_back(view.viewportTransform().map(QPointF(left, 0.0)).x());
    }
    if (!edges.empty()) {
        edges.front() = 0.0;
        edges.push_back(view.viewport()->width());
    }
    return edges;
}

std::vector<double> MapView::zoneEdges() const {
    return zoneEdgesIn(*this, m_scene.layout());
}

bool MapView::event(QEvent* event) {
    // Digits belong to the value here, whatever else they call elsewhere in the window.
    if (event->type() == QEvent::ShortcutOverride && !m_selected.empty() &&
        isDigitKey(*static_cast<QKeyEvent*>(event))) {
        event->accept();
        return true;
    }
    return QGraphicsView::event(event);
}

void MapView::keyPressEvent(QKeyEvent* event) {
    if (walkOwners(*event) || walkByKey(event->key())) {
        return;
    }
    if (!m_selected.empty() && (event->key() == Qt::Key_PageUp || event->key() == Qt::Key_PageDown)) {
        emit valueStepped(m_selected, event->key() == Qt::Key_PageUp ? 1 : -1, event->modifiers());
        return;
    }
    if (!m_selected.empty() && startsValue(*event)) {
        emit typedOnPart(event->text());
        return;
    }
    event->ignore();
}

bool MapView::walkByKey(int key) {
    switch (key) {
        case Qt::Key_Right:
            walk(1);
            return true;
        case Qt::Key_Left:
            walk(-1);
            return true;
        case Qt::Key_Up:
        case Qt::Key_Down: {
            const PartId next =
                isDrawn(m_selected) ? m_scene.neighbourOf(m_selected, {0.0, key == Qt::Key_Up ? -1.0 : 1.0}) : PartId{};
            if (next.empty()) {
                walk(1);
            } else if (next != m_selected) {
                emit partChosen(next);
            }
            return true;
        }
        default:
            return false;
    }
}

/// Ctrl+Right goes to the next weaker owner of the cursor's frequency, Ctrl+Left to the next stronger one.
bool MapView::walkOwners(const QKeyEvent& event) {
    const bool isForward = event.key() == Qt::Key_Right;
    if (m_owners.empty() || !(event.modifiers() & Qt::ControlModifier) || (!isForward && event.key() != Qt::Key_Left)) {
        return false;
    }
    const auto current = std::find(m_owners.begin(), m_owners.end(), m_selected);
    if (current == m_owners.end()) {
        emit partChosen(m_owners.front());
    } else if (isForward && current + 1 != m_owners.end()) {
        emit partChosen(*(current + 1));
    } else if (!isForward && current != m_owners.begin()) {
        emit partChosen(*(current - 1));
    }
    return true;
}

void MapView::walk(int steps) {
    if (m_parts.empty()) {
        return;
    }
    const auto current =
        std::find_if(m_parts.begin(), m_parts.end(), [this](const SpokenPart& part) { return part.id == m_selected; });
    if (current == m_parts.end()) {
        emit partChosen(m_parts.front().id);
        return;
    }
    const auto last = static_cast<int>(m_parts.size()) - 1;
    const auto index = std::clamp(static_cast<int>(current - m_parts.begin()) + steps, 0, last);
    emit partChosen(m_parts[static_cast<std::size_t>(index)].id);
}

void MapView::setSelected(const PartId& part) {
    if (m_selected == part) {
        return;
    }
    m_selected = part;
    announceSelected(*this);
}

void MapView::setOwners(std::vector<PartId> order, const QString& words) {
    m_owners = std::move(order);
    if (accessibleDescription() != words) {
        setAccessibleDescription(words);
        QAccessibleEvent said(this, QAccessible::DescriptionChanged);
        QAccessible::updateAccessibility(&said);
    }
}

void MapView::setParts(std::vector<SpokenPart> parts) {
    if (m_parts != parts) {
        m_parts = std::move(parts);
        forgetSpokenParts(*this);
    }
}

QRect MapView::screenBox(const PartId& part) const {
    const DrawnPart* drawn = m_scene.layout().part(part);
    if (!drawn) {
        return {};
    }
    const QRect box = mapFromScene(drawn->body).boundingRect();
    return {viewport()->mapToGlobal(box.topLeft()), box.size()};
}

bool MapView::isDrawn(const PartId& part) const {
    return m_scene.layout().part(part) != nullptr;
}

std::optional<PartId> MapView::partUnder(const QPoint& position) const {
    return m_scene.partAt(mapToScene(position));
}

void MapView::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    const std::optional<PartId> part = partUnder(event->pos());
    if (part && (event->button() == Qt::LeftButton || event->button() == Qt::RightButton)) {
        emit partChosen(*part);
    }
    event->accept();
}

void MapView::mouseMoveEvent(QMouseEvent* event) {
    m_scene.pointAt(mapToScene(event->pos()));
    viewport()->setCursor(partUnder(event->pos()) ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

void MapView::leaveEvent(QEvent* event) {
    m_scene.pointAway();
    QGraphicsView::leaveEvent(event);
}

void MapView::wheelEvent(QWheelEvent* event) {
    event->accept();
    const std::optional<PartId> part = partUnder(event->position().toPoint());
    if (!part) {
        m_wheelRest = 0;
        return;
    }
    // Alt turns the wheel sideways on some desktops.
    const QPoint angle = event->angleDelta();
    m_wheelRest += angle.y() != 0 ? angle.y() : angle.x();
    const int steps = m_wheelRest / wheelStep;
    if (steps == 0) {
        return;
    }
    m_wheelRest -= steps * wheelStep;
    emit partChosen(*part);
    emit valueStepped(*part, steps, event->modifiers());
}

void MapView::contextMenuEvent(QContextMenuEvent* event) {
    const bool byKey = event->reason() == QContextMenuEvent::Keyboard;
    const std::optional<PartId> part = byKey ? std::optional<PartId>(m_selected) : partUnder(event->pos());
    const DrawnPart* drawn = part ? m_scene.layout().part(*part) : nullptr;
    if (!drawn) {
        return;
    }
    const QPoint place = byKey ? viewport()->mapToGlobal(mapFromScene(drawn->body.center())) : event->globalPos();
    emit partChosen(*part);
    emit contextMenuAsked(*part, place);
    event->accept();
}

void MapView::resizeEvent(QResizeEvent* event) {
    QGraphicsView::resizeEvent(event);
    fitSheet();
}

void MapView::focusInEvent(QFocusEvent* event) {
    QGraphicsView::focusInEvent(event);
    // Keys need a part to act on: coming in by Tab takes the first one.
    if (event->reason() == Qt::TabFocusReason && !isDrawn(m_selected)) {
        walk(1);
    }
}

}  // namespace ohmwright
