// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correct.h"

#include "core/circuit/check.h"
#include "core/plan/apply.h"
#include "core/plan/findings.h"

#include <algorithm>
#include <cctype>
#include <optional>
#include <utility>

namespace ohmwright {

namespace {

Error wrong(const std::string& sentence, const std::string& where) {
    return {ErrorCode::invalidInput, sentence, where};
}

Error closedVisit(const Job& job) {
    return wrong("Visit " + std::to_string(job.visit.number) +
                     " is gone and its record closed: write a dated note beside it, or begin the next visit.",
                 {});
}

/// The mod that brings the part, or null.
const Mod* bringerOf(const Job& job, const PartId& part) {
    const auto found =
        std::find_if(job.plan.begin(), job.plan.end(), [&](const Mod& mod) { return fitsPart(mod, part); });
    return found != job.plan.end() ? &*found : nullptr;
}

/// The mods that are on, one after the other, on `stock`: the first that cannot be fitted, with the reason.
std::optional<std::pair<const Mod*, Error>> firstUnfittable(const Circuit& stock, const Job& job) {
    Plan fitted;
    for (const Mod& mod : job.plan) {
        fitted.push_back(mod);
        if (const Result<Circuit> now = applyPlan(stock, fitted, job.setting.throws); !now) {
            return std::pair(&mod, now.error());
        }
    }
    return std::nullopt;
}

/// The job with another stock, unless a mod that could be fitted could not be any more.
Result<Job> withStock(const Job& job, const Circuit& stock) {
    const auto after = firstUnfittable(stock, job);
    if (after && !firstUnfittable(job.stock, job)) {
        const std::string letter = after->first->letter.empty() ? after->first->id : after->first->letter;
        return wrong(after->second.message + " Nothing is corrected: switch " + letter + " off or take it out first.",
                     after->second.where);
    }
    Job edited = job;
    edited.stock = stock;
    return edited;
}

/// A word for the id of a part that is found on the board.
PartId freeId(const Job& job, const std::string& reference) {
    std::string base = "found-";
    for (const char c : reference) {
        base += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    const auto isTaken = [&job](const PartId& id) {
        const auto names = [&id](const Mod& mod) {
            return mod.id == id || targetOf(mod.change) == id || fitsPart(mod, id);
        };
        const auto had = [&id](const Correction& each) { return each.part == id; };
        return findPart(job.stock, id) != nullptr || std::any_of(job.plan.begin(), job.plan.end(), names) ||
               std::any_of(job.corrections.begin(), job.corrections.end(), had);
    };
    PartId id = base;
    for (int k = 2; isTaken(id); ++k) {
        id = base + "-" + std::to_string(k);
    }
    return id;
}

/// The entry of this visit that says the same thing of the same part and still holds.
std::optional<std::size_t> entryToReplace(const Job& job, const Correction& correction) {
    for (std::size_t k = job.corrections.size(); k-- > 0;) {
        const Correction& entry = job.corrections[k];
        if (entry.part != correction.part || !isSameThing(entry.found, correction.found)) {
            continue;
        }
        const Result<Finding> now = currentReading(job.stock, entry.part, entry.found);
        const bool holds = now && isSameFinding(*now, entry.found);
        return holds && entry.visit == job.visit.number ? std::optional(k) : std::nullopt;
    }
    return std::nullopt;
}

bool isPartMore(const Correction& correction) {
    const auto* presence = std::get_if<PresenceFound>(&correction.found);
    return presence != nullptr && presence->part.has_value();
}

/// Nets are open on purpose for as long as the corrections together leave them so, whichever came first.
/// REQUIRES: what floated in `before` is a fault of the drawing and stays one.
void openWhatFloats(const Circuit& before, Job& edited, std::size_t touched) {
    const auto isIn = [](const std::vector<NetName>& nets, const NetName& net) {
        return std::find(nets.begin(), nets.end(), net) != nets.end();
    };
    for (const Correction& entry : edited.corrections) {
        std::erase_if(edited.stock.openNets, [&](const NetName& net) { return isIn(entry.opened, net); });
    }
    std::vector<NetName> floating = netsWithoutDcPath(edited.stock);
    const std::vector<NetName> faults = netsWithoutDcPath(before);
    std::erase_if(floating, [&](const NetName& net) { return isIn(faults, net); });
    edited.stock.openNets.insert(edited.stock.openNets.end(), floating.begin(), floating.end());
    for (Correction& entry : edited.corrections) {
        std::erase_if(entry.opened, [&](const NetName& net) { return !isIn(floating, net); });
        std::erase_if(floating, [&](const NetName& net) { return isIn(entry.opened, net); });
    }
    if (touched < edited.corrections.size()) {
        std::vector<NetName>& opened = edited.corrections[touched].opened;
        opened.insert(opened.end(), floating.begin(), floating.end());
    }
}

void markSeenBy(Circuit& stock, const Correction& correction) {
    Part* part = findPart(stock, correction.part);
    const bool isLookedAt = correction.reason != CorrectionReason::misread;
    if (part != nullptr && isLookedAt && part->knowledge == Knowledge::drawn) {
        part->knowledge = Knowledge::seen;
    }
}

/// Who reads the drawn value and says nothing of the marking found no other marking.
void keepMarking(const Finding& drawn, Finding& found) {
    if (auto* value = std::get_if<ValueFound>(&found); value != nullptr && value->printed.empty()) {
        const std::string& printed = std::get<ValueFound>(drawn).printed;
        const Finding marked = ValueFound{value->value, printed};
        value->printed = isSameFinding(marked, drawn) ? printed : std::string();
    }
    if (auto* type = std::get_if<TypeFound>(&found); type != nullptr && type->printed.empty()) {
        const auto& other = std::get<TypeFound>(drawn);
        type->printed = type->model == other.model ? other.printed : std::string();
    }
}

Error drawnAlready(const Circuit& stock, const Correction& correction) {
    const Part* part = findPart(stock, correction.part);
    return wrong(part != nullptr ? displayName(*part) + ": " + findingWords(correction.found, part->kind) +
                                       ", as the drawing says. There is nothing to correct."
                                 : "The drawing has no part \"" + correction.part + "\" either.",
                 correction.part);
}

}  // namespace

Result<Job> correct(const Job& job, const Correction& correction) {
    if (job.visit.state == VisitState::gone) {
        return closedVisit(job);
    }
    Correction entry = correction;
    entry.visit = job.visit.number;
    if (isPartMore(entry)) {
        Part& part = *std::get<PresenceFound>(entry.found).part;
        entry.part = part.id = entry.part.empty() ? freeId(job, part.reference) : entry.part;
    }
    if (const Mod* bringer = bringerOf(job, entry.part)) {
        return wrong(nameOfMod(*bringer) + " brings that part: it is of the plan and not of the unit as found. " +
                         "Change the mod instead.",
                     entry.part);
    }
    Circuit stock = job.stock;
    const std::optional<std::size_t> replaced = entryToReplace(job, entry);
    if (replaced) {
        Result<Circuit> drawn = asDrawn(stock, job.corrections[*replaced]);
        if (!drawn) {
            return drawn.error();
        }
        stock = *std::move(drawn);
    }
    Result<Finding> drawn = currentReading(stock, entry.part, entry.found);
    if (!drawn) {
        return drawn.error();
    }
    entry.drawn = *std::move(drawn);
    keepMarking(entry.drawn, entry.found);
    const bool isAsDrawn = isSameFinding(entry.drawn, entry.found);
    if (isAsDrawn && !replaced) {
        return drawnAlready(job.stock, entry);
    }
    if (!isAsDrawn) {
        Result<PutFinding> put = putFinding(stock, entry.part, entry.found);
        if (!put) {
            return put.error();
        }
        stock = std::move(put->stock);
        entry.opened = std::move(put->opened);
        entry.broughtType = std::move(put->broughtType);
    }
    markSeenBy(stock, entry);
    Result<Job> edited = withStock(job, stock);
    if (!edited) {
        return edited;
    }
    std::vector<Correction>& list = edited->corrections;
    const std::size_t place = replaced.value_or(list.size());
    if (isAsDrawn) {
        list.erase(list.begin() + static_cast<std::ptrdiff_t>(place));
    } else if (replaced) {
        list[place] = std::move(entry);
    } else {
        list.push_back(std::move(entry));
    }
    openWhatFloats(job.stock, *edited, isAsDrawn ? list.size() : place);
    return edited;
}

Result<Job> takeBackCorrection(const Job& job, std::size_t index) {
    if (job.visit.state == VisitState::gone) {
        return closedVisit(job);
    }
    if (index >= job.corrections.size()) {
        return wrong("There is no correction " + std::to_string(index + 1) + "; the list has " +
                         std::to_string(job.corrections.size()) + ".",
                     {});
    }
    const Correction& entry = job.corrections[index];
    const Result<Finding> now = currentReading(job.stock, entry.part, entry.found);
    if (!now || !isSameFinding(*now, entry.found)) {
        return wrong(correctedName(job.stock, entry) +
                         " is not any more what this correction found: a later correction or an earlier visit's mod "
                         "changed it. Take that back first, or correct the part anew.",
                     entry.part);
    }
    const Result<Circuit> drawn = asDrawn(job.stock, entry);
    if (!drawn) {
        return drawn.error();
    }
    Result<Job> edited = withStock(job, *drawn);
    if (edited) {
        edited->corrections.erase(edited->corrections.begin() + static_cast<std::ptrdiff_t>(index));
        openWhatFloats(job.stock, *edited, edited->corrections.size());
    }
    return edited;
}

}  // namespace ohmwright
