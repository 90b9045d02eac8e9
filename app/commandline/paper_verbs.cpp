// Verbs that go before and after a sheet: parts that were looked at on the board, papers that were printed.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/files/job_file.h"
#include "core/plan/papers.h"

namespace ohmwright {

namespace {

Result<WrittenFile> asFile(const Result<Job>& job) {
    if (!job) return job.error();
    return WrittenFile{writeJob(*job), {}};
}

/// Those of --parts, else all that the plan works on and nobody saw.
Result<std::vector<PartId>> seenParts(const Job& job, const Request& request) {
    if (request.parts.empty()) return unseenParts(job);
    std::vector<PartId> parts;
    for (const std::string& name : splitAtCommas(request.parts)) {
        const Result<const Part*> part = partNamed(job.stock, "--parts", name);
        if (!part) return part.error();
        parts.push_back((*part)->id);
    }
    return parts;
}

}  // namespace

Result<WrittenFile> writeSeen(const Job& job, const Request& request, const std::stop_token&) {
    const auto parts = seenParts(job, request);
    if (!parts) return parts.error();
    auto file = asFile(markSeen(job, *parts));
    if (file && parts->empty()) file->notes.emplace_back("Every part that the plan works on was seen already.");
    return file;
}

Result<WrittenFile> writePrinted(const Job& job, const Request& request, const std::stop_token&) {
    const auto kind = paperOfWord(request.kind);
    if (!kind) return refuseOption("--kind", "choose bench, way-back, customer, label or quote.");
    auto file = asFile(recordPaper(job, *kind, request.when.empty() ? timeOfNow() : request.when));
    if (!file) return file;
    for (const PrintedPaper& paper : job.visit.papers)
        if (isVoid(job, paper))
            file->notes.push_back("The " + paper.kind + " paper of " + paper.when +
                                  " is void: printed from an earlier plan, " + paper.hash + ".");
    return file;
}

}  // namespace ohmwright
