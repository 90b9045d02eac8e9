/// The limits of side effects of a shop, as a file in its folder.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/side_effects.h"

#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int sideEffectLimitsVersion = 1;
/// Its name in the shop folder.
inline constexpr std::string_view sideEffectLimitsFileName = "limits.json";

/// {"limits": {"potMillivolts": {"value": 5, "source": "our own, 2026"}}, "closeShare": 0.2}: keys are the members of
/// SideEffectLimits; one that the file does not name is the house's. A limit needs its source: papers quote it.
/// Errors: fileDamaged naming line and key (no JSON, another kind of file, an unknown key, a limit under 0, no
/// source); fileNewer above sideEffectLimitsVersion.
Result<SideEffectLimits> readSideEffectLimits(std::string_view text);
/// All of them; reading it gives limits equal to `limits`.
std::string writeSideEffectLimits(const SideEffectLimits& limits);

}  // namespace ohmwright
