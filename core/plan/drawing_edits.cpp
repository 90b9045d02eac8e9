// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/drawing_edits.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/drawing/edit_lines.h"
#include "core/drawing/rejoin.h"
#include "core/plan/correct.h"
#include "core/plan/findings.h"
#include "core/plan/fitting_check.h"
#include "core/plan/follow_nets.h"
#include "core/plan/open_visit.h"
#include "core/plan/part_names.h"
#include "core/plan/stock_setting.h"

#include <algorithm>
#include <string>

namespace ohmwright {
namespace {

using GoneInto = std::map<NetName, NetName>;

Error refusal(std::string message, std::string where = {}) {
    return {ErrorCode::invalidInput, std::move(message), std::move(where)};
}

/// A part whose nets are others than its lines show (a leg was corrected) and that the edit would put back on its
/// lines. Another name of a net is no other net.
const Part* putBack(const Circuit& before, const Circuit& after, const GoneInto& goneInto) {
    const Circuit shown = rejoin(before).circuit;
    for (std::size_t i = 0; i < before.parts.size(); ++i) {
        const Part& part = before.parts[i];
        const Part* edited = shown.parts[i].nets != part.nets ? findPart(after, part.id) : nullptr;
        if (edited == nullptr) {
            continue;
        }
        std::vector<NetName> nets = part.nets;
        std::transform(nets.begin(), nets.end(), nets.begin(),
                       [&goneInto](const NetName& net) { return followed(net, goneInto); });
        if (edited->nets != nets) {
            return &part;
        }
    }
    return nullptr;
}

/// The correction that still holds of a part that the edit takes off.
const Correction* lostReading(const Job& job, const Circuit& after) {
    const auto isLost = [&](const Correction& each) {
        if (findPart(job.stock, each.part) == nullptr || findPart(after, each.part) != nullptr) {
            return false;
        }
        const Result<Finding> now = currentReading(job.stock, each.part, each.found);
        return now && isSameFinding(*now, each.found);
    };
    const auto lost = std::find_if(job.corrections.begin(), job.corrections.end(), isLost);
    return lost != job.corrections.end() ? &*lost : nullptr;
}

Result<void> requireNothingLost(const Job& job, const Edited& edit) {
    if (const Correction* lost = lostReading(job, edit.circuit)) {
        const std::string name = correctedName(job.stock, *lost);
        return refusal(said("%1. Erased with it, what was read would be lost: take the correction back first, or say "
                            "that %2 is not on the board.",
                            correctionWords(job.stock, *lost), name),
                       name);
    }
    if (const Part* part = putBack(job.stock, edit.circuit, edit.goneInto)) {
        return refusal(said("%1 is joined elsewhere than its lines show, since a leg of it was corrected: pick it and "
                            "tidy it first.",
                            displayName(*part)),
                       part->reference);
    }
    return {};
}

void renamePart(Circuit& circuit, const PartId& id, const PartId& name) {
    const auto follow = [&](PartId& other) { other = other == id ? name : other; };
    for (Part& part : circuit.parts) {
        follow(part.id);
        std::for_each(part.controls.begin(), part.controls.end(), follow);
    }
    for (Knob& knob : circuit.knobs) {
        follow(knob.part);
    }
    for (Stage& stage : circuit.stages) {
        std::for_each(stage.parts.begin(), stage.parts.end(), follow);
    }
    for (PartId* port : {&circuit.ports.source, &circuit.ports.battery, &circuit.ports.load}) {
        follow(*port);
    }
}

/// Parts that were put down under a name that the job keeps for another one get the next that is free.
void keepOffNamesThatAreTaken(Job& edited, const Circuit& before) {
    for (std::size_t i = 0; i < edited.stock.parts.size(); ++i) {
        const Part part = edited.stock.parts[i];
        if (findPart(before, part.id) != nullptr) {
            continue;
        }
        if (isReserved(edited, part.reference)) {
            edited.stock.parts[i].reference = nextFreeReference(edited, part.kind);
        }
        const std::string& reference = edited.stock.parts[i].reference;
        if (isRemembered(edited, part.id) || reference != part.reference) {
            renamePart(edited.stock, part.id, freePartId(edited, inLowerCase(reference)));
        }
    }
}

}  // namespace

Result<Job> withDrawing(const Job& job, const EditResult& edit) {
    if (!edit) {
        return edit.error();
    }
    if (const Result<void> open = requireOpenVisit(job); !open) {
        return open.error();
    }
    if (const Result<void> kept = requireNothingLost(job, *edit); !kept) {
        return kept.error();
    }
    Job edited = job;
    edited.stock = edit->circuit;
    followNets(edited, edit->goneInto);
    keepOffNamesThatAreTaken(edited, job.stock);
    if (const auto lost = newlyUnfittable(job.stock, edited.stock, edited.plan, edited.setting.throws)) {
        return refusal(said("%1 The plan works on it: take mod %2 off the list first, or leave the drawing as it is.",
                            lost->reason.message, letterOf(lost->mod)),
                       lost->reason.where);
    }
    forgetKnobsNotThere(edited);
    if (const Result<void> taken = followDrawnEnds(job.stock, edited); !taken) {
        return taken.error();
    }
    return edited;
}

Result<Job> withDrawingLines(const Job& job, std::string_view text, const std::vector<Model>& models) {
    Result<Job> edited = job;
    int number = 0;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        ++number;
        edited = withDrawing(*edited, editByLine(edited->stock, text.substr(begin, end - begin), models));
        if (!edited) {
            const std::string line = said("line %1", number);
            return Error{edited.error().code, line + ": " + edited.error().message, line};
        }
        begin = end + 1;
    }
    return edited;
}

}  // namespace ohmwright
