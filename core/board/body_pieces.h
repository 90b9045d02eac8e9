/// Bodies of a drawn board before they have their places: what each looks like, where its legs are, the room it takes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/board/drawn_board.h"

#include <vector>

namespace ohmwright {

/// A body about its own centre, with the room that it takes there.
struct BodyPiece {
    DrawnBody drawn;
    double left = 0.0, right = 0.0, up = 0.0, down = 0.0;  ///< From the centre, label and legs in it.
    int column = 0;                                        ///< On the drawing's grid.
    int row = 0;

    [[nodiscard]] double width() const { return left + right; }
    [[nodiscard]] double height() const { return up + down; }
};

/// From left to right as drawn, in a column in the order of walkOrder; halves of a chip are one body.
std::vector<BodyPiece> bodyPieces(const Circuit& circuit);

}  // namespace ohmwright
