/// Physical constants of the device laws.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ohmwright {

inline constexpr double boltzmann = 1.380649e-23;            ///< J/K, exact (SI 2019).
inline constexpr double elementaryCharge = 1.602176634e-19;  ///< C, exact (SI 2019).

/// Temperature at which model parameters hold unless a card says otherwise (27 °C).
inline constexpr double nominalKelvin = 300.15;

/// kT/q [V].
constexpr double thermalVolts(double kelvin) {
    return boltzmann * kelvin / elementaryCharge;
}

}  // namespace ohmwright
