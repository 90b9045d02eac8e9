/// Op-amps and valves as subcircuits: the laws of core/devices in elements that any program of the Berkeley family has.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>

namespace ohmwright {

/// What a subcircuit is made for.
struct SubcircuitOptions {
    std::string name;        ///< Of the subcircuit.
    std::string helperName;  ///< Beginning of the names of the models that go with it.
    double kelvin = 300.15;  ///< At which noise and junctions are the law's.
    double devices = 1.0;    ///< M: devices in parallel; valves only.
};

/// Pins: non-inverting, inverting, output, positive supply, negative supply. Same current into every pin, same noise.
std::string opampSubcircuit(const Model& model, const SubcircuitOptions& options);

/// Pins: anode, grid, cathode. The noise of a grid current in law 2 is not there.
std::string triodeSubcircuit(const Model& model, const SubcircuitOptions& options);

/// Pins: anode, screen, control grid, cathode.
std::string pentodeSubcircuit(const Model& model, const SubcircuitOptions& options);

}  // namespace ohmwright
