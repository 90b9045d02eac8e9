/// Edits of a drawing: a circuit in, the circuit after the edit or the reason against it out. Nets follow the drawing
/// (rejoin.h). Everything that the map lets a person draw is one of these or of relocate.h, zones.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// Things on the drawing that are handled together; wires and flags by their index in the drawing.
struct Picked {
    std::vector<PartId> parts;
    std::vector<std::size_t> wires;
    std::vector<std::size_t> flags;

    [[nodiscard]] bool isEmpty() const { return parts.empty() && wires.empty() && flags.empty(); }
    friend bool operator==(const Picked&, const Picked&) = default;
};

struct Edited {
    Circuit circuit;
    std::map<NetName, NetName> goneInto;  ///< As Rejoined::goneInto: for those who name nets from outside.
    Picked picked;                        ///< What the edit put down or moved.
};
using EditResult = Result<Edited>;

/// Largest coordinate of a drawing: a sheet of 8 m.
inline constexpr int largestGrid = 400;
/// Whether a point has neither coordinate below 0 or beyond largestGrid.
bool isOnSheet(GridPoint point);

/// Puts a part down. Its pins are joined to what they stand on; a two-pin part put on a wire is set into it. An empty
/// id, reference or list of nets is filled in; a part of the same id that has no place yet gets it.
/// A pot gets a knob, the first driven voltage source becomes the input, the first battery the supply.
/// @param type  of the part's model when the circuit has no such type yet.
/// Errors: invalidInput when the place is off the sheet or taken by another part or by a wire.
EditResult placePart(const Circuit& circuit, const Part& part, const Placement& placement,
                     const std::optional<Model>& type = {});

/// Puts a ground sign, a supply sign, a jack or a note down. A jack's text "in" or "out" makes its net the unit's
/// input or output. A supply sign of a net's name joins that net: where it has no sign yet, one of that name is put at
/// one of its pins too, so that the drawing shows what is joined.
/// Errors: invalidInput off the sheet, for a supply sign without a name or called as ground, and where such a sign
/// stands already.
EditResult placeFlag(const Circuit& circuit, Flag flag);

/// Draws a wire through the points; where two of them are not on one line, a corner is set between.
/// Errors: invalidInput off the sheet, without length, and where it would run under a part's body.
EditResult drawWire(const Circuit& circuit, const std::vector<GridPoint>& points);

/// Errors: invalidInput for ground, for an empty name or one with blanks, and for a name that another net has: the two
/// are joined by a wire, or by a supply sign of the other's name (placeFlag).
EditResult nameNet(const Circuit& circuit, const NetName& net, const NetName& name);

/// Takes parts, wires and flags off. Knobs, stages and ports forget the parts; wires that end nowhere stay.
/// Errors: invalidInput when a part that stays names one that goes (a coupling its coil).
EditResult erase(const Circuit& circuit, const Picked& picked);

/// The parts with all that joins two of them: what is copied when parts alone are picked.
Picked withInnerWires(const Circuit& circuit, const Picked& picked);
/// What is picked as a circuit of its own, to be pasted: parts with their types, wires, flags.
Circuit copyOf(const Circuit& circuit, const Picked& picked);
/// Puts a copy down, shifted: ids and references are made new, nets are the drawing's.
/// Errors: as placePart; the copy is put down whole or not at all.
EditResult paste(const Circuit& circuit, const Circuit& copy, GridPoint by);

/// Another value, name, type, law, tolerance or note of a part; its id, kind, nets and place stay.
/// @param type  of the part's model when the circuit has no such type yet.
/// Errors: invalidInput for a part that is not there, a reference that another part has, a value outside the bench's
/// limits and a type that is not known.
Result<Circuit> describePart(const Circuit& circuit, const Part& part, const std::optional<Model>& type = {});

/// Everything that a box touches: bodies, wires that lie inside with both ends, flags.
Picked pickedIn(const Circuit& circuit, GridPoint corner, GridPoint opposite);

/// Why a part cannot stand where it is placed: the sentence; empty when it can.
std::string placeFault(const Circuit& circuit, const Part& part);
/// The part whose body a wire would cross; null when there is none.
const Part* partUnder(const Circuit& circuit, const std::vector<GridPoint>& corners);

/// Points with corners set between those that are not on one line, without corners that are none.
/// @param horizontalFirst  how the way from a point to the next begins.
std::vector<GridPoint> rightAngled(const std::vector<GridPoint>& points, bool horizontalFirst = true);

/// The sheet's size made to hold all that is drawn; never smaller than it was.
void growSheet(Circuit& circuit);

}  // namespace ohmwright
