/// How well a drawing reads, counted: what a draughtsman would be sent back for, and what he keeps small.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>
#include <vector>

namespace ohmwright {

struct Legibility {
    // None of these may be in a drawing.
    int overlappingBodies = 0;  ///< Pairs of parts.
    int wiresUnderBodies = 0;   ///< Pairs of a wire and a part.
    int sharedPoints = 0;       ///< A pin, a corner, an end or a sign on a wire or pin of another net.
    int looseNets = 0;          ///< Nets drawn in more than one piece; signs of one name join.
    int loosePins = 0;          ///< Pins that meet no wire, no sign and no other pin of their net.
    int slantedWires = 0;       ///< Pieces that are neither level nor upright.
    int offSheet = 0;           ///< Corners, pins and signs outside the sheet.
    // These are kept small.
    int bends = 0;
    int crossings = 0;     ///< Points where wires of two nets cross.
    int jointsOfFour = 0;  ///< Points where four ends of one net meet.
    int wireLength = 0;    ///< In grid steps.
    std::string worst;     ///< Names the first fault; empty when there is none.

    [[nodiscard]] bool isSound() const { return worst.empty(); }
};

/// Counts over everything that has a place.
Legibility legibilityOf(const Circuit& circuit);

}  // namespace ohmwright
