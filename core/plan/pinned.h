/// States that were pinned to be compared with: pinned, named, taken away, made the plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace ohmwright {

/// A job has so many at most. Their letters are the alphabet's last, so that none is taken for a mod's.
inline constexpr std::string_view pinnedLetters = "WXYZ";
inline constexpr std::size_t mostPinned = pinnedLetters.size();

/// Pins plan and setting as they are under the first free letter; its name tells the mods that are on.
/// Errors: invalidInput when all letters are taken, and when a pinned state has this plan and setting already.
Result<Job> pinState(const Job& job);

/// Errors of the three below: invalidInput when no state is pinned under the letter.
Result<Job> unpinState(const Job& job, const std::string& letter);
/// Errors: also for an empty name.
Result<Job> renamePinned(const Job& job, const std::string& letter, const std::string& name);
/// Its plan and setting become the job's; it stays pinned.
/// Errors: also where its plan cannot be made on stock as it is now, and in a visit that is gone.
Result<Job> promotePinned(const Job& job, const std::string& letter);

/// Null when there is none.
const PinnedState* findPinned(const Job& job, std::string_view letter);
/// The job with that plan and setting: what is solved for it.
Job jobOfPinned(const Job& job, const PinnedState& pinned);

}  // namespace ohmwright
