// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_journal.h"

#include "core/files/atomic_file.h"
#include "core/files/file_head.h"
#include "core/files/job_file.h"
#include "core/files/named_file.h"

namespace ohmwright {

namespace {

constexpr std::string_view journalFormat = "ohmwright-journal";

Result<JournalEntry> readJournal(std::string_view text) {
    struct Members {
        std::string job;
        std::string path;
        std::string when;
    };
    const auto members = readOfKind(text, journalFormat, journalVersion, [](JsonReader& reader) {
        return Members{reader.text("job"), reader.text("path"), reader.text("when")};
    });
    if (!members) {
        return members.error();
    }
    Result<Job> job = readJob(members->job);
    if (!job) {
        return job.error();
    }
    return JournalEntry{*std::move(job), members->path, members->when};
}

}  // namespace

Result<void> saveJournal(const JournalEntry& entry, const std::filesystem::path& file) {
    const std::string job = writeJob(entry.job);
    if (const Result<Job> again = readJob(job); !again) {
        return again.error();
    }
    JsonNode root = writeHead(journalFormat, journalVersion);
    root.add("path", JsonNode::ofText(entry.path));
    root.add("when", JsonNode::ofText(entry.when));
    // As the job's own file would hold it: read by the same reader, with the same care.
    root.add("job", JsonNode::ofText(job));
    return replaceFile(file, printJson(root));
}

Result<JournalEntry> loadJournal(const std::filesystem::path& file) {
    return loadBy(file, readJournal);
}

}  // namespace ohmwright
