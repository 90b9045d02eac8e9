/// Impedance looking into a circuit about its bias.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <complex>
#include <span>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// What the input source sees: the voltage across it over the current that it drives into the circuit [Ω].
/// Errors: unsolvable when there is no input or no current flows; as SmallSignal::at; cancelled.
Result<std::vector<std::complex<double>>> inputImpedance(const Equations& equations, const OperatingPoint& bias,
                                                         std::span<const double> hertz,
                                                         const std::stop_token& stop = {});

/// Between a node and ground with the input source silent [Ω]; what is connected at the node, as the load, counts.
Result<std::vector<std::complex<double>>> nodeImpedance(const Equations& equations, const OperatingPoint& bias,
                                                        int node, std::span<const double> hertz,
                                                        const std::stop_token& stop = {});

/// Between two nodes with the input source silent [Ω]. REQUIRES: both are unknowns or size() for ground.
Result<std::vector<std::complex<double>>> impedanceBetween(const Equations& equations, const OperatingPoint& bias,
                                                           Control nodes, std::span<const double> hertz,
                                                           const std::stop_token& stop = {});

}  // namespace ohmwright
