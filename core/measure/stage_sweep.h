/// The gain of one stage between its borders, in the loaded circuit: its summit, its corners, its dip.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"

#include <cstddef>
#include <optional>
#include <stop_token>

namespace ohmwright {

/// Gain between a stage's two border nets at any frequency. Borrows `solved`.
class StageSweep {
public:
    /// REQUIRES: both border nets are in the circuit.
    StageSweep(const SolvedCircuit& solved, const Stage& stage);

    /// [dB]; errors as SmallSignal::at.
    Result<double> at(double hertz);

private:
    SmallSignal m_signal;
    std::size_t m_input, m_output;
};

struct StageCorners {
    double highestDb = 0.0;
    double highestHz = 0.0;
    std::optional<double> lowHz,
        highHz;  ///< Where it is 10 log10 2 dB under the highest; absent: none in 20 Hz..20 kHz.
};

/// Highest gain and the nearest corner on each side of it, from 20 Hz to 20 kHz. Errors: as SmallSignal::at; cancelled.
Result<StageCorners> findCorners(const SolvedCircuit& solved, const Stage& stage, const std::stop_token& stop = {});

/// Only the highest gain and where it is.
Result<StageCorners> findHighest(const SolvedCircuit& solved, const Stage& stage, const std::stop_token& stop = {});

/// The lowest point of a gain that rises on both sides of it.
struct StageDip {
    double depthDb = 0.0;  ///< The gain there: of a passive network below 0.
    double hertz = 0.0;
    double underDb = 0.0;  ///< How far under the lower of the two summits beside it.
};
/// The dip that lies furthest under its summits, from 20 Hz to 20 kHz; absent when the gain has none of 0.5 dB.
Result<std::optional<StageDip>> findDip(const SolvedCircuit& solved, const Stage& stage,
                                        const std::stop_token& stop = {});

}  // namespace ohmwright
