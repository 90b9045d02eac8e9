// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/unit_history.h"

#include "core/base/said.h"
#include "core/plan/apply.h"
#include "core/plan/correct.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace ohmwright {

namespace {

/// "A Gain cap: C4 Cg 56n → 120n"
std::string wordsOf(const Mod& mod, const Circuit& stock) {
    std::string words = mod.letter + (mod.name.empty() ? "" : " " + mod.name) + ": ";
    // A combined change names the parts that it concerns itself.
    const Part* part = findPart(stock, targetOf(mod.change));
    if (part != nullptr && !std::holds_alternative<Combined>(mod.change)) {
        words += displayName(*part) + " ";
    }
    return words + describeChange(stock, mod.change);
}

PastVisit visitOf(const Visit& visit, const Circuit& stock, const std::vector<Correction>& corrections,
                  const Plan& plan, const Setting& setting) {
    PastVisit past;
    past.visit = visit;
    for (const Mod& mod : plan) {
        (mod.on ? past.work : past.leftOut).push_back(wordsOf(mod, stock));
    }
    for (const Correction& correction : corrections) {
        if (correction.visit == visit.number) {
            past.found.push_back(correctionWords(stock, correction));
        }
    }
    Job then;
    then.stock = stock;
    then.plan = plan;
    then.setting = setting;
    past.hash = stateHash(then);
    return past;
}

bool addPart(const PartId& id, const Circuit& stock, std::map<PartId, std::string>& parts) {
    const Part* part = findPart(stock, id);
    return part != nullptr && parts.emplace(id, part->reference).second;
}

/// The parts of the unit as it came in whose pads the plan's mods touch.
std::map<PartId, std::string> partsWorkedOn(const Circuit& stock, const Plan& plan) {
    std::map<PartId, std::string> parts;
    for (const Mod& mod : plan) {
        if (!mod.on) {
            continue;
        }
        const auto* fitted = std::get_if<FitSwitch>(&mod.change);
        if (fitted == nullptr) {
            for (const SingleChange& change : singleChanges(mod.change)) {
                if (!std::holds_alternative<AddPart>(change)) {
                    addPart(targetOf(change), stock, parts);
                }
            }
            continue;
        }
        for (const SwitchThrow& position : fitted->throws) {
            for (const SingleChange& change : position.changes) {
                addPart(targetOf(change), stock, parts);
            }
        }
    }
    return parts;
}

/// Whether two jobs tell the same of a visit; a note that was added in one of them is no other tale.
bool tellsTheSame(PastVisit one, PastVisit other) {
    one.job = other.job = 0;
    one.notes.clear();
    other.notes.clear();
    return one == other;
}

/// Takes a visit up among those that are known; false when it contradicts one of them.
bool takeUp(std::vector<PastVisit>& known, const PastVisit& visit) {
    for (PastVisit& same : known) {
        if (same.visit.number != visit.visit.number) {
            continue;
        }
        if (!same.isFrozen() && visit.isFrozen()) {
            same = visit;
            return true;
        }
        if (same.isFrozen() && !visit.isFrozen()) {
            return true;
        }
        if (tellsTheSame(same, visit)) {
            for (const std::string& note : visit.notes) {
                if (std::find(same.notes.begin(), same.notes.end(), note) == same.notes.end()) {
                    same.notes.push_back(note);
                }
            }
            return true;
        }
        known.push_back(visit);
        return false;
    }
    known.push_back(visit);
    return true;
}

std::vector<PadWork> padsOf(const std::vector<Job>& jobs) {
    std::map<PartId, std::pair<std::string, std::set<int>>> worked;
    const auto count = [&](int number, const Circuit& stock, const Plan& plan) {
        for (const auto& [id, reference] : partsWorkedOn(stock, plan)) {
            worked[id].first = reference;
            worked[id].second.insert(number);
        }
    };
    for (const Job& job : jobs) {
        for (const Departure& departure : job.departures) {
            count(departure.visit.number, departure.stock, departure.plan);
        }
        const bool isOlderCopy = std::any_of(jobs.begin(), jobs.end(), [&job](const Job& other) {
            return &other != &job && other.visit.number > job.visit.number;
        });
        if (!isOlderCopy) {
            count(job.visit.number, job.stock, job.plan);
        }
    }
    std::vector<PadWork> pads;
    pads.reserve(worked.size());
    for (const auto& [id, work] : worked) {
        pads.push_back({id, work.first, int(work.second.size())});
    }
    std::stable_sort(pads.begin(), pads.end(),
                     [](const PadWork& one, const PadWork& other) { return one.visits > other.visits; });
    return pads;
}

}  // namespace

std::vector<PastVisit> visitsOf(const Job& job) {
    std::vector<PastVisit> visits;
    for (const Departure& departure : job.departures) {
        PastVisit past =
            visitOf(departure.visit, departure.stock, departure.corrections, departure.plan, departure.setting);
        past.left = departure.when;
        past.leaving = departure.readings;
        past.notes = departure.notes;
        visits.push_back(std::move(past));
    }
    const bool isRecorded = std::any_of(
        visits.begin(), visits.end(), [&job](const PastVisit& past) { return past.visit.number == job.visit.number; });
    if (!isRecorded) {
        visits.push_back(visitOf(job.visit, job.stock, job.corrections, job.plan, job.setting));
    }
    return visits;
}

UnitHistory historyOf(const std::vector<Job>& jobs) {
    UnitHistory history;
    std::set<int> doubtful;
    for (std::size_t k = 0; k < jobs.size(); ++k) {
        for (PastVisit& visit : visitsOf(jobs[k])) {
            visit.job = k;
            if (!takeUp(history.visits, visit)) {
                doubtful.insert(visit.visit.number);
            }
        }
    }
    for (const int number : doubtful) {
        history.doubts.push_back(
            said("Two files tell visit %1 of this unit differently: both are shown. Give the "
                 "later one its own number.",
                 number));
    }
    std::stable_sort(history.visits.begin(), history.visits.end(), [](const PastVisit& one, const PastVisit& other) {
        return one.visit.number < other.visit.number;
    });
    history.pads = padsOf(jobs);
    return history;
}

}  // namespace ohmwright
