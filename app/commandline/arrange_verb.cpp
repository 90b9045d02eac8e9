// A circuit placed and drawn anew.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/drawing/arrange.h"
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

}  // namespace

Result<WrittenFile> writeArranged(InputFile file, const Request& request) {
    WrittenFile written;
    Job job;
    if (auto* netlist = std::get_if<Netlist>(&file)) {
        const std::string name = std::filesystem::path(request.file).stem().string();
        Result<NetlistJob> taken = jobFromNetlist(std::move(*netlist), name);
        if (!taken) return taken.error();
        job = std::move(taken->job);
        for (const NetlistNote& note : taken->notes) written.notes.push_back(note.message);
    } else {
        job = std::get<Job>(std::move(file));
        if (const Result<void> open = requireOpenVisit(job); !open) return open.error();
    }
    const Result<std::vector<PartId>> chosen = chosenParts(job.stock, request.parts);
    if (!chosen) return chosen.error();
    job.stock = chosen->empty() ? arrange(job.stock) : arrange(job.stock, *chosen);
    written.notes.push_back(reading(job));
    written.text = writeJob(job);
    return written;
}

}  // namespace ohmwright
