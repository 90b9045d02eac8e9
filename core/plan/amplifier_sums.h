/// Sums of transistors and valves that amplify: their gain, and the shelf of a bypassed resistance.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/sum_bench.h"

namespace ohmwright {

/// Of every bipolar, JFET and triode that amplifies (measure/amplifier.h). Errors: of the solver; cancelled.
Result<void> addAmplifierSums(SumBench& bench);

}  // namespace ohmwright
