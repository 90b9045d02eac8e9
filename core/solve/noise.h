/// Noise at an output about the bias: every resistance and device as an uncorrelated noise current, all from one
/// transposed solve a frequency.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <span>
#include <stop_token>
#include <vector>

namespace ohmwright {

struct NoiseCurve {
    std::vector<double> hertz;
    std::vector<double> output;  ///< Density at the output [V/√Hz].
    std::vector<double> gain;    ///< |output / input source| [V/V, or V/A of a current source]; 0 without an input.
    /// Power density at the output by part [V^2/Hz]: one row a part in the circuit's order, one entry a frequency;
    /// empty row for parts without noise.
    std::vector<std::vector<double>> byPart;

    /// output / gain [V/√Hz or A/√Hz]; no number where the gain is 0.
    [[nodiscard]] double inputReferred(std::size_t at) const { return output[at] / gain[at]; }
};

/// 4kT/R of resistances, 2qI of diodes and transistors, channels, flicker, en and in of op-amps (devices/).
/// @param output  unknown of the output's voltage.
/// Errors: as SmallSignal::at; cancelled.
/// Source of the adjoint method: R. Rohrer, L. Nagel, R. Meyer, L. Weber, IEEE J. Solid-State Circuits SC-6 (1971) 204.
Result<NoiseCurve> solveNoise(const Equations& equations, const OperatingPoint& bias, int output,
                              std::span<const double> hertz, const std::stop_token& stop = {});

/// Root of the integral of the density between two frequencies [V RMS], by the trapezoidal rule over the curve's
/// points.
double noiseVoltsRms(const NoiseCurve& curve, double fromHz, double toHz);

}  // namespace ohmwright
