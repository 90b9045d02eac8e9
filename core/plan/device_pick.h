/// Which device of a measured bag to fit, and the resistor that suits it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/parts/drawer.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// One device of the bag in the place of a part, solved.
struct DevicePick {
    std::string lot;
    std::string label;                  ///< Of the device: "7".
    Model model;                        ///< The type with this device's own figures (parts/drawer.h).
    double outputVolts = 0.0;           ///< DC at collector or drain.
    double stageGainDb = 0.0;           ///< Of the stage that the part is in, at 1 kHz.
    double balance = 0.0;               ///< Drop over the load resistor over the drop over the device; 1 is half way.
    std::optional<double> trimmedOhms;  ///< Load resistor at which it is half way; absent when none does.
    double trimmedGainDb = 0.0;         ///< Stage gain with that; NaN without.
    std::string sentence;               ///< "device 5: drain 3.88 V, 18.7 dB with 5k37"
};

/// What the pick is ranked by.
struct PickWish {
    std::optional<double> outputVolts;
    std::optional<double> stageGainDb;
};

/// The load resistor of a transistor or JFET: the one between its collector or drain and what is not reached from the
/// device else; empty when there is not exactly one.
PartId loadResistorOf(const Circuit& circuit, const PartId& device);

/// The load resistor's value at which as much drops over it as over the device (drop over it = |Vce| or |Vds|) [Ω].
/// Errors: invalidInput without a load resistor; noConvergence when none from 10 Ω to 10 MΩ does; of the solver.
Result<double> trimmedLoadOhms(const Circuit& circuit, const Setting& setting, const PartId& device,
                               const std::stop_token& stop = {});

/// Every measured device of the part's own type (or of `lot`, when it is named) in its place, best first: nearest to
/// the wish (0.1 V and 0.1 dB count alike), without one nearest to half way as the circuit stands. Errors: invalidInput
/// when the part is no transistor or JFET, or the drawer holds no measured device for it.
Result<std::vector<DevicePick>> pickDevices(const Circuit& circuit, const Setting& setting, const PartId& part,
                                            const Drawer& drawer, const PickWish& wish = {},
                                            const std::string& lot = {}, const std::stop_token& stop = {});

}  // namespace ohmwright
