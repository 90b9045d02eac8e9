// A circuit placed and drawn anew.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/drawing/arrange.h"
#include "core/drawing/edit.h"
#include "core/drawing/legibility.h"
#include "core/files/job_file.h"
#include "core/files/netlist_job.h"
#include "core/plan/open_visit.h"

#include <filesystem>

namespace ohmwright {

namespace {

std::string counted(int number, const char* one) {
    std::string words = std::to_string(number);
    words.append(" ").append(one);
    return number == 1 ? words : words.append("s");
}

/// "Harbour Lamp: 3 bends, 1 crossing; stages Source, Gain stage, Level."
std::string reading(const Job& job) {
    const Legibility read = legibilityOf(job.stock);
    std::string words = job.unit.name;
    words.append(": ").append(counted(read.bends, "bend")).append(", ").append(counted(read.crossings, "crossing"));
    const char* before = "; stages ";
    for (const Stage& stage : job.stock.stages) {
        words.append(before).append(stage.name);
        before = ", ";
    }
    return words.append(".");
}

Result<std::vector<PartId>> chosenParts(const Circuit& circuit, const std::string& references) {
    std::vector<PartId> chosen;
    if (references.empty()) return chosen;
    for (const std::string& name : splitAtCommas(references)) {
        const Result<const Part*> part = partNamed(circuit, "--parts", name);
        if (!part) return part.error();
        chosen.push_back((*part)->id);
    }
    return chosen;
}

Error tooMany(std::size_t count) {
    return {ErrorCode::invalidInput,
            "The circuit has " + std::to_string(count) + " parts, more than a map of one screen can show (" +
                std::to_string(mostPartsOfAMap) + "): it stays a list. Choose parts with --parts, or take some out.",
            "--parts"};
}

}  // namespace

Result<WrittenFile> writeArranged(InputFile file, const Request& request) {
    WrittenFile written;
    Job job;
    const auto* netlist = std::get_if<Netlist>(&file);
    const std::size_t count = netlist ? netlist->circuit.parts.size() : std::get<Job>(file).stock.parts.size();
    if (request.parts.empty() && count > mostPartsOfAMap) return tooMany(count);
    const bool isNetlist = netlist != nullptr;
    if (isNetlist) {
        const std::string name = std::filesystem::path(request.file).stem().string();
        Result<NetlistJob> taken = jobFromNetlist(std::get<Netlist>(std::move(file)), name);
        if (!taken) return taken.error();
        job = std::move(taken->job);  // drawn already
        for (const NetlistNote& note : taken->notes) written.notes.push_back(note.message);
    } else {
        job = std::get<Job>(std::move(file));
        if (const Result<void> open = requireOpenVisit(job); !open) return open.error();
    }
    const Result<std::vector<PartId>> chosen = chosenParts(job.stock, request.parts);
    if (!chosen) return chosen.error();
    if (!chosen->empty()) {
        Circuit after = arrange(job.stock, *chosen);
        if (after == job.stock) written.notes.push_back("These parts are tidy already: they stand as they stood.");
        job.stock = std::move(after);
    } else if (!isNetlist) {
        job.stock = arrange(job.stock);
    }
    if (!isOnSheet(job.stock.drawing.size))
        return Error{ErrorCode::invalidInput,
                     "The drawing would be larger than a sheet can be (" + std::to_string(largestGrid) +
                         " steps): choose some of its parts with --parts.",
                     "--parts"};
    written.notes.push_back(reading(job));
    written.text = writeJob(job);
    return written;
}

}  // namespace ohmwright
