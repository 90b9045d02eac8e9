/// Circuit symbols as paths, IEC 60617 by default, in the part's own frame (pin 1 at the origin, 20 px a grid step).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QColor>
#include <QPainterPath>
#include <QPointF>
#include <QRectF>
#include <QTransform>

#include <vector>

class QPainter;

namespace ohmwright {

/// IEC 60617 draws a resistor as a box, IEEE 315 as a zigzag; all else is the same here.
enum class SymbolStandard { iec60617, ieee315 };

/// What is stroked with the body pen, with the (heavier) plate pen, with the wire pen, and what is filled.
struct Symbol {
    QPainterPath outline;  ///< Closed outlines: stroked at body width and filled with canvas.
    QPainterPath body;     ///< Stroked at body width, never filled: arcs, sine, plus and minus, outlines too.
    QPainterPath plates;   ///< Capacitor plates, transistor base bar, diode bar.
    QPainterPath leads;    ///< From pins to body, wire width.
    QPainterPath solid;    ///< Filled: arrow heads, battery bars.
    QRectF bodyBox;        ///< Of the body alone, for plates, brackets and labels.
};

/// Geometry of a part at quarterTurns 0 and not mirrored.
///   two-pin parts: pin 1 (0,0), pin 2 (span*20, 0).
///   potentiometer: top (0,0), bottom (span*20, 0), wiper (span*10, 20) (below the track).
///   bipolar: base (0,0), collector (40,-40), emitter (40,40); drawn as npn.
///   op-amp: non-inverting (0,0), inverting (0,40), output (100,20); supplies (40,-20) and (40,60), not drawn.
///   JFET, triode: gate or grid (0,0), drain or anode (40,-40), source or cathode (40,40).
///   MOSFET: as the JFET, bulk (60,0).
///   pentode: as the triode, screen (80,0).
///   voltage source: a circle with a sine (see symbolOf(part) for a battery).
///   sources controlled by a voltage: pins as a two-pin part, control plus (0,40), control minus (span*20, 40).
///   coupling: no pins, at the middle of the span.
Symbol symbolOf(PartKind kind, int span);

/// As above for one part: a voltage source without acAmplitude is a battery, the plus at pin 1.
/// @param pnp  pnp or a p channel, the arrow turned; the part's model knows.
Symbol symbolOf(const Part& part, SymbolStandard standard = SymbolStandard::iec60617, bool pnp = false);

/// From a part's own frame to the drawing [px]: mirror across the own axis, turn clockwise, move to `at`.
QTransform placementTransform(const Placement& placement);

/// Pin position on the drawing grid in px, for any placement; a part without one stands at the origin.
QPointF pinPosition(const Part& part, int pin);

/// Colours and state of one drawn symbol.
struct SymbolInk {
    QColor ink;            ///< Body, plates, solid.
    QColor leads;          ///< Leads, as the wires.
    QColor fill;           ///< Inside of closed outlines: the canvas.
    bool changed = false;  ///< Heavier body and plates, as a planned part.
};

/// Draws a symbol in its own frame with the line widths of the look.
void paintSymbol(QPainter& painter, const Symbol& symbol, const SymbolInk& ink);

}  // namespace ohmwright
