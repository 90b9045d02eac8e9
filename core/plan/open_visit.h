/// Whether the unit as found and the plan may still be changed.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/base/said.h"
#include "core/plan/job.h"

#include <string>

namespace ohmwright {

/// Errors: invalidInput when the visit is gone: its record is closed, and the next visit begins from it.
inline Result<void> requireOpenVisit(const Job& job) {
    if (job.visit.state != VisitState::gone) {
        return {};
    }
    return Error{ErrorCode::invalidInput,
                 said("Visit %1 is gone and its record closed: write a dated note beside it, or begin the next visit.",
                      job.visit.number),
                 {}};
}

}  // namespace ohmwright
