/// What a meter reads at the nodes with no signal, stock and now side by side: probes to ground, the ones first that a
/// technician puts first.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace ohmwright {

/// Volts against ground, no signal. A net that only one of the two circuits has, has one reading.
struct NetVolts {
    NetName net;
    std::optional<double> stockVolts;
    std::optional<double> nowVolts;
    bool isDevicePin = false;  ///< At a pin of a transistor, valve or op-amp, or a supply: what is read first.

    /// Whether a meter with two decimals tells the two apart.
    [[nodiscard]] bool differs() const;

    friend bool operator==(const NetVolts&, const NetVolts&) = default;
};

/// One a net of the stock circuit, ground left out; device pins and supplies first, else in the
/// circuit's order.
/// @param stockVolts, nowVolts  as LinearState::biasVolts (core/measure/figures.h).
std::vector<NetVolts> probesOf(const Circuit& stock, const std::vector<std::pair<NetName, double>>& stockVolts,
                               const std::vector<std::pair<NetName, double>>& nowVolts);

/// The same of one net, which may be any; without readings where there are none.
NetVolts probeAt(const Circuit& stock, const std::vector<std::pair<NetName, double>>& stockVolts,
                 const std::vector<std::pair<NetName, double>>& nowVolts, const NetName& net);

/// "4.46 V"; "4.46 → 4.51 V" where they differ; "4.46 V" of the only one there is.
std::string probeText(const NetVolts& probe);

}  // namespace ohmwright
