/// How much each part moves the gain: d(dB)/d(ln p) of every part at every frequency from one adjoint solve, the shift
/// of the bias included.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <span>
#include <stop_token>
#include <vector>

namespace ohmwright {

struct InfluenceCurves {
    std::vector<double> hertz;
    std::vector<double> gainDb;
    /// dB for +10 % of the part's value, to first order (0.1 d(dB)/d(ln p)): one row a part in the circuit's order, one
    /// entry a frequency; an empty row for parts without a value. Both halves of a pot move together.
    std::vector<std::vector<double>> dbPerTenPercent;
};

/// R, C, L, pots, couplings, controlled sources; of independent sources the DC value (the supply's, through the bias).
/// Errors: as SmallSignal::at; unsolvable when the output is silent; cancelled.
/// Source: S. W. Director, R. A. Rohrer, IEEE Trans. Circuit Theory CT-16 (1969) 318.
Result<InfluenceCurves> solveInfluence(const Equations& equations, const OperatingPoint& bias, int output,
                                       std::span<const double> hertz, const std::stop_token& stop = {});

}  // namespace ohmwright
