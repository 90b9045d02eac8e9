/// The probe card: what a voltmeter reads at the pins of a powered unit without signal, with the band of a good one.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/device_corners.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

struct ProbeOptions {
    /// Volts of the supply, low and high; absent: as set. A flat battery of the demos' definitions has 7.2 V.
    std::optional<double> lowSupplyVolts, highSupplyVolts;
    std::vector<DeviceSpread> devices;  ///< How far copies of types differ; empty: as the types say themselves.
    bool withTolerances = true;         ///< Resistances and pots inside their tolerance, 95 % of units.
    /// Of a reading that meter and supply add, and the least of it [V]. Common practice, no source.
    double supplyShare = 0.02;
    double leastVolts = 0.02;
};

/// DC against ground at one pin [V]. low <= nominal <= high.
struct ProbeLine {
    PartId part;
    int leg = 0;
    NetName net;
    std::string place;  ///< "Q1 collector", "U1 pin 1 (output)"
    double low = 0.0, nominal = 0.0, high = 0.0;
    double lowByDevices = 0.0, highByDevices = 0.0;  ///< Copies of the types alone, all else nominal.

    friend bool operator==(const ProbeLine&, const ProbeLine&) = default;
};

struct ProbeCard {
    std::vector<ProbeLine> lines;  ///< Pins of transistors, valves and chips, in the circuit's order; a net once.
    /// What the supply gives [A]; absent where the circuit names no supply.
    struct Current {
        double low = 0.0, nominal = 0.0, high = 0.0;
    };
    std::optional<Current> supply;
    double supplyVolts = 0.0;
    std::string words;  ///< What the bands hold, as a sentence.
};

/// Corners of supply and devices solved as they are; tolerances by changing one part at a time and the rule of squares
/// (1.96 sqrt(sum (dV)^2 / 3), dV at the part's own tolerance), at the nominal corner.
/// Errors: of the solver on the nominal circuit; a corner without a bias is left out; cancelled.
Result<ProbeCard> probeCard(const Circuit& circuit, const Setting& setting, const ProbeOptions& options = {},
                            const std::stop_token& stop = {});

}  // namespace ohmwright
