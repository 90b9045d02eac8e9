/// The level ladder: the settled output against the level of a tone, with its slope.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/solved_circuit.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// What one level gives at the output; peaks against its no-signal DC voltage.
struct LadderReading {
    double outputVoltsRms = 0.0;  ///< Of the alternating part.
    double fundamentalVoltsPeak = 0.0;
    double positiveVolts = 0.0;
    double negativeVolts = 0.0;
    /// (dB at +2 dB - dB at -2 dB) / 4 of the output's RMS; absent when one of the three levels did not settle or is
    /// silent.
    std::optional<double> slope;
};

struct LadderRung {
    double inputVoltsPeak = 0.0;
    std::optional<LadderReading> reading;  ///< Absent: this level did not settle.
};

struct LevelLadder {
    std::vector<LadderRung> rungs;
    std::string firstTrouble;  ///< Why a reading is absent; empty when all are there.
};

/// @param levels  peaks of the input source, ascending, above 0.
/// @param steps   a period, odd.
/// Errors: invalidInput; unsolvable; cancelled. A level that does not settle is absent, not an error.
Result<LevelLadder> measureLadder(const SolvedCircuit& solved, int output, double toneHz,
                                  const std::vector<double>& levels, std::size_t steps,
                                  const std::stop_token& stop = {});

/// `count` levels from `fromVolts` to `toVolts`, equally spaced in dB, both ends exactly.
std::vector<double> ladderLevels(double fromVolts, double toVolts, int count);

}  // namespace ohmwright
