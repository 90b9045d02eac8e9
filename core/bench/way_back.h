/// The way back: from the board as it is to the frozen stock, mod by mod in the reverse order of fitting.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/order_of_work.h"
#include "core/plan/job.h"

#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

struct WayBack {
    WorkPlan work;                      ///< Steps and readings, bands of stock.
    std::vector<std::string> letters;   ///< Of the mods, in the order of undoing: D, C, B, A.
    std::vector<std::string> notExact;  ///< What has no way back to the letter, a sentence each: a cut lead, a hole.
    std::vector<std::string>
        fromBag;        ///< Old parts that go in again, in the order of undoing: "C4 Cg 56n (printed 563)".
    std::string words;  ///< "C7 back to 47n; R5 Rg back to 3k9; D3 out, leg of D2 back; C4 Cg back to 56n"
};

/// The words alone, without a solve.
std::string wayBackWords(const std::vector<WorkGroup>& groups);

/// Errors: of workGroups; of the solver; cancelled.
Result<WayBack> wayBack(const Job& job, const std::stop_token& stop = {});

/// The circuit with edits carried out, each part as its edit has it after; parts keep their places, new ones come last.
/// Nets that nothing is at any more are no longer open ones. REQUIRES: edits of boardEdits(circuit, ...).
Circuit withEdits(const Circuit& circuit, const std::vector<BoardEdit>& edits);

}  // namespace ohmwright
