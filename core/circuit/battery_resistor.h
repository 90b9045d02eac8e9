/// The resistor through which the battery feeds the circuit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

namespace ohmwright {

/// The one resistor that stands at the battery's plus alone with it: its inner resistance, or a dropper. Null without
/// a battery, and where anything else stands there.
const Part* batteryResistor(const Circuit& circuit);

}  // namespace ohmwright
