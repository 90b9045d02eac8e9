/// Reads a model's and a device's parameters with their defaults.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace ohmwright {

/// The parameter's figure, or the law's default where the model does not state it.
inline double parameterOr(const Model& model, const std::string& name, double fallback) {
    const auto found = model.parameters.find(name);
    return found == model.parameters.end() ? fallback : found->second;
}

inline double parameterOr(const DeviceInstance& instance, const std::string& name, double fallback) {
    const auto found = instance.parameters.find(name);
    return found == instance.parameters.end() ? fallback : found->second;
}

inline bool states(const Model& model, const std::string& name) {
    return model.parameters.count(name) > 0;
}

/// 1/parameter, or 0 where the model states none or 0: an Early voltage or knee current that is not there.
inline double inverseOrNone(const Model& model, const std::string& name) {
    const double value = parameterOr(model, name, 0.0);
    return value > 0.0 ? 1.0 / value : 0.0;
}

/// +1, or -1 for PNP and P channel (POLARITY -1).
inline double polarityOf(const Model& model) {
    return parameterOr(model, "POLARITY", 1.0) < 0.0 ? -1.0 : 1.0;
}

/// Devices in parallel: AREA times M of the instance; 1 where they are no number of devices.
inline double parallelDevices(const DeviceInstance& instance) {
    const double devices = parameterOr(instance, "AREA", 1.0) * parameterOr(instance, "M", 1.0);
    return devices > 0.0 ? devices : 1.0;
}

/// KF of all parallel devices together: the flicker noise of M devices is M times that of one at its share of the
/// current, KF (I/M)^AF.
inline double flickerOf(const Model& model, const DeviceInstance& instance) {
    const double devices = std::max(parameterOr(instance, "M", 1.0), 1e-12);
    return parameterOr(model, "KF", 0.0) * std::pow(devices, 1.0 - parameterOr(model, "AF", 1.0));
}

/// Temperature at which the model's figures hold: TNOM [°C], 27 °C where it states none.
inline double nominalKelvinOf(const Model& model) {
    constexpr double freezingKelvin = 273.15;
    return states(model, "TNOM") ? parameterOr(model, "TNOM", 27.0) + freezingKelvin : nominalKelvin;
}

}  // namespace ohmwright
