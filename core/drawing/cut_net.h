/// What of a net's drawing belongs to some of its parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <set>
#include <vector>

namespace ohmwright {

/// Points of a net that its own wires join.
struct JoinedPoints {
    std::vector<GridPoint> points;
    std::vector<Wire> wires;  ///< Each along points of this group.
    std::vector<Flag> flags;
};

/// The net's wires without what leads to no chosen part and no sign, as groups that hang together; each holds a pin of
/// a chosen part. Signs of supplies and ground are kept where `keepsSigns`, jacks and notes never.
std::vector<JoinedPoints> cutNet(const Circuit& circuit, const NetName& net, const std::set<PartId>& parts,
                                 bool keepsSigns);

}  // namespace ohmwright
