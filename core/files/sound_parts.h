/// What is sound in a job file that is damaged, or that a newer program wrote: to be looked at, never to be saved over.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

struct SoundParts {
    Job job;
    /// One sentence for each place that is not as it should be, with its line and key: what was left out there, what
    /// stands empty, what is not known. Never empty.
    std::vector<std::string> faults;
    bool isNewer = false;  ///< Of a later format version.
};

/// A wrong entry of a list (a part, a mod, a wire, a visit) is left out whole, since half of it would be a guess; a
/// wrong value anywhere else stands as in a new job. Where the text breaks off, what comes after is missing. Errors: as
/// readJob, when it is sound after all, is no job file, or holds no part that can be read.
Result<SoundParts> readSoundParts(std::string_view text);

/// Errors: of the system; as readSoundParts with the file's path in front.
Result<SoundParts> loadSoundParts(const std::filesystem::path& path);

}  // namespace ohmwright
