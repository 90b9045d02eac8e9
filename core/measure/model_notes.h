/// What the models of a circuit's devices leave out, where that touches a kind of curve.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/measure/curve_table.h"

#include <string>

namespace ohmwright {

/// Sentences for the one who compares the curve with a bench, of both circuits' devices; empty where the models leave
/// out nothing that shows. What they leave out stands with their laws in core/devices/.
///
///  - Curves of large signals: an op-amp's crossover and common-mode limit, and that a valve's grid current is
///  approximate.
///  - Noise: flicker noise, which makes a bench noisier than the curve at low frequencies.
std::string modelNotes(CurveKind kind, const Circuit& stock, const Circuit& now);

}  // namespace ohmwright
