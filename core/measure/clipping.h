/// Clip curve and clip thresholds: where each half-wave begins to flatten.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"

#include <optional>
#include <stop_token>

namespace ohmwright {

/// Peaks at a node against input level at one tone, with the thresholds.
///
/// Incremental gain g(V) = |P(V k) - P(V/k)|/(V (k - 1/k)), k = 10^(0.5/20): half a dB either way. The threshold of a
/// half-wave is the lowest V at which g has fallen to 1/sqrt 2 of the small-signal gain at the tone; searched up to 3
/// V. A level that does not settle, or at which a formula has no value, is left out, and `trouble` says so.
/// Errors: invalidInput, unsolvable (at any level) and cancelled, as solve/settled.h.
Result<ClipCurve> measureClipCurve(const SolvedCircuit& solved, const NetName& node, double toneHz,
                                   const LargeSignalOptions& options, const std::stop_token& stop = {});

}  // namespace ohmwright
