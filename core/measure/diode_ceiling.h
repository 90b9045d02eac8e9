/// The voltage at which a diode holds a wave, by the law of its junction: a sum on paper, no solve.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

namespace ohmwright {

/// kT/q [V].
double thermalVoltsAt(double kelvin);
/// Voltage of a diode by n Vt ln(i/Is), its series resistance left out [V]. REQUIRES: amperes > 0.
double diodeCeilingVolts(const Model& diode, double amperes, double kelvin);

}  // namespace ohmwright
