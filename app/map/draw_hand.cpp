// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_hand.h"

#include "app/document/job_document.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/drawing/zones.h"
#include "core/plan/drawing_edits.h"
#include "core/plan/edits.h"

#include <QKeyEvent>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {
namespace {

constexpr int farStep = 5;
constexpr int longestSpan = 12;
/// How near the pointer must be to a pin to begin a wire there, in grid steps.
constexpr double pinReach = 0.4;

GridPoint nearest(QPointF exact) {
    return {static_cast<int>(std::lround(exact.x())), static_cast<int>(std::lround(exact.y()))};
}

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

bool isPlainText(const QKeyEvent& event) {
    const Qt::KeyboardModifiers others = event.modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier);
    return others == Qt::NoModifier && event.text().size() == 1 && event.text().front().isPrint();
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

QString wordsOf(const Picked& picked, const Circuit& circuit) {
    if (picked.parts.size() == 1 && picked.wires.empty() && picked.flags.empty()) {
        const Part* part = findPart(circuit, picked.parts.front());
        return part ? QString::fromStdString(displayName(*part)) : QString();
    }
    const auto count = picked.parts.size() + picked.wires.size() + picked.flags.size();
    if (count == 1) {
        return picked.wires.empty() ? QString("a sign") : QString("a wire");
    }
    return QString("%1 things").arg(count);
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

DrawHand::DrawHand(JobDocument& document, QObject* parent) : QObject(parent), m_document(document) {
    connect(&document, &JobDocument::jobChanged, this, &DrawHand::followDocument);
}

void DrawHand::setModels(std::vector<Model> models) {
    m_models = std::move(models);
}

const Circuit& DrawHand::circuit() const {
    return m_document.job()->stock;
}

/// What was picked may be gone after an undo.
void DrawHand::followDocument() {
    const Circuit& now = circuit();
    std::erase_if(m_picked.parts, [&now](const PartId& id) { return !findPart(now, id); });
    std::erase_if(m_picked.wires, [&now](std::size_t wire) { return wire >= now.drawing.wires.size(); });
    std::erase_if(m_picked.flags, [&now](std::size_t flag) { return flag >= now.drawing.flags.size(); });
    emit changed();
}

GridPoint DrawHand::dragged() const {
    return m_dragFrom ? GridPoint{m_caret.x - m_dragFrom->x, m_caret.y - m_dragFrom->y} : GridPoint{};
}

std::optional<Part> DrawHand::heldPart() const {
    if (!m_held || m_held->thing->isFlag) {
        return std::nullopt;
    }
    // Half a typed value is no value yet: the picture needs the kind alone.
    const Result<MadeThing> made = makeThing(*m_held->thing, m_held->typed.toStdString(), m_models);
    Part part = made ? made->part : Part();
    part.kind = m_held->thing->kind;
    part.acAmplitude = m_held->thing->key == 'E' ? 1.0 : 0.0;
    part.placement = Placement{m_caret, m_held->turns, m_held->mirrored, m_held->span, LabelSide::automatic};
    return part;
}

QString DrawHand::placeWords() const {
    QString words = QString("column %1, row %2").arg(m_caret.x).arg(m_caret.y);
    for (const Part& part : circuit().parts) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            if (pinPoint(part, pin) == m_caret) {
                const std::string_view name = pinName(part.kind, pin);
                words +=
                    QString(": %1 %2%3")
                        .arg(QString::fromStdString(part.reference), name.size() == 1 ? QString("pin ") : QString(),
                             QString::fromUtf8(name.data(), static_cast<int>(name.size())));
            }
        }
    }
    const NetName net = netAt(circuit(), m_caret);
    if (!net.empty()) {
        words += net == groundNet ? QString(", ground") : QString(", net %1").arg(QString::fromStdString(net));
    }
    return words;
}

