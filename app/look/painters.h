/// Small signs used by several panels: revision triangle, state dot, strike-through pair, warning triangle, tick.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QPointF>
#include <QRectF>
#include <QString>

class QColor;
class QPainter;

namespace ohmwright {

enum class TriangleState { active, off };

/// Lettered revision triangle inside `box`: filled iris with a light letter, or dashed and hollow.
void paintRevisionTriangle(QPainter& painter, const QRectF& box, const QString& letter, TriangleState state);

/// Ochre triangle with an exclamation bar; always beside words.
void paintCareSign(QPainter& painter, const QRectF& box);
/// Oxblood octagon with a bar; always beside words.
void paintStopSign(QPainter& painter, const QRectF& box);
/// Ring with a bar in ink: neither good nor bad, to be known.
void paintNoteSign(QPainter& painter, const QRectF& box);
/// Pine tick.
void paintTick(QPainter& painter, const QRectF& box);

/// What is known of a part: ring = drawn, half = seen, full pine = measured; radius 4.
void paintKnowledgeDot(QPainter& painter, const QPointF& centre, Knowledge knowledge);

/// Square check box inside `box`; `fill` and `mark` are used when on (iris for a mod, ink elsewhere).
void paintCheckBox(QPainter& painter, const QRectF& box, bool on, const QColor& fill, const QColor& mark);

/// Four corner brackets in ink around `box`: selected.
void paintSelectionBrackets(QPainter& painter, const QRectF& box);

/// Which ground a struck stock value stands on; iris-soft takes the darker graphite.
enum class Ground { plain, nowSoft };

/// Text struck through in stock colour with the painter's font, baseline at `baseline`; returns the width used.
qreal paintStruck(QPainter& painter, const QPointF& baseline, const QString& stock, Ground ground = Ground::plain);

/// "56n" struck through in stock colour, then "120n" bold in now colour, at a baseline; returns the width used.
/// Both in the size of the painter's font.
qreal paintStockToNow(QPainter& painter, const QPointF& baseline, const QString& stock, const QString& now,
                      Ground ground = Ground::plain);

}  // namespace ohmwright
