// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/device_sheet.h"

#include "core/devices/constants.h"
#include "core/devices/model_parameters.h"
#include "core/devices/opamp.h"
#include "core/devices/triode.h"

#include <cmath>

namespace ohmwright {

namespace {

/// What types say nothing of, as the laws have it (devices/).
constexpr double usualSaturation = 1e-14;
constexpr double usualGainBandwidthHz = 3e6;
constexpr double usualThreshold = -2.0;
constexpr double usualBeta = 1e-4;

double densityAt(const InputNoise& noise, double hertz) {
    return noise.density * std::sqrt(1.0 + noise.cornerHertz / hertz);
}

}  // namespace

double thermalNoiseVolts(double ohms, double kelvin) {
    return std::sqrt(4.0 * boltzmann * kelvin * ohms);
}

DiodeSheet diodeSheet(const Model& model) {
    return {parameterOr(model, "N", 1.0), parameterOr(model, "IS", usualSaturation)};
}

OpampSheet opampSheet(const Model& model, double hertz) {
    const OpampLaw law(model, DeviceInstance{});
    return {parameterOr(model, "GBW", usualGainBandwidthHz), densityAt(law.voltageNoise(), hertz),
            densityAt(law.currentNoise(), hertz)};
}

JfetSheet jfetSheet(const Model& model) {
    const double pinchOff = std::abs(parameterOr(model, "VTO", usualThreshold));
    return {pinchOff, parameterOr(model, "BETA", usualBeta) * pinchOff * pinchOff};
}

ValveSlopes valveSlopes(const Circuit& circuit, const SolvedCircuit& solved, const Part& valve) {
    const double anode = solved.biasVolts(valve.nets[0]);
    const double grid = solved.biasVolts(valve.nets[1]);
    const double cathode = solved.biasVolts(valve.nets[2]);
    const TriodeLaw law(*findModel(circuit, valve.model), DeviceInstance{valve.parameters});
    TriodeLaw::Point point;
    law.at({anode - cathode, grid - cathode, grid - cathode, grid - anode}, point);
    // The grid's slope comes in front of its resistor and behind it.
    const double siemens = point.currentSlopes[1] + point.currentSlopes[2];
    const double anodeOhms = 1.0 / point.currentSlopes[0];
    return {siemens * anodeOhms, anodeOhms};
}

}  // namespace ohmwright