QString DrawHand::keyWords() const {
    if (m_held) {
        return "type its value or type · arrows move · . turns · , mirrors · + − length · Enter puts it down · Esc "
               "drops it";
    }
    if (!m_pen.empty()) {
        return "arrows lead the wire · Space sets a corner or joins · Enter ends · Backspace one corner back · Esc "
               "drops it";
    }
    if (!m_picked.isEmpty()) {
        return "type a value · Alt + arrows move · . turns · , mirrors · Del takes off · Ctrl C copies · Esc lets go";
    }
    return "a letter takes a part · Space begins a wire · Enter picks · Shift + arrows open a box · N names the net";
}

void DrawHand::setCaret(GridPoint point) {
    const GridPoint held{std::clamp(point.x, 0, largestGrid), std::clamp(point.y, 0, largestGrid)};
    if (held != m_caret) {
        m_caret = held;
        emit changed();
    }
}

void DrawHand::take(const DrawThing& thing) {
    letGo();
    Held held;
    held.thing = &thing;
    held.turns = thing.turns;
    held.span = thing.kind == PartKind::potentiometer ? 4 : 3;
    m_held = held;
    m_picked = {};
    emit changed();
}

void DrawHand::penDown() {
    m_held.reset();
    m_picked = {};
    m_pen = {m_caret};
    emit changed();
}

void DrawHand::pick(const Picked& picked) {
    if (picked != m_picked) {
        m_picked = picked;
        emit changed();
    }
}

bool DrawHand::letGo() {
    const bool hadWork = m_held || !m_pen.empty() || m_box || m_dragFrom;
    const bool hadPicked = !m_picked.isEmpty();
    m_held.reset();
    m_pen.clear();
    m_dragFrom.reset();
    m_box.reset();
    if (!hadWork) {
        m_picked = {};
    }
    if (hadWork || hadPicked) {
        emit changed();
    }
    return hadWork || hadPicked;
}

// --- edits ---------------------------------------------------------------------------------------------------------

bool DrawHand::edit(const EditResult& result, const QString& words) {
    const bool taken = m_document.edit(withDrawing(*m_document.job(), result), words);
    if (taken && result) {
        m_picked = result->picked;
        emit changed();
    }
    return taken;
}

void DrawHand::putDown() {
    const Held held = *m_held;
    const QString typed =
        held.typed.isEmpty() && m_lastTyped.contains(held.thing->key) ? m_lastTyped.at(held.thing->key) : held.typed;
    const Result<MadeThing> made = makeThing(*held.thing, typed.toStdString(), m_models);
    if (!made) {
        emit said(QString::fromStdString(made.error().message));
        return;
    }
    bool taken = false;
    if (held.thing->isFlag) {
        Flag flag = made->flag;
        flag.at = m_caret;
        taken = edit(placeFlag(circuit(), flag), QString("Put down %1").arg(held.thing->name));
    } else {
        // Not one that a mod has for a part it fits.
        Part part = made->part;
        part.reference = nextFreeReference(*m_document.job(), part.kind);
        const Placement placement{m_caret, held.turns, held.mirrored, held.span, LabelSide::automatic};
        const std::optional<Model> type =
            made->part.model.empty() ? std::optional<Model>() : std::optional<Model>(made->type);
        taken = edit(placePart(circuit(), part, placement, type), QString("Put down %1").arg(held.thing->name));
    }
    if (taken) {
        m_lastTyped[held.thing->key] = typed;
        m_held.reset();
        emit changed();
    }
}

/// A corner at the caret, or the wire's end where there is something to join.
void DrawHand::penStep(bool ends) {
    if (m_pen.empty()) {
        penDown();
        return;
    }
    if (m_caret == m_pen.back()) {
        if (ends && m_pen.size() > 1) {
            finishWire();
        }
        return;
    }
    m_pen.push_back(m_caret);
    if (ends || hasEndAt(circuit(), m_caret)) {
        finishWire();
    } else {
        emit changed();
    }
}

void DrawHand::finishWire() {
    const std::vector<GridPoint> points = std::exchange(m_pen, {});
    if (edit(drawWire(circuit(), points), "Draw a wire")) {
        m_picked = {};
    }
    emit changed();
}

