/// Small signs used by several panels: revision triangle, state dot, strike-through pair, warning triangle, tick.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointF>
#include <QRectF>
#include <QString>

class QPainter;

namespace ohmwright {

enum class TriangleState { active, off };

/// Lettered revision triangle inside `box`: filled iris with a light letter, or dashed and hollow.
void paintRevisionTriangle(QPainter& painter, const QRectF& box, const QString& letter, TriangleState state);

/// Ochre triangle with an exclamation bar; always beside words.
void paintCareSign(QPainter& painter, const QRectF& box);
/// Oxblood octagon with a bar; always beside words.
void paintStopSign(QPainter& painter, const QRectF& box);
/// Pine tick.
void paintTick(QPainter& painter, const QRectF& box);

/// "56n" struck through in stock colour, then "120n" bold in now colour, at a baseline; returns the width used.
qreal paintStockToNow(QPainter& painter, const QPointF& baseline, const QString& stock, const QString& now);

}  // namespace ohmwright
