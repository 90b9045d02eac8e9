// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_hand.h"

#include "app/document/job_document.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/plan/drawing_edits.h"
#include "core/plan/edits.h"

#include <algorithm>
#include <utility>

namespace ohmwright {
namespace {

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

}  // namespace ohmwright
