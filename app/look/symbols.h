/// Circuit symbols as paths, IEC 60617 by default, in the part's own frame (pin 1 at the origin, 20 px a grid step).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QPainterPath>
#include <QPointF>
#include <QRectF>

#include <vector>

namespace ohmwright {

/// What is stroked with the body pen, with the (heavier) plate pen, with the wire pen, and what is filled.
struct Symbol {
    QPainterPath body;    ///< Stroked at body width, filled with canvas when closed.
    QPainterPath plates;  ///< Capacitor plates, transistor base bar, diode bar.
    QPainterPath leads;   ///< From pins to body, wire width.
    QPainterPath solid;   ///< Filled: arrow heads, battery bars.
    QRectF bodyBox;       ///< Of the body alone, for plates, brackets and labels.
};

/// Geometry of a part at quarterTurns 0 and not mirrored.
///   two-pin parts: pin 1 (0,0), pin 2 (span*20, 0).
///   potentiometer: top (0,0), bottom (span*20, 0), wiper (span*10, 20) (below the track).
///   bipolar: base (0,0), collector (40,-40), emitter (40,40).
///   op-amp: non-inverting (0,0), inverting (0,40), output (100,20).
Symbol symbolOf(PartKind kind, int span);

/// Pin position on the drawing grid in px, for any placement.
QPointF pinPosition(const Part& part, int pin);

}  // namespace ohmwright
