// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correct.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/plan/correction_traces.h"
#include "core/plan/findings.h"
#include "core/plan/fitting_check.h"
#include "core/plan/open_visit.h"
#include "core/plan/part_names.h"
#include "core/plan/stock_setting.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace ohmwright {

namespace {

constexpr double knobTravel = 10.0;

Error wrong(const std::string& sentence, const std::string& where) {
    return {ErrorCode::invalidInput, sentence, where};
}

/// The mod that brings the part, or null.
const Mod* bringerOf(const Job& job, const PartId& part) {
    const auto found =
        std::find_if(job.plan.begin(), job.plan.end(), [&](const Mod& mod) { return fitsPart(mod, part); });
    return found != job.plan.end() ? &*found : nullptr;
}

/// The job with another stock, unless a mod that could be fitted could not be any more.
Result<Job> withStock(const Job& job, const Circuit& stock) {
    if (const auto lost = newlyUnfittable(job.stock, stock, job.plan, job.setting.throws)) {
        return wrong(said("%1 Nothing is corrected: switch %2 off or take it out first.", lost->reason.message,
                          letterOf(lost->mod)),
                     lost->reason.where);
    }
    Job edited = job;
    edited.stock = stock;
    forgetKnobsNotThere(edited);
    return edited;
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

/// Where the knob of a part stands that is not there: kept for the way back.
void keepKnobPosition(const Setting& setting, Finding& drawn) {
    auto* presence = std::get_if<PresenceFound>(&drawn);
    if (presence != nullptr && presence->knob) {
        const auto knob = setting.knobs.find(presence->knob->id);
        presence->knobPosition = knob != setting.knobs.end() ? std::optional(knob->second) : std::optional<double>();
    }
}

void putKnobBack(const Finding& drawn, Job& edited) {
    const auto* presence = std::get_if<PresenceFound>(&drawn);
    if (presence != nullptr && presence->knob && presence->knobPosition &&
        findKnob(edited.stock, presence->knob->id) != nullptr) {
        edited.setting.knobs[presence->knob->id] = std::clamp(*presence->knobPosition, 0.0, knobTravel);
    }
}

/// Where a part more is drawn now.
void keepPlacement(const Circuit& stock, const PartId& id, Finding& found) {
    auto* presence = std::get_if<PresenceFound>(&found);
    const Part* part = findPart(stock, id);
    if (presence != nullptr && presence->part && part != nullptr) {
        presence->part->placement = part->placement;
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
    return wrong(part != nullptr ? said("%1: %2, as the drawing says. There is nothing to correct.", displayName(*part),
                                        findingWords(correction.found, part->kind))
                                 : said("The drawing has no part \"%1\" either.", correction.part),
                 correction.part);
}

}  // namespace

Result<Job> correct(const Job& job, const Correction& correction) {
    if (const Result<void> open = requireOpenVisit(job); !open) {
        return open.error();
    }
    Correction entry = correction;
    entry.visit = job.visit.number;
    if (isPartMore(entry)) {
        Part& part = *std::get<PresenceFound>(entry.found).part;
        entry.part = part.id =
            entry.part.empty() ? freePartId(job, "found-" + inLowerCase(part.reference)) : entry.part;
    }
    if (const Mod* bringer = bringerOf(job, entry.part)) {
        return wrong(
            said("%1 brings that part: it is of the plan and not of the unit as found. Change the mod instead.",
                 nameOfMod(*bringer)),
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
    keepKnobPosition(job.setting, entry.drawn);
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
        keepPlacement(stock, entry.part, entry.found);
        entry.broughtType = std::move(put->broughtType);
    }
    markSeenBy(stock, entry);
    Result<Job> edited = withStock(job, stock);
    if (!edited) {
        return edited;
    }
    std::vector<Correction>& list = edited->corrections;
    const std::size_t place = replaced.value_or(list.size());
    const std::string left = replaced ? list[place].broughtType : std::string();
    if (isAsDrawn) {
        putKnobBack(list[place].drawn, *edited);
        list.erase(list.begin() + static_cast<std::ptrdiff_t>(place));
    } else if (replaced) {
        list[place] = std::move(entry);
    } else {
        list.push_back(std::move(entry));
    }
    handOnType(*edited, left);
    openWhatFloats(job, *edited);
    return edited;
}

Result<Job> takeBackCorrection(const Job& job, std::size_t index) {
    if (const Result<void> open = requireOpenVisit(job); !open) {
        return open.error();
    }
    if (index >= job.corrections.size()) {
        return wrong(said("There is no correction %1; the list has %2.", index + 1, job.corrections.size()), {});
    }
    const Correction& entry = job.corrections[index];
    const Result<Finding> now = currentReading(job.stock, entry.part, entry.found);
    if (!now || !isSameFinding(*now, entry.found)) {
        return wrong(said("%1 is not any more what this correction found: a later correction or an earlier visit's mod "
                          "changed it. Take that back first, or correct the part anew.",
                          correctedName(job.stock, entry)),
                     entry.part);
    }
    const Result<Circuit> drawn = asDrawn(job.stock, entry);
    if (!drawn) {
        return drawn.error();
    }
    Result<Job> edited = withStock(job, *drawn);
    if (edited) {
        putKnobBack(entry.drawn, *edited);
        edited->corrections.erase(edited->corrections.begin() + static_cast<std::ptrdiff_t>(index));
        handOnType(*edited, entry.broughtType);
        openWhatFloats(job, *edited);
    }
    return edited;
}

}  // namespace ohmwright
