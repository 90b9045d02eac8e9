/// Where a drawn part has its pins and its body, on the drawing's grid (x to the right, y downwards).
///
/// In a part's own frame, at quarterTurns 0 and not mirrored, in grid steps:
///   two-pin parts: pin 1 (0,0), pin 2 (span,0).
///   potentiometer: top (0,0), bottom (span,0), wiper (span/2,1) below the track; an odd span's half is rounded down.
///   bipolar: base (0,0), collector (2,-2), emitter (2,2).
///   op-amp: non-inverting (0,0), inverting (0,2), output (5,1); supplies (2,-1) and (2,3) have no drawn pin.
///   JFET, triode: gate or grid (0,0), drain or anode (2,-2), source or cathode (2,2). MOSFET: bulk (3,0) as well.
///   pentode: as the triode, screen (4,0).
///   sources controlled by a voltage: as a two-pin part, control plus (0,2), control minus (span,2).
///   coupling: no pins, at the middle of the span.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <optional>

namespace ohmwright {

/// A box on the drawing, in grid steps.
struct GridBox {
    double left = 0.0;
    double top = 0.0;
    double right = 0.0;
    double bottom = 0.0;

    friend bool operator==(const GridBox&, const GridBox&) = default;
};

/// Pins that have a place on the drawing: an op-amp's supplies have none.
int drawnPinCount(PartKind kind);
/// Whether the part's own axis stands upright.
bool isUpright(const Placement& placement);

/// From a part's own frame to the drawing: mirror across the own axis, turn clockwise, move to `at`.
GridPoint onDrawing(const Placement& placement, GridPoint inOwnFrame);
/// A pin in the part's own frame; beyond the last pin: the last.
GridPoint pinInOwnFrame(PartKind kind, int span, int pin);
/// Where a pin stands on the drawing; of a part without a place, as if it stood at the origin.
GridPoint pinPoint(const Part& part, int pin);
/// A pin with a place, of a part of the circuit that was asked.
struct DrawnPin {
    const Part* part = nullptr;
    int pin = 0;
};
/// The pin that stands at a point; where several do, the first part's. Absent where none does.
std::optional<DrawnPin> pinAt(const Circuit& circuit, GridPoint point);
/// What the symbol covers without its leads, on the drawing; as large as it is painted (app/look/symbols.h).
GridBox bodyBox(const Part& part);

}  // namespace ohmwright
