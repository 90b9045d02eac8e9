/// Moving, turning and mirroring what is drawn, with its wires following at right angles.
///
/// No net changes by it: what was joined stays joined, and nothing else is touched. Where that cannot be, the edit is
/// refused with the reason and nothing is moved.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/edit.h"

namespace ohmwright {

/// Moves parts, wires and flags. A wire between two moved pins goes along whole, one that leads elsewhere is drawn
/// out; ground signs and other flags that only moved pins hold go along. A moved pin that stood on another pin or in
/// the middle of a wire gets a wire to where it was.
/// Errors: invalidInput off the sheet, on another part, under a body, and where another net would be touched.
EditResult move(const Circuit& circuit, const Picked& picked, GridPoint by);

/// Turns clockwise by a quarter: one part about its own middle, several about the middle of what they cover.
EditResult turn(const Circuit& circuit, const Picked& picked);
/// Mirrors across the own axis: one part; several left to right.
EditResult mirror(const Circuit& circuit, const Picked& picked);

}  // namespace ohmwright
