/// How far the devices of a circuit can go: rails and speed of op-amps, saturation and dissipation of transistors.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/settled.h"

#include <optional>
#include <vector>

namespace ohmwright {

/// An op-amp's own figures, from its type (devices/opamp.h).
struct OpampLimits {
    PartId part;
    double gainBandwidthHz = 0.0;
    double slewVoltsPerSecond = 0.0;
    double highestVolts = 0.0;  ///< Of its output at this bias: positive supply less headroom.
    double lowestVolts = 0.0;
};
/// Of every op-amp with an output that is not on a supply, in the circuit's order.
std::vector<OpampLimits> opampLimits(const Circuit& circuit, const SolvedCircuit& solved);

/// |Vce| under which a small-signal bipolar transistor is saturated [V]; common practice, no source.
inline constexpr double saturatedVolts = 0.2;

/// What a device's output has left over a settled period [V], and where.
struct SwingLeft {
    PartId part;
    double volts = 0.0;  ///< Under 0: it clips.
};
/// Of the op-amp that comes nearest to a rail; absent without op-amps.
std::optional<SwingLeft> leastRailRoom(const Circuit& circuit, const SolvedCircuit& solved,
                                       const SettledState& settled);
/// Of the bipolar, JFET, MOSFET or valve whose output electrode comes nearest to its other one: |Vce| less
/// saturatedVolts of a bipolar, |Vds| less |VTO + Vsg| of an FET (where its square law ends), Va - Vk of a valve.
/// Absent without such devices.
std::optional<SwingLeft> leastDeviceRoom(const Circuit& circuit, const SolvedCircuit& solved,
                                         const SettledState& settled);

/// DC power of a part [W]: its terminals' voltages times the currents into them.
double dissipationWatts(const SolvedCircuit& solved, const Part& part);

}  // namespace ohmwright
