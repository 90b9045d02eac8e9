// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_hand.h"

#include "app/document/job_document.h"
#include "app/look/said_text.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/plan/drawing_edits.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

DrawHand::DrawHand(JobDocument& document, QObject* parent)
    : QObject(parent), m_document(document), m_drawing(circuit().drawing) {
    connect(&document, &JobDocument::jobChanged, this, &DrawHand::followDocument);
}

void DrawHand::setModels(std::vector<Model> models) {
    m_models = std::move(models);
}

const Circuit& DrawHand::circuit() const {
    return m_document.job()->stock;
}

/// What was picked may be gone after an undo, and another wire may have its index.
void DrawHand::followDocument(JobAspect aspect) {
    const bool isSameDrawing = std::exchange(m_drawing, circuit().drawing) == circuit().drawing;
    if (m_isOwnEdit) {
        return;  // takeEdit says what is picked then
    }
    if (aspect == JobAspect::everything) {
        dropWork();
        m_picked = {};
        m_caret = GridPoint{4, 4};
        emit replaced();
    } else if (!isSameDrawing) {
        m_picked.wires.clear();
        m_picked.flags.clear();
        m_dragFrom.reset();
        m_box.reset();
    }
    m_lastBox.reset();
    std::erase_if(m_picked.parts, [this](const PartId& id) { return !findPart(circuit(), id); });
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
    const Result<MadeThing> made = makeThing(*m_held->thing, m_held->valueToCome().toStdString(), m_models);
    Part part = made ? made->part : Part();
    part.kind = m_held->thing->kind;
    part.acAmplitude = m_held->thing->isSignalSource() ? 1.0 : 0.0;
    part.placement = Placement{m_caret, m_held->turns, m_held->mirrored, m_held->span, LabelSide::automatic};
    return part;
}

// --- words ---------------------------------------------------------------------------------------------------------

QString DrawHand::nameOf(const DrawThing& thing) {
    return tr(thing.name);
}

QString DrawHand::heldWords() const {
    if (!m_held) {
        return {};
    }
    const QString value = m_held->valueToCome();
    return value.isEmpty() ? nameOf(*m_held->thing) : tr("%1 %2").arg(nameOf(*m_held->thing), value);
}

QString DrawHand::placeWords() const {
    const NetName name = netAt(circuit(), m_caret);
    const QString net = name.empty()        ? QString()
                        : name == groundNet ? tr("ground")
                                            : tr("net %1").arg(QString::fromStdString(name));
    QString pin;
    if (const std::optional<DrawnPin> found = pinAt(circuit(), m_caret)) {
        const QString word = saidText(pinName(found->part->kind, found->pin));
        pin = (word.size() == 1 ? tr("%1 pin %2") : tr("%1 %2"))
                  .arg(QString::fromStdString(found->part->reference), word);
    }
    if (pin.isEmpty() && net.isEmpty()) {
        return tr("column %1, row %2").arg(m_caret.x).arg(m_caret.y);
    }
    if (pin.isEmpty() || net.isEmpty()) {
        return tr("column %1, row %2: %3").arg(m_caret.x).arg(m_caret.y).arg(pin + net);
    }
    return tr("column %1, row %2: %3, %4").arg(m_caret.x).arg(m_caret.y).arg(pin, net);
}

QString DrawHand::keyWords() const {
    if (m_held) {
        return tr(
            "type its value or type · arrows or pointer move it · . turns · , mirrors · + − length · Enter or "
            "click puts it down · Esc drops it");
    }
    if (m_takesWire) {
        return tr("click or Enter begins the wire, best on a pin · arrows move the cross · Esc drops it");
    }
    if (!m_pen.empty()) {
        return tr(
            "arrows or pointer lead the wire · Space or click sets a corner or joins · Enter or double click "
            "ends · Backspace one corner back · Esc drops it");
    }
    if (!m_picked.isEmpty()) {
        return tr(
            "type a value · pull or Alt + arrows move · . turns · , mirrors · Del takes off · Ctrl C copies · "
            "Esc lets go");
    }
    return tr(
        "a letter takes a part · click a pin or Space: a wire · click or Enter picks · pull or Shift + arrows "
        "open a box · N names the net · Home shows all");
}

// --- what is in the hand -------------------------------------------------------------------------------------------

void DrawHand::setCaret(GridPoint point) {
    const GridPoint held{std::clamp(point.x, 0, largestGrid), std::clamp(point.y, 0, largestGrid)};
    if (held != m_caret) {
        m_caret = held;
        emit changed();
    }
}

void DrawHand::take(const DrawThing& thing) {
    dropWork();
    m_picked = {};
    m_lastBox.reset();
    Held held;
    held.thing = &thing;
    held.turns = thing.turns;
    held.span = thing.kind == PartKind::potentiometer ? 4 : 3;
    const auto last = m_lastTyped.find(thing.key);
    held.usual = last == m_lastTyped.end() ? QString::fromUtf8(thing.text) : last->second;
    if (held.usual.isEmpty() && !thing.isFlag && hasModel(thing.kind)) {
        // The type that comes without a word is the first of its kind.
        const Result<Model> first = typeNamed({}, thing.kind, m_models);
        held.usual = first ? QString::fromStdString(first->name) : QString();
    }
    m_held = held;
    emit changed();
}

void DrawHand::takeWire() {
    dropWork();
    m_picked = {};
    m_lastBox.reset();
    m_takesWire = true;
    emit changed();
}

void DrawHand::penDown() {
    dropWork();
    m_picked = {};
    m_lastBox.reset();
    m_pen = {m_caret};
    emit changed();
}

void DrawHand::pick(const Picked& picked) {
    m_lastBox.reset();
    if (picked != m_picked) {
        m_picked = picked;
        emit changed();
    }
}

bool DrawHand::letGo() {
    if (m_pen.size() > 1 && !m_hasDroppedCorner) {
        m_pen.pop_back();
        m_hasDroppedCorner = true;
        emit changed();
        return true;
    }
    const bool hadWork = m_held || m_takesWire || !m_pen.empty() || m_box || m_dragFrom;
    const bool hadPicked = !m_picked.isEmpty();
    dropWork();
    if (!hadWork) {
        m_picked = {};
        m_lastBox.reset();
    }
    if (hadWork || hadPicked) {
        emit changed();
    }
    return hadWork || hadPicked;
}

void DrawHand::dropWork() {
    m_held.reset();
    m_pen.clear();
    m_takesWire = false;
    m_hasDroppedCorner = false;
    m_dragFrom.reset();
    m_box.reset();
}

}  // namespace ohmwright
