/// Unsaved work, kept aside while it is worked on: what a crash leaves to be brought back.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int journalVersion = 1;
/// "1f3a.journal": one a window, in a folder of the user's own.
inline constexpr std::string_view journalSuffix = ".journal";

struct JournalEntry {
    Job job;
    std::string path;  ///< The job's own file; empty when it never had one.
    std::string when;  ///< Of the last edit in it, ISO 8601 local: "2026-11-29T21:58:03".
};

/// Replaces the file in one step. Errors: of replaceFile; a job that could not be read back is refused as saveJob has
/// it.
Result<void> saveJournal(const JournalEntry& entry, const std::filesystem::path& file);

/// Errors: of the system; fileDamaged, fileNewer with the file's path in front.
Result<JournalEntry> loadJournal(const std::filesystem::path& file);

}  // namespace ohmwright
