// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_view.h"

#include "app/look/spoken_events.h"
#include "app/look/theme.h"
#include "app/map/drag_note.h"
#include "app/map/map_accessible.h"
#include "app/map/map_scene.h"
#include "app/map/value_keys.h"

#include <QAccessible>
#include <QContextMenuEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace ohmwright {
namespace {

/// Symbols of a small unit may be this much larger than on the look's boards.
constexpr double largestScale = 2.0;
/// Words grow more slowly than symbols do.
constexpr double largestTextGrowth = 1.25;
/// A step of an ordinary wheel: 15 degrees in eighths.
constexpr int wheelStep = 120;
constexpr double largestLabelScale = 1.4;
constexpr double largestZoom = 5.0;
/// A press that moves by less is a press.
constexpr int dragFrom = 5;
/// So far the pointer goes for ten times the value.
constexpr double pixelsPerDecade = 240.0;

}  // namespace

MapView::MapView(MapScene& scene, QWidget* parent)
    : SheetView(scene, parent), m_scene(scene), m_note(new DragNote(this)) {
    // First of all: the next setter that is announced makes and keeps the interface of whoever is asked then.
    installMapAccessibility();
    setViewportUpdateMode(QGraphicsView::SmartViewportUpdate);
    setAccessibleName(tr("Stage map"));
}

QRectF MapView::whole() const {
    return m_scene.layout().sheet.isEmpty() ? QRectF() : m_scene.layout().extent;
}

double MapView::largestFit() const {
    return largestScale;
}

std::pair<double, double> MapView::zoomLimits() const {
    return {fitScale(), std::max(largestZoom, fitScale())};
}

/// Words keep the text setting, and stay readable when the drawing is shown smaller than it is. Brought nearer than it
/// was fitted, the drawing takes its words with it: that is why it was brought nearer.
double MapView::labelScaleAt(double scale) const {
    const double worded = showsWhole() ? scale : std::max(fitScale(), std::min(scale, largestTextGrowth));
    const double setting = Theme::current().textScale();
    const double readable = std::min(1.0 / worded, largestLabelScale);
    return worded > largestTextGrowth ? setting * largestTextGrowth / worded : std::max(setting, readable);
}

void MapView::showDragWords(const QString& words, bool forAMoment) {
    m_note->say(words, viewport()->mapFromGlobal(QCursor::pos()), forAMoment);
    describe(words);
}

bool MapView::event(QEvent* event) {
    // Digits belong to the value here, whatever else they call elsewhere in the window.
    if (event->type() == QEvent::ShortcutOverride && !m_selected.empty() &&
        isDigitKey(*static_cast<QKeyEvent*>(event))) {
        event->accept();
        return true;
    }
    return SheetView::event(event);
}

void MapView::keyPressEvent(QKeyEvent* event) {
    if (moveByKey(*event) || walkOwners(*event) || walkByKey(event->key())) {
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

/// The sheet itself; Space turns the pointer into a hand.
bool MapView::moveByKey(const QKeyEvent& event) {
    if (event.key() != Qt::Key_Space) {
        return moveSheetByKey(event);
    }
    m_isSpaceDown = true;
    viewport()->setCursor(Qt::OpenHandCursor);
    return true;
}

void MapView::keyReleaseEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
        m_isSpaceDown = false;
        viewport()->setCursor(Qt::ArrowCursor);
    }
    SheetView::keyReleaseEvent(event);
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
    if (const DrawnPart* drawn = m_scene.layout().part(part); drawn && !showsWhole()) {
        constexpr int room = 2 * space::mapPitch;
        ensureVisible(drawn->body, room, room);
    }
    announceSelected(*this);
}

void MapView::setOwners(std::vector<PartId> order, const QString& words) {
    m_owners = std::move(order);
    // What a drag has said stays until there is something else to say.
    if (words != m_words) {
        m_words = words;
        describe(words);
    }
}

void MapView::describe(const QString& words) {
    setAccessibleDescription(words);
    QAccessibleEvent said(this, QAccessible::DescriptionChanged);
    tellListeners(said);
}

void MapView::setParts(std::vector<SpokenPart> parts) {
    if (m_parts == parts) {
        return;
    }
    const std::vector<SpokenPart> before = std::exchange(m_parts, std::move(parts));
    const auto isSame = [](const SpokenPart& a, const SpokenPart& b) { return a.id == b.id; };
    if (std::equal(before.begin(), before.end(), m_parts.begin(), m_parts.end(), isSame)) {
        announceChanges(*this, before);
    } else {
        forgetSpokenParts(*this);
    }
}

void MapView::choosePart(const PartId& part) {
    setFocus(Qt::OtherFocusReason);
    emit partChosen(part);
}

void MapView::stepPart(const PartId& part, int steps) {
    emit partChosen(part);
    emit valueStepped(part, steps, Qt::NoModifier);
}

void MapView::openMenuOf(const PartId& part) {
    emit partChosen(part);
    emit contextMenuAsked(part, screenBox(part).center());
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
    event->accept();
    const bool isLeft = event->button() == Qt::LeftButton;
    const std::optional<PartId> part = partUnder(event->pos());
    if (event->button() == Qt::MiddleButton || (isLeft && (m_isSpaceDown || !part))) {
        grabSheet(event->pos());
        return;
    }
    if (part && (isLeft || event->button() == Qt::RightButton)) {
        emit partChosen(*part);
    }
    if (part && isLeft) {
        m_press = Press{*part, event->pos()};
    }
}

void MapView::mouseMoveEvent(QMouseEvent* event) {
    if (dragSheet(event->pos()) || dragValue(*event)) {
        return;
    }
    m_scene.pointAt(mapToScene(event->pos()));
    if (!m_isSpaceDown) {
        viewport()->setCursor(partUnder(event->pos()) ? Qt::PointingHandCursor : Qt::ArrowCursor);
    }
}

bool MapView::dragValue(const QMouseEvent& event) {
    if (!m_press) {
        return false;
    }
    const int up = m_press->at.y() - event.pos().y();
    if (!m_press->isDrag && std::abs(up) >= dragFrom) {
        m_press->isDrag = true;
        m_scene.pointAway();
        viewport()->setCursor(Qt::SizeVerCursor);
        emit valueDragBegan(m_press->part);
    }
    if (m_press->isDrag) {
        emit valueDragged(up / pixelsPerDecade);
    }
    return true;
}

void MapView::mouseReleaseEvent(QMouseEvent* event) {
    if (releaseSheet() || event->button() != Qt::LeftButton || !m_press) {
        return;
    }
    const bool wasDrag = m_press->isDrag;
    m_press.reset();
    if (wasDrag) {
        viewport()->setCursor(Qt::ArrowCursor);
        emit valueDropped(event->modifiers());
    }
}

void MapView::leaveEvent(QEvent* event) {
    m_scene.pointAway();
    SheetView::leaveEvent(event);
}

void MapView::wheelEvent(QWheelEvent* event) {
    event->accept();
    const std::optional<PartId> part = partUnder(event->position().toPoint());
    if (!part) {
        m_wheelRest = 0;
        if (event->modifiers() & Qt::ControlModifier) {
            zoomByWheel(*event);
        }
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
    SheetView::resizeEvent(event);
    follow();
}

void MapView::focusInEvent(QFocusEvent* event) {
    SheetView::focusInEvent(event);
    // Keys need a part to act on: coming in by Tab takes the first one.
    if (event->reason() == Qt::TabFocusReason && !isDrawn(m_selected)) {
        walk(1);
    } else {
        announceSelected(*this);
    }
}

}  // namespace ohmwright
