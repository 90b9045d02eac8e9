/// What a meter shows at rest with a job's mods fitted: what a recipe compares between two units.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <stop_token>
#include <vector>

namespace ohmwright {

/// DC volts at every net with a pin of a transistor, valve or chip, ground and the battery's own net left out, named by
/// the first of its pins ("J1 drain").
/// Errors: of applyPlan and the solver; cancelled.
Result<std::vector<UnitReading>> restReadings(const Job& job, const std::stop_token& stop = {});

}  // namespace ohmwright
