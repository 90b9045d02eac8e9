// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/pad_heat.h"

#include "core/base/said.h"
#include "core/bench/board_edits.h"
#include "core/bench/order_of_work.h"
#include "core/bench/visits.h"
#include "core/board/board_legs.h"

#include <algorithm>

namespace ohmwright {

namespace {

void addOnce(std::vector<Leg>& legs, const Leg& leg) {
    if (std::find(legs.begin(), legs.end(), leg) == legs.end()) {
        legs.push_back(leg);
    }
}

void addLegs(std::vector<Leg>& legs, const Circuit& circuit, const std::vector<BoardEdit>& edits) {
    for (const BoardEdit& edit : edits) {
        for (int pin = 0; pin < static_cast<int>(edit.part().nets.size()); ++pin) {
            const bool isTouched = edit.kind != EditKind::legMoved ||
                                   std::find(edit.legs.begin(), edit.legs.end(), pin) != edit.legs.end();
            if (isTouched) {
                addOnce(legs, standingLeg(circuit, {edit.part().id, pin}));
            }
        }
    }
}

/// Whether work of the hands at this mod was signed: the marks' keys say what was done (core/bench/work_log.h).
bool isBegun(const Visit& visit, const std::string& letter) {
    return std::any_of(visit.marks.begin(), visit.marks.end(), [&letter](const StepMark& mark) {
        constexpr std::array hands{StepKind::takeOut, StepKind::moveLeg, StepKind::fit};
        return mark.result == StepResult::passed && std::any_of(hands.begin(), hands.end(), [&](StepKind kind) {
                   return mark.step.rfind(letter + " " + std::string(stepWords(kind)) + ": ", 0) == 0;
               });
    });
}

Result<VisitHeat> heatOf(const Job& job, bool isPresent) {
    const auto groups = workGroups(job);
    if (!groups) {
        return groups.error();
    }
    VisitHeat heat{job.visit.number, isPresent, {}, {}};
    for (const WorkGroup& group : *groups) {
        for (const FittedMod& fitted : group) {
            const bool isDone = !isPresent || isBegun(job.visit, fitted.letter);
            std::vector<Leg>& legs = isDone ? heat.heated : heat.planned;
            addLegs(legs, fitted.after, boardEdits(fitted.before, fitted.after));
            for (const ThrowCircuit& position : fitted.throws) {
                addLegs(legs, position.circuit, boardEdits(fitted.before, position.circuit));
            }
        }
    }
    return heat;
}

}  // namespace

Result<std::vector<VisitHeat>> padHeat(const Job& job) {
    std::vector<VisitHeat> all;
    for (const Departure& departure : job.departures) {
        const auto then = jobOfVisit(job, departure.visit.number);
        if (!then) {
            return then.error();
        }
        const auto heat = heatOf(*then, false);
        if (!heat) {
            return heat.error();
        }
        all.push_back(*heat);
    }
    // A visit that has ended stands in its record alone.
    if (all.empty() || all.back().visit != job.visit.number) {
        const auto heat = heatOf(job, true);
        if (!heat) {
            return heat.error();
        }
        all.push_back(*heat);
    }
    return all;
}

std::map<Leg, int> timesHeated(const std::vector<VisitHeat>& heat) {
    std::map<Leg, int> times;
    for (const VisitHeat& visit : heat) {
        for (const Leg& leg : visit.heated) {
            ++times[leg];
        }
    }
    return times;
}

std::string heatedWords(const Circuit& circuit, const std::vector<Leg>& legs) {
    std::vector<PartId> parts;
    for (const Leg& leg : legs) {
        if (std::find(parts.begin(), parts.end(), leg.part) == parts.end()) {
            parts.push_back(leg.part);
        }
    }
    std::string words;
    for (const PartId& id : parts) {
        const Part* part = findPart(circuit, id);
        if (part == nullptr) {
            continue;
        }
        std::string own;
        std::size_t count = 0;
        for (const Leg& leg : legs) {
            if (leg.part == id) {
                ++count;
                own.append(own.empty() ? "" : ", ").append(legWord(*part, leg.pin));
            }
        }
        const bool isAll = count == part->nets.size();
        const std::string which = isAll && count == 2 ? said("both") : isAll ? said("all") : own;
        words.append(words.empty() ? "" : "; ").append(said("%1: %2", {displayName(*part), which}));
    }
    return words.empty() ? said("none") : words;
}

}  // namespace ohmwright
