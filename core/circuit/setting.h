/// Everything outside the circuit that a figure depends on: knobs, source, load, battery, temperature.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <map>
#include <string>

namespace ohmwright {

/// How switches stand: id of the mod that fits one -> name of a throw. A switch not named stands at its first.
using Throws = std::map<std::string, std::string>;

struct Setting {
    std::map<std::string, double> knobs;  ///< Knob id -> position 0..10. A knob not named stands at 5.
    Throws throws;
    double pickVoltsPeak = 0.1;  ///< Open-circuit peak of the pickup.
    double toneHz = 220.0;       ///< Tone of the large-signal figures.
    double batteryVolts = 9.0;
    double loadOhms = 1.0e6;  ///< Input resistance of the next box.
    double temperatureKelvin = 300.15;

    friend bool operator==(const Setting&, const Setting&) = default;
};

/// Share of the track between bottom and wiper, 0..1, at a position 0..10.
///
/// log: R(x) = P (a^x - 1)/(a - 1), a = (1/m - 1)^2, x = position/10, m = share at half travel;
/// reverse log: P - R(1 - x); linear: P x.
/// Source: common practice, no source; two straight lines would be nearer to most real tracks.
double taperShare(Taper taper, double shareAtHalf, double position);

/// The two resistances of a pot at a position [Ω]. An end is never under 1 mΩ.
struct PotHalves {
    double topToWiper = 0.0;
    double wiperToBottom = 0.0;
};
PotHalves potHalves(const Part& pot, double position);

double knobPosition(const Setting& setting, std::string_view knobId);

/// How the switch stands that a mod fits; empty for its first throw.
std::string throwOf(const Throws& throws, const std::string& modId);

/// The circuit with the setting's battery and load put in; pots keep their track.
Circuit withEnds(const Circuit& circuit, const Setting& setting);

/// Errors: invalidInput naming the knob or figure that is out of its range.
Result<void> checkSetting(const Circuit& circuit, const Setting& setting);

}  // namespace ohmwright
