/// The nets that a drawing says: what its wires, pins and signs join, whatever the parts' nets were before.
///
/// What is joined: a wire with every pin, sign, wire end and corner that stands on it; pins, signs and wire ends at one
/// point; all ground signs; all supply signs of one name. Two wires that cross between their corners are not joined.
/// What has no place on the drawing (an op-amp's supplies, parts without a placement) stays on its net by name.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <map>

namespace ohmwright {

struct Rejoined {
    Circuit circuit;
    /// Nets that went up into another one, under the name that they have now. Those of stages, ports and wires are
    /// changed already; whoever else names nets (a plan) must follow.
    std::map<NetName, NetName> goneInto;
};

/// Nets keep their names as far as they can. Of a net that falls apart, the piece with a sign or a port keeps the name,
/// else the piece with more pins, and the others get new ones ("n7"). Of nets that come together, ground's name wins,
/// then a supply sign's, then one that ports, laws or undrawn pins mention, then the one with more pins.
/// REQUIRES: every part has its kind's number of nets.
Rejoined rejoin(const Circuit& circuit);

/// What a supply sign is called: its text, or the net where it has none; blanks left out.
NetName signName(const Flag& flag);

/// A name that no part, wire or sign has: "n1", "n2" ...
NetName newNetName(const Circuit& circuit);

/// Pins with a place, wires' points and signs: whether a point of the drawing has something to join.
bool hasEndAt(const Circuit& circuit, GridPoint point);
/// Whether a point lies on a wire, its corners included.
bool isOnWire(GridPoint point, const Wire& wire);
/// The net at a point of the drawing: of a pin, a wire or a sign there; empty where there is none.
NetName netAt(const Circuit& circuit, GridPoint point);

}  // namespace ohmwright
