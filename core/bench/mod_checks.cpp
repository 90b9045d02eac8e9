// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/mod_checks.h"

#include "core/base/said.h"
#include "core/bench/board_edits.h"
#include "core/plan/apply.h"

#include <algorithm>

namespace ohmwright {

Result<std::vector<Check>> checksOfMod(const Job& job, std::string_view modId, const std::stop_token& stop) {
    const auto found =
        std::find_if(job.plan.begin(), job.plan.end(), [modId](const Mod& mod) { return mod.id == modId; });
    if (found == job.plan.end()) {
        return Error{ErrorCode::invalidInput, said("There is no mod \"%1\" in the plan.", modId), std::string(modId)};
    }
    Plan earlier;
    if (found->on) {
        earlier.assign(job.plan.begin(), found);
    }
    Plan fitted = earlier;
    fitted.push_back(*found);
    fitted.back().on = true;
    const Result<Circuit> before = applyPlan(job.stock, earlier, job.setting.throws);
    if (!before) {
        return before.error();
    }
    const Result<Circuit> after = applyPlan(job.stock, fitted, job.setting.throws);
    if (!after) {
        return after.error();
    }
    return candidateChecks(boardEdits(*before, *after), *after, job.setting, {}, stop);
}

}  // namespace ohmwright
