/// Sums of the op-amp stage that clips: gain leg, gain, the ceiling of its diodes, noise, spread of the corner.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/sum_bench.h"

namespace ohmwright {

/// None where no op-amp with a gain leg drives the clip node. Errors: of the solver; cancelled.
Result<void> addOpampSums(SumBench& bench);
/// Worst case and rule of squares of the gain-leg corner, from the tolerances of its two parts.
Result<void> addCornerSpread(SumBench& bench);

}  // namespace ohmwright
