/// How an independent source moves with time.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <optional>

namespace ohmwright {

/// The source's value at a moment [V or A].
///
/// Sine: low + high sin(2 pi f (t - delay) + phase) exp(-(t - delay) damping), from `delay` on; before it, low + high
/// sin(phase). Pulse: `low` until `delay`, then up over `rise`, `high` for `width`, down over `fall`, again after each
/// `period`. Source: Nagel, UCB/ERL M520 (1975), independent sources.
double valueAt(const SourceWave& wave, double seconds);

/// The first corner of the wave at or after one moment and before another [s]: a pulse's edges, the beginning of a
/// delayed sine.
std::optional<double> firstCornerIn(const SourceWave& wave, double fromSeconds, double toSeconds);

/// The time after which the wave repeats [s]; absent for one that does not.
std::optional<double> periodOf(const SourceWave& wave);

}  // namespace ohmwright
