// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/revision_candidates.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/plan/findings.h"

#include <algorithm>
#include <map>
#include <utility>

namespace ohmwright {

namespace {

std::string withEarlierMod(const std::string& name) {
    return said("%1, with an earlier mod", name);
}

RevisionCandidate namedAs(const Job& job, Circuit circuit, const Setting& setting) {
    RevisionCandidate candidate{job.unit.name, std::move(circuit), setting, job.unit.serial, {}};
    if (!job.unit.boardRevision.empty()) {
        candidate.name += (candidate.name.empty() ? "" : ", ") + job.unit.boardRevision;
    }
    for (Part& part : candidate.circuit.parts) {
        part.measured.reset();
        part.knowledge = Knowledge::drawn;
    }
    std::erase_if(candidate.setting.knobs,
                  [&](const auto& knob) { return findKnob(candidate.circuit, knob.first) == nullptr; });
    candidate.setting.throws.clear();
    return candidate;
}

bool says(const Circuit& stock, const PartId& part, const Finding& finding) {
    const Result<Finding> now = currentReading(stock, part, finding);
    return now && isSameFinding(*now, finding);
}

/// Undoes the earlier mods, the last first. @return whether all of them went.
bool undoEarlierMods(Circuit& stock, const std::vector<Correction>& corrections) {
    bool isAll = true;
    for (auto each = corrections.rbegin(); each != corrections.rend(); ++each) {
        if (each->reason != CorrectionReason::earlierMod || !says(stock, each->part, each->found)) {
            continue;
        }
        if (Result<Circuit> drawn = asDrawn(stock, *each)) {
            stock = *std::move(drawn);
        } else {
            isAll = false;
        }
    }
    return isAll;
}

/// What later visits found of the board itself; of parts that a mod had changed by then nothing is known.
void putLaterFindings(Circuit& stock, const std::vector<Correction>& corrections, int visit) {
    for (const Correction& each : corrections) {
        if (each.visit <= visit || each.reason == CorrectionReason::earlierMod || !says(stock, each.part, each.drawn)) {
            continue;
        }
        if (Result<PutFinding> put = putFinding(stock, each.part, each.found)) {
            stock = std::move(put->stock);
        }
    }
}

bool hasEarlierMod(const Job& job) {
    return std::any_of(job.corrections.begin(), job.corrections.end(), [&job](const Correction& each) {
        return each.reason == CorrectionReason::earlierMod && says(job.stock, each.part, each.found);
    });
}

/// What meters tell apart of a candidate: not how it is drawn, printed or labelled.
bool readAlike(const RevisionCandidate& one, const RevisionCandidate& two) {
    const auto partsOf = [](Circuit circuit) {
        for (Part& part : circuit.parts) {
            part.placement.reset();
            part.printed.clear();
            part.build.clear();
            part.boardNote.clear();
        }
        return circuit.parts;
    };
    const auto typesOf = [](const Circuit& circuit) {
        std::map<std::string, std::map<std::string, double>> types;
        for (const Part& part : circuit.parts) {
            if (const Model* type = findModel(circuit, part.model)) {
                types[type->name] = type->parameters;
            }
        }
        return types;
    };
    return one.setting.batteryVolts == two.setting.batteryVolts && partsOf(one.circuit) == partsOf(two.circuit) &&
           typesOf(one.circuit) == typesOf(two.circuit);
}

void tellNamesApart(std::vector<RevisionCandidate>& candidates) {
    const auto renameRepeated = [&candidates](const auto& renamed) {
        std::map<std::string, int> uses;
        for (const RevisionCandidate& each : candidates) {
            ++uses[each.name];
        }
        std::map<std::string, int> met;
        for (RevisionCandidate& each : candidates) {
            const std::string name = each.name;
            if (uses.at(name) > 1) {
                each.name = renamed(each, ++met[name]);
            }
        }
    };
    renameRepeated([](const RevisionCandidate& each, int) {
        return each.serial.empty() ? each.name : each.name + ", " + each.serial;
    });
    renameRepeated([](const RevisionCandidate& each, int number) { return said("%1, drawing %2", each.name, number); });
}

}  // namespace

RevisionCandidate candidateOf(const Job& job) {
    if (job.departures.empty()) {
        Circuit stock = job.stock;
        const bool isBare = undoEarlierMods(stock, job.corrections);
        RevisionCandidate candidate = namedAs(job, std::move(stock), job.setting);
        candidate.name = isBare ? candidate.name : withEarlierMod(candidate.name);
        return candidate;
    }
    const Departure& first = job.departures.front();
    Circuit stock = first.stock;
    const bool isBare = undoEarlierMods(stock, first.corrections);
    putLaterFindings(stock, job.corrections, first.visit.number);
    RevisionCandidate candidate = namedAs(job, std::move(stock), first.setting);
    candidate.name = isBare ? candidate.name : withEarlierMod(candidate.name);
    return candidate;
}

RevisionCandidate ownCandidateOf(const Job& job) {
    RevisionCandidate candidate = namedAs(job, job.stock, job.setting);
    const auto before = std::find_if(job.departures.rbegin(), job.departures.rend(),
                                     [&job](const Departure& left) { return left.visit.number < job.visit.number; });
    if (before != job.departures.rend()) {
        candidate.name = said("%1, as left in visit %2", candidate.name, before->visit.number);
    } else if (hasEarlierMod(job)) {
        candidate.name = withEarlierMod(candidate.name);
    }
    return candidate;
}

std::vector<RevisionCandidate> withoutTwins(std::vector<RevisionCandidate> candidates) {
    std::vector<RevisionCandidate> kept;
    for (RevisionCandidate& candidate : candidates) {
        const bool isTwin = std::any_of(kept.begin(), kept.end(),
                                        [&](const RevisionCandidate& other) { return readAlike(other, candidate); });
        if (!isTwin) {
            kept.push_back(std::move(candidate));
        }
    }
    tellNamesApart(kept);
    return kept;
}

std::vector<RevisionCandidate> candidatesFor(const Job& job, const std::vector<Job>& stored,
                                             const std::vector<std::string>& files) {
    const auto isNamesake = [&](const Job& other) {
        return !job.unit.name.empty() && inLowerCase(other.unit.name) == inLowerCase(job.unit.name);
    };
    const bool isKnown = std::any_of(stored.begin(), stored.end(), isNamesake);
    std::vector<RevisionCandidate> candidates{ownCandidateOf(job)};
    for (std::size_t k = 0; k < stored.size(); ++k) {
        if (!isKnown || isNamesake(stored[k])) {
            candidates.push_back(candidateOf(stored[k]));
            candidates.back().file = k < files.size() ? files[k] : std::string();
        }
    }
    return withoutTwins(std::move(candidates));
}

}  // namespace ohmwright
