/// Names of parts that the job knows, whether the part is on the drawing or not: nothing else may be called so.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <string>

namespace ohmwright {

/// Whether the plan, a correction, a mark on the board or what left after an earlier visit knows a part by that id. An
/// id is never given again: what was read of the one would be taken for the other.
bool isRemembered(const Job& job, const PartId& id);

/// Whether a part that the plan fits, or one that a correction found missing, has that reference.
bool isReserved(const Job& job, const std::string& reference);

/// `wanted`, or with a number after it the first that neither stock has nor isRemembered.
PartId freePartId(const Job& job, const PartId& wanted);

/// A reference such as "D3" that no part and no mod of the job uses yet, and none that a correction found missing: one
/// above the highest.
std::string nextFreeReference(const Job& job, PartKind kind);

}  // namespace ohmwright
