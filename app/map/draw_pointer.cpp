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

bool isPin(const Circuit& circuit, GridPoint point) {
    return std::any_of(circuit.parts.begin(), circuit.parts.end(), [point](const Part& part) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            if (pinPoint(part, pin) == point) {
                return true;
            }
        }
        return false;
    });
}

template <class Entry>
void addMissing(std::vector<Entry>& entries, const std::vector<Entry>& more) {
    for (const Entry& entry : more) {
        if (std::find(entries.begin(), entries.end(), entry) == entries.end()) {
            entries.push_back(entry);
        }
    }
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
    Picked found = at(QPointF(point.x, point.y));
    if (found.isEmpty()) {
        // On a pin: its part; under a sign: the sign.
        for (const Part& part : circuit().parts) {
            const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
            for (int pin = 0; pin < drawn; ++pin) {
                if (pinPoint(part, pin) == point && found.isEmpty()) {
                    found.parts = {part.id};
                }
            }
        }
    }
    for (std::size_t i = 0; i < circuit().drawing.flags.size() && found.isEmpty(); ++i) {
        if (circuit().drawing.flags[i].at == point) {
            found.flags = {i};
        }
    }
    if (adds) {
        Picked all = m_picked;
        addMissing(all.parts, found.parts);
        addMissing(all.wires, found.wires);
        addMissing(all.flags, found.flags);
        found = all;
    }
    pick(found);
}

void DrawHand::press(QPointF exact, Qt::KeyboardModifiers modifiers) {
    setCaret(nearest(exact));
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
        std::hypot(exact.x() - m_caret.x, exact.y() - m_caret.y) < pinReach && isPin(circuit(), m_caret);
    if (isOnPin && modifiers == Qt::NoModifier) {
        penDown();
        return;
    }
    const Picked found = at(exact);
    if (found.isEmpty()) {
        m_box = m_caret;
        pick({});
        return;
    }
    const auto holds = [](const auto& all, const auto& some) {
        return std::all_of(some.begin(), some.end(),
                           [&all](const auto& one) { return std::find(all.begin(), all.end(), one) != all.end(); });
    };
    const bool isPicked =
        holds(m_picked.parts, found.parts) && holds(m_picked.wires, found.wires) && holds(m_picked.flags, found.flags);
    if (modifiers & Qt::ShiftModifier) {
        Picked all = m_picked;
        addMissing(all.parts, found.parts);
        addMissing(all.wires, found.wires);
        addMissing(all.flags, found.flags);
        pick(all);
    } else if (!isPicked) {
        pick(found);
    }
    m_dragFrom = m_caret;
    emit changed();
}

void DrawHand::moveTo(QPointF exact) {
    setCaret(nearest(exact));
    if (m_box) {
        m_lastBox = {*m_box, m_caret};
        pick(pickedIn(circuit(), *m_box, m_caret));
    }
}

void DrawHand::release() {
    // A wire that is pulled from pin to pin ends where the button is let go.
    if (m_pen.size() == 1 && m_caret != m_pen.front()) {
        penStep(false);
        return;
    }
    const GridPoint by = dragged();
    const bool wasBox = m_box.has_value();
    m_dragFrom.reset();
    m_box.reset();
    movePicked(by);
    if (wasBox || by == GridPoint()) {
        emit changed();
    }
}

}  // namespace ohmwright
