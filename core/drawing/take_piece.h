/// A part of a drawn circuit kept as a stage piece: what joinStages takes, cut out of a job's circuit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/piece_ends.h"
#include "core/drawing/stage_piece.h"

#include <span>
#include <string>

namespace ohmwright {

/// The piece: parts with their types, knobs and drawing, as they are drawn and without a word of the one unit
/// (markings, places on the board, what was seen and measured). Wires are cut where they lead out; ends are drawn to
/// the edges.
/// @param name  of its stage.
/// Errors: of findEnds; invalidInput for an empty name, a part without a place, one that works with a part outside, and
/// for a piece that cannot be drawn or joined (checkPiece).
Result<Circuit> takePiece(const Circuit& circuit, std::span<const PartId> parts, const std::string& name,
                          const PieceEnds& asked = {});

}  // namespace ohmwright
