/// Where joined pieces come to stand on one sheet.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <span>
#include <vector>

namespace ohmwright {

/// Where a piece's own (0,0) comes to stand.
struct PiecePlace {
    int zoneLeft = 0;  ///< Where its zone begins; its contents may stand further right.
    GridPoint origin;
};

struct JoinLayout {
    std::vector<PiecePlace> places;  ///< One a piece of the signal path, in its order.
    GridPoint supply;                ///< Upper left of the supply's field.
    GridPoint size;                  ///< Of the sheet.
};

/// @param path  source, stages, output, each sound (checkPiece); drawing.size is the box that holds all of it.
/// @param supply  null where the unit has none.
JoinLayout layoutOfJoined(std::span<const Circuit* const> path, const Circuit* supply);

/// Corners of the wire from one end to the next, both ends among them; empty where they meet.
std::vector<GridPoint> jointCorners(GridPoint from, GridPoint to);

}  // namespace ohmwright
