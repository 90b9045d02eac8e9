// What corrections say on papers and screens, and to the mods of the plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/base/same_figure.h"
#include "core/drawing/rejoin.h"
#include "core/plan/correct.h"
#include "core/plan/findings.h"
#include "core/plan/fitting_check.h"

#include <algorithm>

namespace ohmwright {

std::string correctedName(const Circuit& stock, const Correction& correction) {
    if (const Part* part = findPart(stock, correction.part)) {
        return displayName(*part);
    }
    for (const Finding* finding : {&correction.drawn, &correction.found}) {
        const auto* presence = std::get_if<PresenceFound>(finding);
        if (presence != nullptr && presence->part) {
            return displayName(*presence->part);
        }
    }
    return correction.part;
}

namespace {

/// Of the part as it is, or as it was drawn.
PartKind kindOf(const Circuit& stock, const Correction& correction) {
    if (const Part* part = findPart(stock, correction.part)) {
        return part->kind;
    }
    const auto* presence = std::get_if<PresenceFound>(&correction.drawn);
    return presence != nullptr && presence->part ? presence->part->kind : PartKind::resistor;
}

/// What the drawing says: "the drawing says 3k9".
std::string drawingVerb(const Circuit& stock, const Correction& correction) {
    if (const auto* presence = std::get_if<PresenceFound>(&correction.drawn)) {
        return presence->part ? said("the drawing has it") : said("the drawing has none");
    }
    return said("the drawing says %1", findingWords(correction.drawn, kindOf(stock, correction)));
}

}  // namespace

std::string linesSay(const Circuit& stock, const PartId& part) {
    const Part* own = findPart(stock, part);
    if (own == nullptr || !own->placement || stock.drawing == Drawing()) {
        return {};
    }
    const Circuit drawn = rejoin(stock).circuit;
    const Part& lines = *findPart(drawn, part);
    std::string legs;
    for (std::size_t pin = 0; pin < own->nets.size(); ++pin) {
        if (own->nets[pin] != lines.nets[pin]) {
            const std::string leg = findingWords(LegFound{static_cast<int>(pin), lines.nets[pin]}, own->kind);
            legs = legs.empty() ? leg : said("%1 and %2", legs, leg);
        }
    }
    return legs.empty() ? legs
                        : said(
                              "The lines of the drawing still have %1 with %2: draw them anew, or the next change of "
                              "the drawing puts it back.",
                              displayName(*own), legs);
}

std::string notDrawn(const Circuit& stock, const PartId& part) {
    const Part* own = findPart(stock, part);
    if (own == nullptr || own->placement || stock.drawing == Drawing()) {
        return {};
    }
    return said(
        "%1 is in the circuit, but the drawing has no free place beside its neighbours: arrange the drawing anew, "
        "and it is drawn.",
        displayName(*own));
}

std::string correctionWords(const Circuit& stock, const Correction& correction) {
    std::string words = correctedName(stock, correction);
    words.append(": ").append(findingWords(correction.found, kindOf(stock, correction)));
    words.append(", ").append(drawingVerb(stock, correction));
    words.append(" (").append(said(reasonWord(correction.reason))).append(")");
    return correction.note.empty() ? words : words.append(": ").append(correction.note);
}

std::string drawingSays(const Job& job, const PartId& part) {
    std::string words;
    for (const Correction& entry : job.corrections) {
        if (entry.part != part) {
            continue;
        }
        const Result<Finding> now = currentReading(job.stock, part, entry.found);
        if (now && isSameFinding(*now, entry.found)) {
            words.append(words.empty() ? "" : "; ").append(drawingVerb(job.stock, entry));
        }
    }
    return words;
}

std::string revisionWords(const Job& job) {
    std::vector<std::string> names;
    for (const Correction& entry : job.corrections) {
        const std::string name = correctedName(job.stock, entry);
        const bool isNew = std::find(names.begin(), names.end(), name) == names.end();
        if (entry.reason == CorrectionReason::boardDiffers && isNew) {
            names.push_back(name);
        }
    }
    const std::string& revision = job.unit.boardRevision;
    if (names.empty()) {
        return revision;
    }
    return revision.empty() ? said("differs from the drawing in %1", saidList(names))
                            : said("%1, differs in %2", revision, saidList(names));
}

// ---- Mods and corrections -----------------------------------------------------------------------------------------

namespace {

/// How one change of a mod stands to what was corrected.
struct Meeting {
    const Circuit& stock;
    const Correction& correction;
    const Part& part;

