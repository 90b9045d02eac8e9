/// The ends of what copies of the devices do, as circuits.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <map>
#include <string>
#include <vector>

namespace ohmwright {

/// How far copies of one type differ: parameters at ends, each end a set that goes together ("BF" of a transistor,
/// "VTO" and "BETA" of a JFET); what an end does not name is as the type says.
struct DeviceSpread {
    std::string model;
    std::vector<std::map<std::string, double>> ends;
};

/// What the circuit's types say of their copies themselves (Model::corners).
std::vector<DeviceSpread> deviceSpreads(const Circuit& circuit);

/// The circuit with every such type at each of its ends, all combinations, so that both transistors of a pair are low,
/// high, or one of each; the circuit itself comes first. Types beyond the fourth go along with the others, so that
/// there are 3^4 circuits at most with two ends a type.
std::vector<Circuit> deviceCorners(const Circuit& circuit, const std::vector<DeviceSpread>& spreads);

}  // namespace ohmwright
