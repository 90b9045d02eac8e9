/// Sums of the diodes that clip: the voltage at which each half-wave flattens.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/sum_bench.h"

namespace ohmwright {

/// Of diodes across the feedback of the op-amp that clips, or of diodes from the clip node to a net that rests; none
/// where no diodes do either. Errors: of the solver; cancelled.
Result<void> addCeilingSums(SumBench& bench);

}  // namespace ohmwright
