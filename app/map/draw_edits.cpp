// The edits that the hand makes.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/job_document.h"
#include "app/map/draw_hand.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/plan/drawing_edits.h"
#include "core/plan/edits.h"

#include <QClipboard>
#include <QGuiApplication>

#include <algorithm>

namespace ohmwright {
namespace {

QString wordsOf(const Picked& picked, const Circuit& circuit) {
    if (picked.parts.size() == 1 && picked.wires.empty() && picked.flags.empty()) {
        const Part* part = findPart(circuit, picked.parts.front());
        return part ? QString::fromStdString(displayName(*part)) : QString();
    }
    const auto count = picked.parts.size() + picked.wires.size() + picked.flags.size();
    if (count == 1) {
        return picked.wires.empty() ? DrawHand::tr("a sign") : DrawHand::tr("a wire");
    }
    return DrawHand::tr("%1 things").arg(count);
}

/// The upper left corner of what a copy covers.
GridPoint cornerOf(const Circuit& copy) {
    GridPoint least{largestGrid, largestGrid};
    const auto hold = [&least](GridPoint point) { least = {std::min(least.x, point.x), std::min(least.y, point.y)}; };
    for (const Part& part : copy.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            hold(pinPoint(part, pin));
        }
    }
    for (const Wire& wire : copy.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), hold);
    }
    for (const Flag& flag : copy.drawing.flags) {
        hold(flag.at);
    }
    return least;
}

}  // namespace

bool DrawHand::edit(const EditResult& result, const QString& words) {
    return takeEdit(result, words, JobAspect::electrical);
}

bool DrawHand::editWords(const EditResult& result, const QString& words) {
    return takeEdit(result, words, JobAspect::words);
}

/// @param moveKey  steps of one move have the same; empty: a step of its own.
bool DrawHand::takeEdit(const EditResult& result, const QString& words, JobAspect aspect, const QString& moveKey) {
    m_isOwnEdit = true;
    const bool taken = m_document.edit(withDrawing(*m_document.job(), result), words, aspect,
                                       moveKey.isEmpty() ? MergeKind::never : MergeKind::move, moveKey);
    m_isOwnEdit = false;
    if (taken && result) {
        m_picked = result->picked;
        std::erase_if(m_picked.parts, [this](const PartId& id) { return !findPart(circuit(), id); });
        m_lastBox.reset();
        emit accepted();
        emit changed();
    }
    return taken;
}

void DrawHand::putDown() {
    const Held held = *m_held;
    QString value = held.valueToCome();
    if (!held.thing->isFlag && hasValue(held.thing->kind) && value.endsWith('.')) {
        value.chop(1);
    }
    const Result<MadeThing> made = makeThing(*held.thing, value.toStdString(), m_models);
    if (!made) {
        emit refused(QString::fromStdString(made.error().message));
        return;
    }
    const QString words = tr("Put down %1").arg(nameOf(*held.thing));
    bool taken = false;
    if (held.thing->isFlag) {
        Flag flag = made->flag;
        flag.at = m_caret;
        taken = edit(placeFlag(circuit(), flag), words);
    } else {
        // Not one that a mod has for a part it fits.
        Part part = made->part;
        part.reference = nextFreeReference(*m_document.job(), part.kind);
        const Placement placement{m_caret, held.turns, held.mirrored, held.span, LabelSide::automatic};
        const std::optional<Model> type =
            made->part.model.empty() ? std::optional<Model>() : std::optional<Model>(made->type);
        taken = edit(placePart(circuit(), part, placement, type), words);
    }
    if (taken) {
        m_lastTyped[held.thing->key] = value;
        m_held.reset();
        emit changed();
    }
}

/// A corner at the caret, or the wire's end where there is something to join.
void DrawHand::penStep(bool ends) {
    m_hasDroppedCorner = false;
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

/// A wire that cannot be keeps all its corners but the last: only that one was wrong.
void DrawHand::finishWire() {
    if (edit(drawWire(circuit(), m_pen), tr("Draw a wire"))) {
        m_pen.clear();
        m_picked = {};
        m_hasJustJoined = true;
    } else {
        m_pen.pop_back();
    }
    emit changed();
}

void DrawHand::turnPicked() {
    if (!m_picked.parts.empty()) {
        edit(turn(circuit(), m_picked), tr("Turn %1").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::mirrorPicked() {
    if (!m_picked.parts.empty()) {
        edit(mirror(circuit(), m_picked), tr("Mirror %1").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::movePicked(GridPoint by) {
    if (!m_picked.isEmpty() && by != GridPoint()) {
        edit(move(circuit(), m_picked, by), tr("Move %1").arg(wordsOf(m_picked, circuit())));
        m_moved = {};
    }
}

/// Steps by keys one after the other are one move to whoever takes it back.
void DrawHand::moveByKey(GridPoint by) {
    if (m_picked.isEmpty()) {
        return;
    }
    if (m_picked != m_moved) {
        ++m_moveRun;
    }
    takeEdit(move(circuit(), m_picked, by), tr("Move %1").arg(wordsOf(m_picked, circuit())), JobAspect::electrical,
             QString("move %1").arg(m_moveRun));
    m_moved = m_picked;
}

void DrawHand::erasePicked() {
    if (!m_picked.isEmpty()) {
        edit(erase(circuit(), m_picked), tr("Take off %1").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::copyPicked() {
    if (!m_picked.isEmpty()) {
        m_copy = copyOf(circuit(), withInnerWires(circuit(), m_picked));
        emit said(tr("Copied %1: Ctrl V puts it down at the cross.").arg(wordsOf(m_picked, circuit())));
    }
}

void DrawHand::pasteCopy() {
    if (m_copy.parts.empty() && m_copy.drawing.wires.empty() && m_copy.drawing.flags.empty()) {
        emit refused(QGuiApplication::clipboard()->text().trimmed().isEmpty()
                         ? tr("Nothing was copied yet: pick something and press Ctrl C.")
                         : tr("Nothing of a drawing was copied yet: pick something and press Ctrl C. Text that is a "
                              "netlist becomes a new job with Ctrl Shift V."));
        return;
    }
    // The copy's upper left corner comes to the caret.
    const GridPoint corner = cornerOf(m_copy);
    edit(paste(circuit(), m_copy, {m_caret.x - corner.x, m_caret.y - corner.y}), tr("Put down a copy"));
}

}  // namespace ohmwright
