/// By which nets a selection of parts hangs together with the rest of its circuit: what a stage piece has as its ends.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <span>
#include <string_view>
#include <vector>

namespace ohmwright {

/// How the nets of a selection become a piece's: empty ones are found, "-" says that there is none.
struct PieceEnds {
    static constexpr std::string_view none = "-";

    NetName input;
    NetName output;
    NetName supply;  ///< 9 V
    NetName half;
    NetName high;  ///< some 250 V

    friend bool operator==(const PieceEnds&, const PieceEnds&) = default;
};

/// The parts of a stage as they are kept: without the unit's ends (source, battery, next box). REQUIRES: index <
/// stages.
std::vector<PartId> partsToKeep(const Circuit& circuit, std::size_t stage);

/// Nets by which the parts hang together with the rest, and those of the jack and the output; without ground.
std::vector<NetName> outerNets(const Circuit& circuit, std::span<const PartId> parts);

/// The ends that a selection has, found where `asked` leaves them open. The supply is the net behind the battery and
/// its inner resistance; the half supply has a divider and a capacitor; of the two nets that are left, the one with
/// fewer parts between it and the source is the input. Errors: invalidInput: a part that is not there, or one of the
/// unit's ends; nets left over that are no end, or ends missing: named, and what to do; an asked net that no chosen
/// part stands at.
Result<PieceEnds> findEnds(const Circuit& circuit, std::span<const PartId> parts, const PieceEnds& asked = {});

}  // namespace ohmwright
