/// How high the supplies of a circuit stand, for what is said to whoever touches it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

namespace ohmwright {

/// From here on a supply is dangerous, the high one of a circuit [V]: extra-low DC voltage without ripple ends at 60 V
/// where bodies can touch it (from memory: IEC 61140; local codes may say less).
inline constexpr double highVolts = 60.0;

/// The highest voltage that a source of the circuit holds by itself [V, without sign], the battery as set, the input
/// left out; 0 where there is none.
double highestSupplyVolts(const Circuit& circuit, const Setting& setting);

}  // namespace ohmwright
