/// Whether the plan can still be fitted to a stock circuit that is another than before.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/error.h"
#include "core/plan/job.h"

#include <optional>

namespace ohmwright {

struct UnfittableMod {
    Mod mod;
    Error reason;  ///< As applyPlan says it: the mod's letter and name first.
};

/// The first mod that is on and could be fitted on `before` and cannot on `after`, after the mods before it that can;
/// with every switch of the plan at each of its throws, the others standing as `throws` says.
std::optional<UnfittableMod> newlyUnfittable(const Circuit& before, const Circuit& after, const Plan& plan,
                                             const Throws& throws);

/// "C", or the id of a mod without a letter: what a person switches off.
std::string letterOf(const Mod& mod);

}  // namespace ohmwright
