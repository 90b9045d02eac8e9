// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/battery_resistor.h"

#include <algorithm>

namespace ohmwright {

const Part* batteryResistor(const Circuit& circuit) {
    const Part* battery = findPart(circuit, circuit.ports.battery);
    if (battery == nullptr || battery->nets.empty()) {
        return nullptr;
    }
    const Part* alone = nullptr;
    for (const Part& part : circuit.parts) {
        const bool isAtPlus = std::find(part.nets.begin(), part.nets.end(), battery->nets.front()) != part.nets.end();
        if (&part == battery || !isAtPlus) {
            continue;
        }
        if (alone != nullptr || part.kind != PartKind::resistor) {
            return nullptr;
        }
        alone = &part;
    }
    return alone;
}

}  // namespace ohmwright
