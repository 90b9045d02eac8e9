/// Clip onset: the lowest pick level at which the wave at a node is no sine any more.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/solved_circuit.h"

#include <optional>
#include <stop_token>

namespace ohmwright {

/// Harmonic distortion that counts as onset, a ratio: harmonics 2..10 over the fundamental, 1 %.
inline constexpr double onsetDistortion = 0.01;

/// The lowest peak of the input source at which the distortion at `node` reaches 1 % [V]; absent when it does not up to
/// 3 V, or no signal arrives there. Searched upwards by 4 dB from 0.2 mV, then to 1e-5 of the level.
/// Errors: as solve/settled.h; invalidInput when there is no such net; cancelled.
Result<std::optional<double>> measureClipOnset(const SolvedCircuit& solved, const NetName& node, double toneHz,
                                               const std::stop_token& stop = {});

}  // namespace ohmwright
