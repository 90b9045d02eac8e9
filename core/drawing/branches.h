/// What a netlist says about its drawing before anything has a place: which nets are supplies, and which parts stand
/// one after the other without anything between them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <cstddef>
#include <map>
#include <set>
#include <vector>

namespace ohmwright {

/// The nets that are drawn as signs instead of wires.
struct Rails {
    std::set<NetName> above;  ///< Supplies that parts hang from.
    std::set<NetName> below;  ///< Supplies drawn below the signal, where the circuit has both polarities.

    [[nodiscard]] bool isAbove(const NetName& net) const { return above.count(net) > 0; }
    /// Ground, too.
    [[nodiscard]] bool isBelow(const NetName& net) const { return net == groundNet || below.count(net) > 0; }
    [[nodiscard]] bool isRail(const NetName& net) const { return isAbove(net) || isBelow(net); }
};

/// Nets that a source of DC holds against ground, and nets fed from one that a capacitor to ground keeps still (a
/// filtered supply, half the supply). A net of the signal is none: neither the input's source nor a control pin makes
/// one.
Rails railsOf(const Circuit& circuit);

/// One or more parts of two ends in series, drawn in one line. A pot whose wiper is joined to an end has two ends.
struct Branch {
    struct Element {
        std::size_t part = 0;   ///< Index into Circuit::parts.
        bool reversed = false;  ///< Its second end comes first.
    };
    NetName from, to;
    std::vector<Element> elements;

    [[nodiscard]] Branch turned() const;
};

/// The two ends of a part that has only two; empty for devices, couplings, and pots with three nets.
std::vector<NetName> endsOf(const Part& part);

/// All parts of two ends, as series of parts between nets where something else meets: a rail, a third part, a device, a
/// port. Series stand in the order of their first part; each part is in one of them.
/// @param meets  further nets where something else meets.
std::vector<Branch> branchesOf(const Circuit& circuit, const Rails& rails, const std::set<NetName>& meets = {});

}  // namespace ohmwright
