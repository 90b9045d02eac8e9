/// Plane geometry of the drawing: grid to scene, lead lines, meeting points, and what a label must keep off.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/symbols.h"
#include "core/circuit/circuit.h"
#include "core/drawing/outline.h"

#include <QLineF>
#include <QPointF>
#include <QRectF>

#include <limits>
#include <vector>

namespace ohmwright {

QPointF scenePoint(GridPoint point);
/// The drawing's sheet; grows to the parts when the drawing states no size.
QRectF sheetOf(const Circuit& circuit);

/// Straight pieces of a path, curves flattened.
std::vector<QLineF> piecesOf(const QPainterPath& path);

/// Places where three or more ends of one net meet: wires, pins, ground and supply signs.
std::vector<QPointF> junctionsOf(const Circuit& circuit, const NetName& net);

/// Whether a supply sign hangs below its point: all that it ends comes from above.
bool hangsDown(const Circuit& circuit, const Flag& flag);

/// What is drawn already and must not be written over. All in scene px.
struct Obstacles {
    std::vector<QRectF> boxes;
    std::vector<QLineF> lines;
    QRectF sheet;                ///< Nothing is written outside.
    std::vector<QLineF> fences;  ///< Zone and field lines: a part's words stay on its own side.

    /// 0 when the box is free; else how much it covers [px²], outside the sheet counting most. Stops adding
    /// once `enough` is reached.
    [[nodiscard]] double covered(const QRectF& box, double enough = std::numeric_limits<double>::infinity()) const;
};

/// Length of the line inside the box.
double lengthInside(const QLineF& line, const QRectF& box);

}  // namespace ohmwright
