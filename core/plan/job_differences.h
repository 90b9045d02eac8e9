/// What differs between two states of a job, in words: for the list of what its file held before.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <string>
#include <vector>

namespace ohmwright {

/// "C4 Cg: 56n → 47n", "Mod B (Softer): taken out", "Drive: 5 → 3", "the visit's words"; in the order unit, stock,
/// plan, setting, visit, record. Parts, mods and knobs are told apart by their ids. Empty for equal jobs only.
std::vector<std::string> jobDifferences(const Job& before, const Job& after);

/// "R5: 3k9 → 2k7; Mod B (Softer): added; and 3 more": what fits on one line. @param most  differences, 1 or more.
std::string differencesLine(const std::vector<std::string>& differences, std::size_t most);

}  // namespace ohmwright
