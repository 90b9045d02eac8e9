/// Papers that leave with the unit or go to its owner: customer sheet, label for inside the lid, quote.
///
/// Plain words, few figures. Vector, monochrome safe, no text under 9 pt; each carries serial, visit and plan state
/// hash. What is not proven yet is told as planned, never as done.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/paper_frame.h"
#include "core/base/result.h"
#include "core/plan/claims.h"
#include "core/plan/job.h"
#include "core/plan/quote.h"

#include <stop_token>

namespace ohmwright {

/// What was asked and done, before and after in a few figures, where the knobs stand now and what was kept equal, the
/// customer's words held against the figures, what cannot be undone. Solves all of that: some seconds.
/// Errors: why the job cannot be solved, with "No sheet" before it; cancelled.
Result<Paper> customerSheet(const Job& job, PaperSize paper, const ClaimLimits& words = houseClaimLimits(),
                            const std::stop_token& stop = {});

/// To be cut out: 100 mm wide, a line for each mod that is on.
Paper lidLabel(const Job& job, PaperSize paper);

/// Lines of work and parts with their prices, what is to be ordered, and what the customer must agree to in writing.
/// @param isStockAssumed  says that no drawer was looked into.
Paper quoteSheet(const Job& job, const Quote& quote, PaperSize paper, bool isStockAssumed);

}  // namespace ohmwright
