// The keys of the hand that draws.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_hand.h"
#include "core/drawing/relocate.h"

#include <QKeyEvent>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr int farStep = 5;
constexpr int longestSpan = 12;

std::optional<GridPoint> stepOf(int key) {
    switch (key) {
        case Qt::Key_Left:
            return GridPoint{-1, 0};
        case Qt::Key_Right:
            return GridPoint{1, 0};
        case Qt::Key_Up:
            return GridPoint{0, -1};
        case Qt::Key_Down:
            return GridPoint{0, 1};
        default:
            return std::nullopt;
    }
}

bool isModifier(int key) {
    return key == Qt::Key_Shift || key == Qt::Key_Control || key == Qt::Key_Alt || key == Qt::Key_AltGr ||
           key == Qt::Key_Meta;
}

bool isEnter(int key) {
    return key == Qt::Key_Return || key == Qt::Key_Enter;
}

bool isPlainText(const QKeyEvent& event) {
    const Qt::KeyboardModifiers others = event.modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier);
    return others == Qt::NoModifier && event.text().size() == 1 && event.text().front().isPrint();
}

}  // namespace

bool DrawHand::key(const QKeyEvent& event) {
    if (event.key() == Qt::Key_Escape) {
        return letGo();
    }
    if (isModifier(event.key())) {
        return false;
    }
    m_hasDroppedCorner = false;
    // The keys' box is open as long as Shift and an arrow open it.
    if (m_box && !m_isPointersBox && !((event.modifiers() & Qt::ShiftModifier) && stepOf(event.key()))) {
        m_box.reset();
        emit changed();
    }
    if (m_held) {
        return keyWhileHolding(event) || arrow(event);
    }
    if (m_takesWire && (event.key() == Qt::Key_Space || isEnter(event.key()))) {
        penDown();
        return true;
    }
    if (!m_pen.empty()) {
        return keyWhileDrawing(event) || arrow(event);
    }
    return arrow(event) || keyWhileLooking(event);
}

bool DrawHand::arrow(const QKeyEvent& event) {
    const std::optional<GridPoint> step = stepOf(event.key());
    if (!step) {
        return false;
    }
    const Qt::KeyboardModifiers modifiers = event.modifiers() & ~Qt::KeypadModifier;
    const int size = modifiers & Qt::ControlModifier ? farStep : 1;
    const GridPoint by{step->x * size, step->y * size};
    if (modifiers & Qt::AltModifier) {
        moveByKey(by);
        return true;
    }
    const bool opensBox = (modifiers & Qt::ShiftModifier) != 0 && !m_held && m_pen.empty() && !m_takesWire;
    if (opensBox && !m_box) {
        m_box = m_caret;
        m_isPointersBox = false;
    }
    setCaret({m_caret.x + by.x, m_caret.y + by.y});
    if (opensBox) {
        pickByBox();
    }
    return true;
}

void DrawHand::pickByBox() {
    pick(pickedIn(circuit(), *m_box, m_caret));
    m_lastBox = {*m_box, m_caret};
    emit changed();
}

bool DrawHand::keyWhileHolding(const QKeyEvent& event) {
    if (isEnter(event.key())) {
        putDown();
        return true;
    }
    if (event.key() == Qt::Key_Backspace) {
        m_held->typed.chop(1);
        emit changed();
        return true;
    }
    if (!isPlainText(event)) {
        return false;
    }
    if (event.key() == Qt::Key_Space && m_held->typed.isEmpty()) {
        putDown();
    } else {
        typeOnHeld(event.text().front());
    }
    emit changed();
    return true;
}

/// Point, comma, plus and minus turn, mirror and stretch, unless they can belong to what is typed: a decimal point
/// stands between digits, and signs and names are typed as they are.
void DrawHand::typeOnHeld(QChar typed) {
    Held& held = *m_held;
    const bool isValued = !held.thing->isFlag && !hasModel(held.thing->kind);
    const bool isTyping = !held.typed.isEmpty();
    const bool isPoint = typed == '.' || typed == ',';
    const auto turnOrMirror = [&held](QChar sign) {
        held.turns = sign == '.' ? (held.turns + 1) & 3 : held.turns;
        held.mirrored = held.mirrored != (sign == ',');
    };
    if (isTyping && isValued && !typed.isDigit()) {
        // The point before it was none of the value.
        const QChar last = held.typed.back();
        if (last == '.' || last == ',') {
            held.typed.chop(1);
            turnOrMirror(last);
            if (isPoint) {
                turnOrMirror(typed);
                return;
            }
        }
    }
    if (isPoint && (!isTyping || (!held.thing->isFlag && !(isValued && held.typed.back().isDigit())))) {
        turnOrMirror(typed);
    } else if ((typed == '+' || typed == '-') && (!isTyping || isValued)) {
        // A pot's wiper stands in the middle of an even span.
        const int step = held.thing->kind == PartKind::potentiometer ? 2 : 1;
        held.span = std::clamp(held.span + (typed == '+' ? step : -step), 2, longestSpan);
    } else {
        held.typed += typed;
    }
}

bool DrawHand::keyWhileDrawing(const QKeyEvent& event) {
    switch (event.key()) {
        case Qt::Key_Space:
            penStep(false);
            return true;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            penStep(true);
            return true;
        case Qt::Key_Backspace:
            m_pen.pop_back();
            if (!m_pen.empty()) {
                m_caret = m_pen.back();
            }
            emit changed();
            return true;
        default:
            return isPlainText(event);  // a letter must not drop the wire
    }
}

bool DrawHand::keyWhileLooking(const QKeyEvent& event) {
    const bool withControl = (event.modifiers() & ~Qt::KeypadModifier) == Qt::ControlModifier;
    switch (event.key()) {
        case Qt::Key_Space:
            penDown();
            return true;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            pickAt(m_caret, (event.modifiers() & Qt::ShiftModifier) != 0);
            return true;
        case Qt::Key_Delete:
        case Qt::Key_Backspace:
            erasePicked();
            return true;
        case Qt::Key_A:
            if (withControl) {
                pick(pickedIn(circuit(), {0, 0}, {largestGrid, largestGrid}));
                return true;
            }
            return letter(event);
        case Qt::Key_C:
        case Qt::Key_X:
            if (withControl) {
                copyPicked();
                if (event.key() == Qt::Key_X) {
                    erasePicked();
                }
                return true;
            }
            return letter(event);
        case Qt::Key_V:
            if (withControl) {
                pasteCopy();
                return true;
            }
            return letter(event);
        default:
            return letter(event);
    }
}

bool DrawHand::letter(const QKeyEvent& event) {
    if (!isPlainText(event)) {
        return false;
    }
    const QChar typed = event.text().front();
    if (typed == '.') {
        turnPicked();
    } else if (typed == ',') {
        mirrorPicked();
    } else if (typed.isDigit()) {
        if (m_picked.parts.size() == 1) {
            emit valueTyped(event.text());
        }
    } else if (typed.toUpper() == 'N') {
        emit nameAsked();
    } else if (typed.toUpper() == 'Z') {
        emit stageAsked();
    } else if (typed.toUpper() == 'F') {
        if (m_lastBox) {
            emit frameAsked();
        } else {
            emit refused(tr("Open a box first: Shift with the arrows, or pull one with the pointer."));
        }
    } else if (const DrawThing* thing = thingOfKey(typed.toLatin1())) {
        take(*thing);
    }
    return true;
}

}  // namespace ohmwright
