// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/part_names.h"

#include "core/circuit/references.h"
#include "core/plan/mod.h"

#include <algorithm>
#include <vector>

namespace ohmwright {
namespace {

bool isInPlan(const Plan& plan, const PartId& id) {
    return std::any_of(plan.begin(), plan.end(), [&id](const Mod& mod) {
        const std::vector<SingleChange> changes = everySingleChange(mod.change);
        return mod.id == id || fitsPart(mod, id) ||
               std::any_of(changes.begin(), changes.end(),
                           [&id](const SingleChange& change) { return targetOf(change) == id; });
    });
}

bool isCorrected(const std::vector<Correction>& corrections, const PartId& id) {
    return std::any_of(corrections.begin(), corrections.end(),
                       [&id](const Correction& each) { return each.part == id; });
}

/// References that wait for their part: of parts that the plan fits and of those that are missing on the board.
std::vector<std::string> reservedReferences(const Job& job) {
    std::vector<std::string> references;
    for (const Mod& mod : job.plan) {
        for (const NewPart* fitted : newPartsOf(mod.change)) {
            references.push_back(fitted->reference);
        }
    }
    for (const Correction& correction : job.corrections) {
        const auto* drawn = std::get_if<PresenceFound>(&correction.drawn);
        if (drawn != nullptr && drawn->part) {
            references.push_back(drawn->part->reference);
        }
    }
    return references;
}

}  // namespace

bool isRemembered(const Job& job, const PartId& id) {
    const auto isPinned = [&id](const PinnedState& pinned) { return isInPlan(pinned.plan, id); };
    const auto isMarked = [&job, &id](BoardSide side) {
        const std::vector<LegMark>& marks = job.board.face(side).marks;
        return std::any_of(marks.begin(), marks.end(), [&id](const LegMark& mark) { return mark.leg.part == id; });
    };
    return isMarked(BoardSide::part) || isMarked(BoardSide::solder) || isInPlan(job.plan, id) ||
           isCorrected(job.corrections, id) || std::any_of(job.pinned.begin(), job.pinned.end(), isPinned) ||
           std::any_of(job.departures.begin(), job.departures.end(), [&id](const Departure& left) {
               return findPart(left.stock, id) != nullptr || isInPlan(left.plan, id) ||
                      isCorrected(left.corrections, id);
           });
}

bool isReserved(const Job& job, const std::string& reference) {
    const std::vector<std::string> reserved = reservedReferences(job);
    return std::find(reserved.begin(), reserved.end(), reference) != reserved.end();
}

PartId freePartId(const Job& job, const PartId& wanted) {
    PartId id = wanted;
    for (int k = 2; findPart(job.stock, id) != nullptr || isRemembered(job, id); ++k) {
        id = wanted;
        id.append("-").append(std::to_string(k));
    }
    return id;
}

std::string nextFreeReference(const Job& job, PartKind kind) {
    const std::string_view prefix = referencePrefix(kind);
    int highest = 0;
    for (const Part& part : job.stock.parts) {
        highest = std::max(highest, referenceNumber(part.reference, prefix));
    }
    for (const std::string& reference : reservedReferences(job)) {
        highest = std::max(highest, referenceNumber(reference, prefix));
    }
    return std::string(prefix) + std::to_string(highest + 1);
}

}  // namespace ohmwright
