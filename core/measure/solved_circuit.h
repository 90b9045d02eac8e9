/// A circuit at a setting, compiled and biased: what every measurement starts from.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <memory>
#include <stop_token>

namespace ohmwright {

struct SolvedCircuit {
    std::unique_ptr<const Equations> equations;  ///< At a fixed address: analyses borrow it.
    std::unique_ptr<const OperatingPoint> bias;

    /// Voltage of a net with no signal; 0 for ground. REQUIRES: the net exists.
    [[nodiscard]] double biasVolts(const NetName& net) const;
};

/// Errors: unsolvable when the circuit names no source, or no output off ground; as Equations::compile and solveBias.
Result<SolvedCircuit> solveCircuit(const Circuit& circuit, const Setting& setting, const std::stop_token& stop = {});

/// The same, quicker where the topology is that of `like`: numbering and pivot orders are taken over, the bias starts
/// from its bias.
Result<SolvedCircuit> solveCircuitLike(const SolvedCircuit& like, const Circuit& circuit, const Setting& setting,
                                       const std::stop_token& stop = {});

}  // namespace ohmwright
