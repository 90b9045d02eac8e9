/// Charged capacitors and high supplies: what holds how long, and the cautions that no sheet can leave out.
///
/// The figures tell how long to wait; a meter on the capacitor tells whether it was enough. Local codes and licensed
/// practice go before anything here.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/circuit/supply_volts.h"

#include <optional>
#include <stop_token>
#include <string>
#include <utility>
#include <vector>

namespace ohmwright {

/// What a capacitor may hold before a hand comes near [V]: common practice, no source.
inline constexpr double touchVolts = 30.0;
/// What the supply of a battery unit may hold before the meter's ohms ranges are used [V]: common practice, no source.
inline constexpr double meterVolts = 0.1;
/// Resistance that charged capacitors of high supplies are discharged through [Ω], and of battery units.
inline constexpr double highVoltageToolOhms = 10e3;
inline constexpr double batteryToolOhms = 1e3;

/// What the discharge resistor must be made for [W]: twice the square of the volts, taken a tenth high, over its
/// resistance, up to the next rating that is made. Twice for the heat of many a discharge: common practice, no source;
/// a tenth as mains voltages stray (from memory: EN 50160).
double toolWatts(double ohms, double supplyVolts);

/// "10 kΩ, 20 W or more, its clips insulated for that voltage"; of a battery unit, where any resistor will do, "1 kΩ".
std::string toolWords(double ohms, double supplyVolts);

/// "up to 269 V, 250 V on C3 in use"; without the second where nothing that is charged stands lower than the source.
/// @param biasVolts  of the circuit as it works, by net.
std::string highVoltageWords(const Circuit& circuit, const Setting& setting,
                             const std::vector<std::pair<NetName, double>>& biasVolts);

/// How one capacitor that holds the supply gives it away.
struct DischargeTime {
    PartId part;
    double fromVolts = 0.0;                 ///< The most it holds: supply at its high end, devices off (polarity.h).
    double toVolts = 0.0;                   ///< touchVolts or meterVolts.
    double withToolSeconds = 0.0;           ///< Through the tool clipped across it, the unit's own parts helping.
    std::optional<double> byItselfSeconds;  ///< Through the unit's own parts; absent: not within three hours.
};

struct Discharge {
    bool isHighVoltage = false;
    double supplyVolts = 0.0;  ///< The highest that a source holds.
    double toolOhms = 0.0;
    double toVolts = 0.0;
    std::vector<DischargeTime> capacitors;  ///< Those that hold more than toVolts, the largest energy first.
    double waitSeconds = 0.0;               ///< The longest with the tool, rounded up to whole tens.
    std::string sentence;  ///< "C3 47µ: 283 V, under 30 V after 1.0 s through 10 kΩ (23 s by itself). Wait 10 s."
};

/// The supply is pulled, instrument and next box are unplugged.
/// Errors: of dutiesOf; of the solver.
Result<Discharge> dischargeOf(const Circuit& circuit, const Setting& setting, const std::stop_token& stop = {});

/// "Fumes:", "ventilate; do not breathe flux smoke."
struct Caution {
    std::string head;
    std::string text;

    friend bool operator==(const Caution&, const Caution&) = default;
};
/// Part of every sheet of a circuit: they follow from what it is and cannot be taken off. High supplies add theirs
/// first.
std::vector<Caution> cautionsOf(const Circuit& circuit, const Setting& setting);

}  // namespace ohmwright
