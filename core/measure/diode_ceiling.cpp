// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/diode_ceiling.h"

#include "core/devices/constants.h"

#include <cmath>

namespace ohmwright {

double thermalVoltsAt(double kelvin) {
    return thermalVolts(kelvin);
}

double diodeCeilingVolts(const Model& diode, double amperes, double kelvin) {
    const auto parameter = [&](const char* name, double usual) {
        const auto found = diode.parameters.find(name);
        return found == diode.parameters.end() ? usual : found->second;
    };
    // The Berkeley description's own values where a card names none.
    return parameter("N", 1.0) * thermalVolts(kelvin) * std::log(amperes / parameter("IS", 1e-14));
}

}  // namespace ohmwright
