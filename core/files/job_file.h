/// Job files (*.ohmjob): bytes to a Job and back. The format is described in resources/job-file-format.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int jobFileVersion = 1;

/// The canonical text: UTF-8, two spaces, keys in a fixed order, numbers that read back exactly.
/// `readJob(writeJob(job))` gives a job equal to `job`.
std::string writeJob(const Job& job);

/// Errors: fileDamaged, `where` = "line N" or the key's path, message says both and what was expected;
/// fileNewer when `version` is above jobFileVersion.
Result<Job> readJob(std::string_view text);

struct JsonNode;
/// The same from a text that was taken apart already.
Result<Job> readJobNode(const JsonNode& root);

struct LoadedJob {
    Job job;
    std::string fileText;  ///< What was read, to notice a change from outside before it is overwritten.
};
/// Errors: fileUnreadable naming the path and the system's reason; as readJob, with the path in the message.
Result<LoadedJob> loadJob(const std::filesystem::path& path);

/// Written beside the target, flushed to disk, renamed over it: a power cut leaves the old or the new file. What stood
/// there is kept as an earlier version (earlier_versions.h).
/// Errors: fileUnreadable; the old file is untouched then.
Result<void> saveJob(const Job& job, const std::filesystem::path& path);

/// A circuit template (resources/stages): the same format as a job's circuit.
Result<Circuit> readCircuit(std::string_view text);
std::string writeCircuit(const Circuit& circuit);

}  // namespace ohmwright
