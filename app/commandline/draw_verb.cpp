// The verb that draws: edits of the map as lines of text.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/files/atomic_file.h"
#include "core/files/job_file.h"
#include "core/files/part_data.h"
#include "core/plan/drawing_edits.h"

#include <algorithm>

namespace ohmwright {

namespace {

Result<Job> jobDrawnOn(const Request& request) {
    if (!request.file.empty()) {
        Result<LoadedJob> loaded = loadJob(request.file);
        if (!loaded) return loaded.error();
        return std::move(loaded->job);
    }
    Job job;
    job.unit.name = request.name.empty() ? "New unit" : request.name;
    return job;
}

/// The unit's own types, those of --models, and the house's.
Result<std::vector<Model>> typesFor(const Request& request, const Job& job) {
    std::vector<Model> types = job.stock.models;
    if (!request.models.empty()) {
        const Result<PartLibrary> library = loadModels(request.models);
        if (!library) return Error{ErrorCode::fileUnreadable, library.error().message, request.models};
        types.insert(types.end(), library->models.begin(), library->models.end());
    }
    const std::vector<Model>& ofHouse = houseLibrary().models;
    for (const Model& model : ofHouse) {
        const bool isKnown =
            std::any_of(types.begin(), types.end(), [&model](const Model& type) { return type.name == model.name; });
        if (!isKnown) types.push_back(model);
    }
    return types;
}

}  // namespace

Result<WrittenFile> writeDrawn(const Request& request) {
    const Result<std::string> lines = readWholeFile(request.lines);
    if (!lines) return lines.error();
    const Result<Job> job = jobDrawnOn(request);
    if (!job) return job.error();
    const auto types = typesFor(request, *job);
    if (!types) return types.error();
    const Result<Job> drawn = withDrawingLines(*job, *lines, *types);
    if (!drawn) return drawn.error();
    return WrittenFile{writeJob(*drawn), {}};
}

}  // namespace ohmwright
