/// The settled wave with its number of steps chosen by what it does, not by a guess.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/settled.h"

#include <functional>
#include <stop_token>
#include <vector>

namespace ohmwright {

struct SettledTone {
    double toneHz = 0.0;  ///< Of the period.
    double voltsPeak = 0.0;
    /// The drive over the period for a level of 1, by share of the period 0..1; empty for sin(2 pi share).
    std::function<double(double)> shape;
};

struct SettledWave : SettledState {
    /// What finer steps may still move a harmonic of the output by, as a share of its alternating RMS (or 1 nV); 0
    /// where that is under 1 nV, which is the solver's rounding.
    double unsteadyShare = 0.0;

    /// The level, in dB against the output's RMS, above which finer steps move a harmonic by less than a decibel.
    [[nodiscard]] double steadyAboveDb() const;
};

/// The settled state with steps doubled until the output's harmonics up to `harmonics` stand still within
/// `harmonicShare` of its alternating RMS (or 1 nV), from `firstSteps` up to 16,385 a period. Where these are the
/// finest, up to thirty times that share is accepted: `unsteadyShare` tells, and whoever shows the wave must.
/// @param output  unknown that is looked at.
/// Errors: as SettledSolver; noConvergence when the finest steps still differ by more than thirty times that share.
Result<SettledWave> settleWithin(const SolvedCircuit& solved, const SettledTone& tone, int output,
                                 std::size_t firstSteps, int harmonics, const std::stop_token& stop = {},
                                 double harmonicShare = 3e-6);

/// True of an error that one level's wave came to, where other levels may well have theirs: it does not settle, or a
/// formula has no value in it.
bool concernsOneLevel(const Error& error);

/// The smallest odd number of steps, 65 or more, that is at least `wanted`.
std::size_t oddSteps(double wanted);

}  // namespace ohmwright
