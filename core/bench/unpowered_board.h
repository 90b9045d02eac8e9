/// The board as it lies on the bench with the power off: what a meter can drive a current through.
///
/// Battery or supply, instrument, cable and next box are unplugged. What has to be powered or warm to work leads
/// nothing: chips, valves, sources that stand for them, subcircuits with sources of their own. Resistances, pots as
/// their knobs stand, coils, closed contacts, diodes, transistors and FETs stay, with their own laws.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <set>

namespace ohmwright {

enum class SupplyEnd {
    out,      ///< Nothing at the supply's terminals.
    shorted,  ///< The terminals joined: what a discharged filter or a plugged-in, switched-off supply may be to a
              ///< meter.
};

/// Ports, stages and drawing are left out; what floats is named in openNets.
Circuit unpoweredBoard(const Circuit& circuit, SupplyEnd supply = SupplyEnd::out);

/// Two probes on an unpowered board: the parts that carry their current at rest, black being ground.
struct ProbedIsland {
    Circuit circuit;
    NetName red;               ///< Name of the red probe's net in it; black is "0".
    bool isJoined = false;     ///< Direct current finds a way from red to black.
    bool hasChip = false;      ///< A chip's pin sits on a net of it: its own junctions may conduct.
    bool hasJunction = false;  ///< A diode or transistor is among the parts.

    friend bool operator==(const ProbedIsland&, const ProbedIsland&) = default;
};

/// @param powered  the whole circuit, to say where chips sit; @param board  unpoweredBoard of it.
/// REQUIRES: red != black.
ProbedIsland probedIsland(const Circuit& powered, const Circuit& board, const NetName& red, const NetName& black);

/// The nets that the red probe's current can come to without passing black, and black: what a reading hangs on.
std::set<NetName> reachedNets(const Circuit& board, const NetName& red, const NetName& black);

/// The setting's knobs and temperature as far as an island or a board has the pots.
Setting boardSetting(const Circuit& board, const Setting& setting);

}  // namespace ohmwright
