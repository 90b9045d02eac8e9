// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/supply_volts.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

double highestSupplyVolts(const Circuit& circuit, const Setting& setting) {
    double highest = 0.0;
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::voltageSource && part.id != circuit.ports.source) {
            const double volts = part.id == circuit.ports.battery ? setting.batteryVolts : part.value;
            highest = std::max(highest, std::abs(volts));
        }
    }
    return highest;
}

}  // namespace ohmwright
