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
/// What the program draws after: the user's choice, IEC 60617 until it is made. GUI thread.
SymbolStandard symbolStandard();
void setSymbolStandard(SymbolStandard standard);

/// What is stroked with the body pen, with the (heavier) plate pen, with the wire pen, and what is filled.
struct Symbol {
    QPainterPath outline;  ///< Closed outlines: stroked at body width and filled with canvas.
    QPainterPath body;     ///< Stroked at body width, never filled: arcs, sine, plus and minus, outlines too.
    QPainterPath plates;   ///< Capacitor plates, transistor base bar, diode bar.
    QPainterPath leads;    ///< From pins to body, wire width.
    QPainterPath solid;    ///< Filled: arrow heads, battery bars.
    QRectF bodyBox;        ///< Of the body alone, for plates, brackets and labels.

    friend bool operator==(const Symbol&, const Symbol&) = default;
};

/// The symbol at quarterTurns 0 and not mirrored, with its pins as core/drawing/outline.h has them. A bipolar
/// transistor is drawn as npn, a voltage source as a circle with a sine (see symbolOf(part) for a battery).
Symbol symbolOf(PartKind kind, int span);

/// As above for one part: a voltage source without acAmplitude is a battery, the plus at pin 1.
/// @param pnp  pnp or a p channel, the arrow turned; the part's model knows.
Symbol symbolOf(const Part& part, SymbolStandard standard = symbolStandard(), bool pnp = false);

/// From a part's own frame to the drawing [px]: mirror across the own axis, turn clockwise, move to `at`.
QTransform placementTransform(const Placement& placement);

/// Pin position in px (core/drawing/outline.h); a part without a place stands at the origin.
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
