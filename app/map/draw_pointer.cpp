// The pointer of the hand that draws.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_hand.h"
#include "core/drawing/outline.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

/// How near the pointer must be to a pin to begin a wire there, in grid steps.
constexpr double pinReach = 0.4;

GridPoint nearest(QPointF exact) {
    return {static_cast<int>(std::lround(exact.x())), static_cast<int>(std::lround(exact.y()))};
}

template <class Entry>
void addMissing(std::vector<Entry>& entries, const std::vector<Entry>& more) {
    for (const Entry& entry : more) {
        if (std::find(entries.begin(), entries.end(), entry) == entries.end()) {
            entries.push_back(entry);
        }
    }
}

Picked both(const Picked& some, const Picked& more) {
    Picked all = some;
    addMissing(all.parts, more.parts);
    addMissing(all.wires, more.wires);
    addMissing(all.flags, more.flags);
    return all;
}

}  // namespace

Picked DrawHand::at(QPointF exact) const {
    Picked picked;
    const Circuit& drawn = circuit();
    constexpr double margin = 0.15;
    for (const Part& part : drawn.parts) {
        if (part.placement) {
            const GridBox body = bodyBox(part);
            if (exact.x() > body.left - margin && exact.x() < body.right + margin && exact.y() > body.top - margin &&
                exact.y() < body.bottom + margin) {
                picked.parts = {part.id};
                return picked;
            }
        }
    }
    const GridPoint point = nearest(exact);
    for (std::size_t i = 0; i < drawn.drawing.flags.size(); ++i) {
        const Flag& flag = drawn.drawing.flags[i];
        const bool hangs = flag.kind == FlagKind::ground;
        const double y = exact.y() - flag.at.y;
        // A ground sign hangs below its point, a supply sign stands above it.
        const bool isInside = hangs ? y > 0.2 && y < 1.2 : y < -0.2 && y > -1.2;
        if (std::abs(exact.x() - flag.at.x) < 0.6 &&
            (isInside || (flag.kind == FlagKind::terminal && flag.at == point))) {
            picked.flags = {i};
            return picked;
        }
    }
    for (std::size_t i = 0; i < drawn.drawing.wires.size(); ++i) {
        const std::vector<GridPoint>& corners = drawn.drawing.wires[i].corners;
        for (std::size_t j = 1; j < corners.size(); ++j) {
            const double left = std::min(corners[j - 1].x, corners[j].x) - 0.3;
            const double right = std::max(corners[j - 1].x, corners[j].x) + 0.3;
            const double top = std::min(corners[j - 1].y, corners[j].y) - 0.3;
            const double bottom = std::max(corners[j - 1].y, corners[j].y) + 0.3;
            if (exact.x() > left && exact.x() < right && exact.y() > top && exact.y() < bottom) {
                picked.wires = {i};
                return picked;
            }
        }
    }
    return picked;
}

void DrawHand::pickAt(GridPoint point, bool adds) {
    // On a pin its part, whatever wire ends there; under a sign the sign.
    Picked found;
    if (const std::optional<DrawnPin> pin = pinAt(circuit(), point)) {
        found.parts = {pin->part->id};
    } else {
        found = at(QPointF(point.x, point.y));
    }
    for (std::size_t i = 0; i < circuit().drawing.flags.size() && found.isEmpty(); ++i) {
        if (circuit().drawing.flags[i].at == point) {
            found.flags = {i};
        }
    }
    pick(adds ? both(m_picked, found) : found);
}

void DrawHand::press(QPointF exact, Qt::KeyboardModifiers modifiers) {
    m_pointer = nearest(exact);
    m_box.reset();
    m_hasJustJoined = false;
    setCaret(*m_pointer);
    if (m_held) {
        const DrawThing* thing = m_held->thing;
        putDown();
        if (!m_held && (modifiers & Qt::ShiftModifier)) {
            take(*thing);
        }
        return;
    }
    if (!m_pen.empty()) {
        penStep(false);
        return;
    }
    const bool isOnPin =
        std::hypot(exact.x() - m_caret.x, exact.y() - m_caret.y) < pinReach && pinAt(circuit(), m_caret).has_value();
    if (m_takesWire || (isOnPin && modifiers == Qt::NoModifier)) {
        penDown();
        return;
    }
    const Picked found = at(exact);
    if (found.isEmpty()) {
        pick({});
        m_box = m_caret;
        m_isPointersBox = true;
        return;
    }
    if (modifiers & Qt::ShiftModifier) {
        pick(both(m_picked, found));
    } else if (both(m_picked, found) != m_picked) {
        pick(found);
    }
    m_dragFrom = m_caret;
    emit changed();
}

void DrawHand::pressTwice(QPointF exact, Qt::KeyboardModifiers modifiers) {
    if (!m_pen.empty()) {
        setCaret(nearest(exact));
        penStep(true);
    } else if (!m_hasJustJoined) {
        press(exact, modifiers);
    }
}

/// Whether what is in the hand goes where the pointer goes.
bool DrawHand::isLed() const {
    return m_held || !m_pen.empty() || m_dragFrom || (m_box && m_isPointersBox);
}

void DrawHand::moveTo(QPointF exact) {
    const GridPoint point = nearest(exact);
    if (m_pointer == point) {
        return;  // a hand that trembles on the mouse must not take the caret from the keys
    }
    m_pointer = point;
    emit pointed();
    if (!isLed()) {
        return;
    }
    setCaret(point);
    if (m_box && m_isPointersBox) {
        pickByBox();
    }
}

void DrawHand::pointAway() {
    m_pointer.reset();
    emit pointed();
}

void DrawHand::release() {
    // A wire that is pulled from pin to pin ends where the button is let go.
    if (m_pen.size() == 1 && m_caret != m_pen.front()) {
        penStep(false);
        return;
    }
    const GridPoint by = dragged();
    m_dragFrom.reset();
    if (m_isPointersBox) {
        m_box.reset();
    }
    movePicked(by);
    // Also after a refusal: what was dragged is back where it stands.
    emit changed();
}

}  // namespace ohmwright