void DrawHand::turnPicked() {
    if (!m_picked.parts.empty()) {
        edit(turn(circuit(), m_picked), QString("Turn %1").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::mirrorPicked() {
    if (!m_picked.parts.empty()) {
        edit(mirror(circuit(), m_picked), QString("Mirror %1").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::movePicked(GridPoint by) {
    if (!m_picked.isEmpty() && by != GridPoint()) {
        edit(move(circuit(), m_picked, by), QString("Move %1").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::erasePicked() {
    if (!m_picked.isEmpty()) {
        edit(erase(circuit(), m_picked), QString("Take off %1").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::copyPicked() {
    if (!m_picked.isEmpty()) {
        m_copy = copyOf(circuit(), withInnerWires(circuit(), m_picked));
        emit said(QString("Copied %1: Ctrl V puts it down at the caret.").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::pasteCopy() {
    if (m_copy.parts.empty() && m_copy.drawing.wires.empty() && m_copy.drawing.flags.empty()) {
        emit said("Nothing was copied yet: pick something and press Ctrl C.");
        return;
    }
    // The copy's upper left corner comes to the caret.
    GridPoint least{largestGrid, largestGrid};
    const auto hold = [&least](GridPoint point) { least = {std::min(least.x, point.x), std::min(least.y, point.y)}; };
    for (const Part& part : m_copy.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            hold(pinPoint(part, pin));
        }
    }
    for (const Wire& wire : m_copy.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), hold);
    }
    for (const Flag& flag : m_copy.drawing.flags) {
        hold(flag.at);
    }
    edit(paste(circuit(), m_copy, {m_caret.x - least.x, m_caret.y - least.y}), "Put down a copy");
}

// --- keys ----------------------------------------------------------------------------------------------------------

bool DrawHand::key(const QKeyEvent& event) {
    if (event.key() == Qt::Key_Escape) {
        return letGo();
    }
    if (m_held) {
        return keyWhileHolding(event) || arrow(event);
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
        movePicked(by);
        return true;
    }
    const bool opensBox = (modifiers & Qt::ShiftModifier) != 0 && !m_held && m_pen.empty();
    if (opensBox && !m_box) {
        m_box = m_caret;
    } else if (!opensBox) {
        m_box.reset();
    }
    setCaret({m_caret.x + by.x, m_caret.y + by.y});
    if (m_box) {
        m_lastBox = {*m_box, m_caret};
        pick(pickedIn(circuit(), *m_box, m_caret));
    }
    return true;
}

bool DrawHand::keyWhileHolding(const QKeyEvent& event) {
    Held& held = *m_held;
    switch (event.key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            putDown();
            return true;
        case Qt::Key_Backspace:
            held.typed.chop(1);
            emit changed();
            return true;
        default:
            break;
    }
    if (!isPlainText(event)) {
        return false;
    }
    const QChar typed = event.text().front();
    const bool isEmpty = held.typed.isEmpty();
    if (isEmpty && typed == ' ') {
        putDown();
    } else if (isEmpty && typed == '.') {
        held.turns = (held.turns + 1) & 3;
    } else if (isEmpty && typed == ',') {
        held.mirrored = !held.mirrored;
    } else if (isEmpty && (typed == '+' || typed == '-')) {
        // A pot's wiper stands in the middle of an even span.
        const int step = held.thing->kind == PartKind::potentiometer ? 2 : 1;
        held.span = std::clamp(held.span + (typed == '+' ? step : -step), 2, longestSpan);
    } else {
        held.typed += typed;
    }
    emit changed();
    return true;
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
    const bool withControl = (event.modifiers() & Qt::ControlModifier) != 0;
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
        emit frameAsked();
    } else if (const DrawThing* thing = thingOfKey(typed.toLatin1())) {
        take(*thing);
    }
    return true;
}

// --- pointer -------------------------------------------------------------------------------------------------------

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
