/// The wave from the bias state on, start-up and all.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <stop_token>
#include <vector>

namespace ohmwright {

struct ColdWave {
    std::vector<double> seconds;
    std::vector<double> inputVolts;   ///< The tone, without the source's DC value.
    std::vector<double> outputVolts;  ///< With the bias in it.
};

/// The tone rises from zero at t = 0; sources that move by themselves leave their bias then.
///
/// Trapezoidal steps; one in which a source turns a corner is split there, and two backward Euler steps follow the
/// corner, which the trapezoidal rule would answer with ringing. At the moment of a jump the wave is still that before
/// it.
/// @param samplesPerSecond  > 0; the inner step is that or finer (256 a period of the tone).
/// @param outputUnknown  0 .. equations.size(); the last is ground.
/// REQUIRES: `bias` is of these equations.
/// Errors: invalidInput (tone, rate, duration, level); unsolvable; noConvergence naming the worst node; cancelled.
Result<ColdWave> coldWave(const Equations& equations, const OperatingPoint& bias, double toneHz, double voltsPeak,
                          double durationSeconds, double samplesPerSecond, int outputUnknown,
                          const std::stop_token& stop = {});

}  // namespace ohmwright
