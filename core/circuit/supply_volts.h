/// How high the supplies of a circuit stand, for what is said to whoever touches it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

namespace ohmwright {

/// The highest voltage that a source of the circuit holds by itself [V, without sign], the battery as set, the input
/// left out; 0 where there is none.
double highestSupplyVolts(const Circuit& circuit, const Setting& setting);

}  // namespace ohmwright
