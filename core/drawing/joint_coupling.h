/// Coupling capacitors where pieces are joined that stand at different direct voltages.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

namespace ohmwright {

/// What holds the direct voltage of a piece's end, found without solving, capacitors open.
enum class DcHold {
    nothing,  ///< A capacitor or an input that takes no part in it: it goes with whatever is joined.
    ground,
    half,     ///< The half supply.
    unknown,  ///< A device's output, a supply, or several through resistors.
};

/// At a net of a piece (stage_piece.h): through resistors, pots, coils, links, switches and diodes.
/// @param atInput  what holds the piece's input from before.
DcHold dcHoldAt(const Circuit& piece, const NetName& net, DcHold atInput = DcHold::nothing);

/// Whether two ends joined directly would draw each other from where they stand: a collector onto diodes to ground.
bool needsCoupling(DcHold before, DcHold after);

/// The piece with a coupling capacitor before its input: drawn in front, four columns more to the left; its role says
/// what it is there for. Film, 1 µF for 63 V, or 100 nF for 400 V where the unit works on high voltage (our choice:
/// with 100 kΩ behind it, 1.6 Hz and 16 Hz).
Circuit coupled(const Circuit& piece, const Circuit& from, bool isHighVoltage);

}  // namespace ohmwright
