/// A netlist made a drawing: every part at a place, every net drawn, stages found.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

namespace ohmwright {

/// Draws the whole circuit anew as a stage map: the signal from left to right, supplies up, ground down, feedback below
/// its op-amp, the supply in a field of its own. Parts keep ids, references, values and nets; placements, wires, signs,
/// fields and stages are replaced. The same circuit always gives the same drawing.
///
/// The way of the signal is the shortest from ports.source to ports.output, where a device leads on from its input; it
/// is one row of the map. What else there is stands in rows below, each where its wires are short. Where the circuit
/// names neither source nor output, the first source and the farthest net stand for them.
Circuit arrange(const Circuit& circuit);

/// Lays out the chosen parts anew, each where its wires to the rest are short; the other parts, their signs and the
/// wires of nets that no chosen part is on stand as they are. Chosen ids that are none, and a part that is the next
/// box, are passed over. Parts between the same two nets may become a ladder.
/// @return the circuit itself where nothing reads better: tidy is never more bends and crossings, or longer wires with
/// as many, than it was (legibility.h).
Circuit arrange(const Circuit& circuit, const std::vector<PartId>& chosen);

}  // namespace ohmwright
