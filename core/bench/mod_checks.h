/// The checks of one mod, for a look before the work: what must beep, stay silent and read what after the swap.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/checks.h"
#include "core/plan/job.h"

#include <stop_token>
#include <string_view>
#include <vector>

namespace ohmwright {

/// Every check that the mod's work suggests, on the board with all mods fitted that are on before it; of a mod that is
/// off, on stock with it alone.
/// Errors: invalidInput for an id that is not in the plan; of applyPlan; of the solver; cancelled.
Result<std::vector<Check>> checksOfMod(const Job& job, std::string_view modId, const std::stop_token& stop = {});

}  // namespace ohmwright
