/// Capacitors charging and discharging through a circuit at rest: how long a reading takes, how long a supply stays
/// dangerous.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <functional>
#include <map>
#include <stop_token>

namespace ohmwright {

struct ChargingSpan {
    double fromSeconds = 1e-6;  ///< First step.
    double toSeconds = 1e4;
    double growth = 1.1;  ///< Each step ends this much later than the last: errors of times stay under 1 %.
};

/// Voltages by net at a moment [V]; false ends the run.
using ChargingWatch = std::function<bool(double seconds, const std::map<NetName, double>& volts)>;

/// Follows the circuit from the moment that its sources are joined to it, every capacitor starting at its voltage of
/// `startVolts` (pin 1 less pin 2 [V]; 0 for one not named). Junctions conduct by their laws; coils are taken as wires
/// and junctions' own charges left out: both are over before a meter shows anything.
///
/// Two-step backward differentiation with growing steps; each step is a bias of the circuit with resistances and
/// currents in the capacitors' places.
/// Errors: unsolvable; noConvergence naming the net; cancelled.
/// Source: C. W. Gear, Numerical Initial Value Problems in ODEs (1971), from memory.
Result<void> followCharging(const Circuit& circuit, const Setting& setting, const std::map<PartId, double>& startVolts,
                            const ChargingSpan& span, const ChargingWatch& watch, const std::stop_token& stop = {});

/// Time for one capacitor through one resistance from a voltage down to another [s]: R C ln(from / to).
/// REQUIRES: all above 0, to <= from.
double dischargeSeconds(double farads, double ohms, double fromVolts, double toVolts);

}  // namespace ohmwright
