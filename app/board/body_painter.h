/// Bodies of a drawn board as they look from above: bands, codes, notch, stripe.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/board/board_sheet.h"
#include "core/circuit/circuit.h"

#include <set>

class QPainter;

namespace ohmwright {

struct BodyLooks {
    bool isFaint = false;      ///< Seen through the board, from its solder side.
    bool isMirrored = false;   ///< The notch is at the right.
    std::set<PartId> changed;  ///< By a mod that is on: the body in the colour of what is planned.
};

/// The drawn board with everything on it but marks and probes; in the sheet's own units.
void paintDrawnBoard(QPainter& painter, const BoardSheet& sheet, const Circuit& circuit, const BodyLooks& looks);

/// The names beside the bodies, over whatever is painted there already. Never smaller than 12 px of the screen.
void paintDrawnNames(QPainter& painter, const BoardSheet& sheet, const Circuit& circuit);

}  // namespace ohmwright
