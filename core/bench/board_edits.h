/// What a mod does on the board: the difference of the circuits before and after it, whatever kind of mod it was.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>
#include <vector>

namespace ohmwright {

enum class EditKind {
    partOut,      ///< Off the board.
    legMoved,     ///< The part stays; some of its legs are at other nets, or free.
    partSwapped,  ///< Another value, type or track in the same place.
    partIn,       ///< New on the board.
};

/// One part's share in it.
struct BoardEdit {
    EditKind kind = EditKind::partIn;
    Part before;            ///< No id for partIn.
    Part after;             ///< No id for partOut.
    std::vector<int> legs;  ///< Of legMoved: which, from 0.

    [[nodiscard]] const Part& part() const { return kind == EditKind::partOut ? before : after; }

    friend bool operator==(const BoardEdit&, const BoardEdit&) = default;
};

/// In the order of work: parts out, legs moved, swaps, parts in; within each in the order of the circuits. A part that
/// is swapped and has a leg moved stands twice. What is only known better (measured, seen, role, drawing) is no edit,
/// nor is a switch turned to another throw.
std::vector<BoardEdit> boardEdits(const Circuit& before, const Circuit& after);

/// The nets whose pads the iron comes to, once each, in the order of the edits; without nets that are open on purpose.
std::vector<NetName> touchedNets(const Circuit& after, const std::vector<BoardEdit>& edits);

/// The part that a new part stands in line with: a moved leg and one leg of the new part are alone on a net of their
/// own, and the new part's other leg took the pad. Empty when it stands in line with none.
PartId inLineWith(const Circuit& after, const std::vector<BoardEdit>& edits, const PartId& fitted);

/// Parts that join the same two nets as a two-legged part, in the circuit's order, without itself.
std::vector<PartId> partsAcross(const Circuit& circuit, const PartId& part);

}  // namespace ohmwright
