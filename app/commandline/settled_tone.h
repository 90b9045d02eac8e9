/// A tone as the call gives it, and the settled state that it leads to, fine enough for every figure that is printed.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/prepared_circuit.h"
#include "core/measure/settled_wave.h"

#include <stop_token>
#include <string>

namespace ohmwright {

/// What a tone may be anywhere on the command line.
inline constexpr FigureRange toneRange{1e-3, 1e9, "a tone from 0.001 Hz to 1 GHz"};
/// What a level may be anywhere on the command line.
inline constexpr FigureRange levelRange{0.0, 1000.0, "a level from 0 to 1000 V peak"};

struct Tone {
    double hz = 0.0;
    double voltsPeak = 0.0;
};

/// --tone and --level. Errors: invalidInput naming the option and the range.
Result<Tone> toneOf(const Request& request);

/// How still the output's harmonics must stand when the steps double, in shares of its RMS.
inline constexpr double stillWave = 1e-5;       ///< Far under a line's width.
inline constexpr double stillHarmonics = 1e-6;  ///< 0.1 dB of a harmonic 80 dB under it.

struct ToneState {
    SettledWave settled;
    std::string note;  ///< What of it is less exact than asked for; empty when nothing is.
};

/// What a reader is told of a wave that finer steps still move; `steadyAboveDb` as in measure/settled_wave.h.
std::string unsteadyNote(double steadyAboveDb);

/// The periodic state at a tone, so fine that the output's harmonics stand still (measure/settled_wave.h). A wave with
/// edges too steep for that is given ten times as coarse, and says so.
/// @param samplesPerPeriod  that will be read from the wave; four steps are made for each, up to 2049 a period at
/// first.
/// Errors: noConvergence, unsolvable, cancelled.
Result<ToneState> settleAtTone(const SolvedCircuit& solved, int output, const Tone& tone, double samplesPerPeriod,
                               int harmonics, double share, const std::stop_token& stop);

}  // namespace ohmwright