    [[nodiscard]] bool changesNothing(const SingleChange& change) const {
        if (const auto* value = std::get_if<SwapValue>(&change)) {
            return std::holds_alternative<ValueFound>(correction.found) && isSameFigure(value->value, part.value);
        }
        if (const auto* type = std::get_if<SwapType>(&change)) {
            return std::holds_alternative<TypeFound>(correction.found) && type->model.name == part.model;
        }
        const auto* pot = std::get_if<ChangePot>(&change);
        const bool isPotThing =
            std::holds_alternative<ValueFound>(correction.found) || std::holds_alternative<LawFound>(correction.found);
        return pot != nullptr && isPotThing && isSameFigure(pot->ohms, part.value) && pot->taper == part.taper &&
               (part.taper == Taper::linear || isSameFigure(pot->shareAtHalf, part.shareAtHalf));
    }
    [[nodiscard]] bool concerns(const SingleChange& change) const {
        if (targetOf(change) != part.id) {
            return false;
        }
        if (const auto* leg = std::get_if<LegFound>(&correction.found)) {
            const auto* moved = std::get_if<MoveLeg>(&change);
            const auto* lifted = std::get_if<Lift>(&change);
            return (moved != nullptr && moved->pin == leg->pin) || (lifted != nullptr && lifted->pin == leg->pin) ||
                   std::holds_alternative<RemovePart>(change);
        }
        const bool isOfBody = std::holds_alternative<SwapValue>(change) || std::holds_alternative<SwapType>(change) ||
                              std::holds_alternative<ChangePot>(change) || std::holds_alternative<RemovePart>(change);
        return isOfBody && !std::holds_alternative<BoardNoteFound>(correction.found);
    }
    /// @param change  the first of the mod's changes that concerns the part.
    [[nodiscard]] std::string sentence(const Mod& mod, const SingleChange& change, bool isNothing) const {
        const std::string letter = letterOf(mod);
        const std::string name = displayName(part);
        if (isNothing) {
            return said(
                "%1 makes %2 what the board has already and changes nothing now: switch %3 off or take it out. If "
                "%3 is fitted, this is no correction: take it back.",
                nameOfMod(mod), name, letter);
        }
        if (std::holds_alternative<RemovePart>(change)) {
            return said("%1 takes %2 out; the way back puts in what the board had.", nameOfMod(mod), name);
        }
        return said("%1 starts from what the board has: %2 %3, not %4.", nameOfMod(mod), name,
                    findingWords(correction.found, part.kind), findingWords(correction.drawn, part.kind));
    }
};

}  // namespace

std::vector<ModAndCorrection> modsOnCorrected(const Job& corrected, const Correction& correction) {
    std::vector<ModAndCorrection> met;
    const Part* part = findPart(corrected.stock, correction.part);
    if (part == nullptr) {
        return met;
    }
    const auto isIt = [&](const Correction& each) {
        return each.part == correction.part && isSameThing(each.found, correction.found);
    };
    const auto entry = std::find_if(corrected.corrections.rbegin(), corrected.corrections.rend(), isIt);
    if (entry == corrected.corrections.rend()) {
        return met;
    }
    const Meeting meeting{corrected.stock, *entry, *part};
    for (const Mod& mod : corrected.plan) {
        const std::vector<SingleChange> changes = mod.on ? everySingleChange(mod.change) : std::vector<SingleChange>();
        const auto first = std::find_if(changes.begin(), changes.end(),
                                        [&](const SingleChange& change) { return meeting.concerns(change); });
        if (first != changes.end()) {
            // Of a switch, every throw; a throw that changes nothing leaves the part as it is, which is the same.
            const bool isNothing = std::all_of(changes.begin(), changes.end(), [&](const SingleChange& change) {
                return targetOf(change) == part->id && meeting.changesNothing(change);
            });
            met.push_back({mod.id, isNothing, meeting.sentence(mod, *first, isNothing)});
        }
    }
    return met;
}

}  // namespace ohmwright
