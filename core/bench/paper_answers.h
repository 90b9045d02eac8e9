/// Everything that a paper says, worked out before the first line of it is set.
///
/// Nothing is worked out for a job that is not solved, or whose plan works on parts that nobody has looked at.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/way_back.h"
#include "core/parts/drawer.h"
#include "core/plan/claims.h"
#include "core/plan/compare.h"
#include "core/plan/knob_translation.h"
#include "core/plan/papers.h"
#include "core/plan/pick_list.h"
#include "core/plan/quote.h"

#include <memory>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// A value; safe to hand to another thread.
struct PaperRequest {
    PaperKind kind = PaperKind::bench;
    std::shared_ptr<const Job> job;
    ClaimLimits words = houseClaimLimits();  ///< Of the customer sheet.
    Drawer drawer;                           ///< Of the quote, and where the bench sheet's parts lie.
    bool isStockAssumed = true;              ///< No drawer was looked into.
    ShopRates rates;                         ///< Of the quote.
    /// Earlier answers, or null: what in them was solved from the same circuit and setting is taken over.
    std::shared_ptr<const LinearAnswer> lastLinear;
    std::shared_ptr<const LargeSignalAnswer> lastLargeSignal;
};

/// What stays empty does not stand on that kind of paper.
struct PaperAnswers {
    PaperKind kind = PaperKind::bench;
    std::shared_ptr<const Job> job;
    std::shared_ptr<const LinearAnswer> linear;            ///< Of every kind: the state is solved.
    std::shared_ptr<const LargeSignalAnswer> largeSignal;  ///< Bench and customer sheet.
    std::vector<WorkGroup> groups;                         ///< Bench sheet.
    WorkPlan work;                                         ///< Bench sheet; of the way back it stands in `back`.
    std::vector<PickLine> picks;                           ///< Bench sheet; empty while stock is assumed.
    WayBack back;                                          ///< Way-back and customer sheet.
    std::vector<KnobTranslation> knobs;                    ///< Customer sheet.
    std::vector<ClaimAnswer> claims;                       ///< Customer sheet.
    Quote quote;
    Drawer drawer;  ///< As it was asked with: lots of the picks.
    bool isStockAssumed = true;
};

/// Takes from some milliseconds (label) to some seconds (customer sheet).
/// Errors: of checkMapped and checkSeen; why the job cannot be solved, with "No paper is made" before it; of the
/// quote's rates; cancelled.
Result<PaperAnswers> answersOfPaper(const PaperRequest& request, const std::stop_token& stop = {});

}  // namespace ohmwright
