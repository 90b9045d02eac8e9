// Verbs of what a job's file held before: listed with what differs, and one of them written out again.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/files/earlier_versions.h"
#include "core/files/job_file.h"
#include "core/plan/job_differences.h"

#include <sys/stat.h>
#include <algorithm>
#include <array>
#include <ctime>

namespace ohmwright {

namespace {

/// "2026-11-29T21:58:03", local time; empty when the system does not say.
std::string writtenAt(const std::filesystem::path& file) {
    struct stat status = {};
    std::tm local = {};
    std::array<char, 32> text{};
    if (::stat(file.c_str(), &status) != 0 || ::localtime_r(&status.st_mtime, &local) == nullptr) return {};
    return {text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%S", &local)};
}

}  // namespace

Result<Answer> answerEarlier(const PreparedCircuit&, const Request& request, const std::stop_token&) {
    // As the file holds it: the prepared job has its mods switched as the call wants them.
    const Result<LoadedJob> present = loadJob(request.file);
    if (!present) return present.error();
    Answer answer{{Table{{"number", "written", "until_now"}, {}}}, {}, {}};
    double number = 0.0;
    for (const std::filesystem::path& file : earlierVersionsOf(request.file)) {
        ++number;
        const Result<LoadedJob> loaded = loadJob(file);
        if (!loaded) {
            answer.notes.push_back(loaded.error().message);
            continue;
        }
        const std::vector<std::string> differences = jobDifferences(loaded->job, present->job);
        answer.tables.front().rows.push_back(
            {number, writtenAt(file), differencesLine(differences, differences.size())});
    }
    if (number == 0.0) answer.notes.emplace_back("The file was saved once only: there is no earlier version.");
    return answer;
}

Result<WrittenFile> writeEarlierVersion(const Job&, const Request& request, const std::stop_token&) {
    const std::vector<std::filesystem::path> files = earlierVersionsOf(request.file);
    if (files.empty()) return refuseOption("--number", "the file was saved once only: there is no earlier version.");
    const auto number = readCountOr("--number", request.number, 1, static_cast<int>(files.size()), 1);
    if (!number) return number.error();
    const Result<LoadedJob> loaded = loadJob(files[static_cast<std::size_t>(*number - 1)]);
    if (!loaded) return loaded.error();
    return WrittenFile{loaded->fileText, {}};
}

}  // namespace ohmwright
