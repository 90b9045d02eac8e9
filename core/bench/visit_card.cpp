// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/visit_card.h"

#include "core/base/said.h"
#include "core/bench/work_log.h"

#include <algorithm>

namespace ohmwright {

namespace {

Error closed(const Job& job) {
    return {ErrorCode::invalidInput,
            said("Visit %1 has ended and is closed: write a note beside its record instead.", job.visit.number)};
}

bool isGone(const Job& job) {
    return job.visit.state == VisitState::gone;
}

bool isSamePlace(const UnitReading& one, const UnitReading& other) {
    return one.net == other.net && one.unit == other.unit && (!one.net.empty() || one.place == other.place);
}

bool anyModOn(const Job& job) {
    return std::any_of(job.plan.begin(), job.plan.end(), [](const Mod& mod) { return mod.on; });
}

/// Every step signed: what is missing in words, and what was skipped.
std::vector<VisitNeed> needsOfWork(const Job& job, const std::vector<BenchStep>* steps) {
    if (!anyModOn(job)) {
        return {{said("No mod is on, so there is no work to prove."), true, true}};
    }
    if (steps == nullptr) {
        return {{said("The steps of the work are known: they are being worked out."), false, true}};
    }
    const WorkLog log(*steps, job.visit);
    std::size_t open = 0;
    std::size_t failed = 0;
    std::size_t skipped = 0;
    for (std::size_t k = 0; k < log.size(); ++k) {
        open += log.isOpen(k) ? 1 : 0;
        failed += log.has(k, StepResult::failed) || log.has(k, StepResult::refused) ? 1 : 0;
        skipped += log.has(k, StepResult::skipped) ? 1 : 0;
    }
    std::vector<VisitNeed> needs{
        {open == 0 ? said("All %1 steps of the check list are signed.", steps->size())
                   : said("%1 of the %2 steps of the check list are not signed yet.", open, steps->size()),
         open == 0, true},
        {failed == 0 ? said("No step failed or was refused.") : said("%1 steps failed or were refused.", failed),
         failed == 0, true}};
    if (skipped > 0) {
        needs.push_back({said("%1 steps were skipped at the technician's own risk.", skipped), false, false});
    }
    return needs;
}

}  // namespace

Result<Job> writeVisitWords(const Job& job, const VisitWords& words) {
    if (isGone(job)) {
        return closed(job);
    }
    Job edited = job;
    edited.visit.complaint = words.complaint.value_or(job.visit.complaint);
    edited.visit.agreed = words.agreed.value_or(job.visit.agreed);
    edited.visit.condition = words.condition.value_or(job.visit.condition);
    return edited;
}

Result<Job> writeReading(const Job& job, const UnitReading& reading) {
    if (isGone(job)) {
        return closed(job);
    }
    Job edited = job;
    for (UnitReading& each : edited.visit.readings) {
        if (isSamePlace(each, reading)) {
            each = reading;
            return edited;
        }
    }
    edited.visit.readings.push_back(reading);
    return edited;
}

Result<Job> eraseReading(const Job& job, const UnitReading& place) {
    if (isGone(job)) {
        return closed(job);
    }
    Job edited = job;
    if (std::erase_if(edited.visit.readings, [&](const UnitReading& each) { return isSamePlace(each, place); }) == 0) {
        return Error{ErrorCode::invalidInput, said("Nothing was read at %1.", said(place.place))};
    }
    return edited;
}

std::vector<VisitNeed> needsOf(const Job& job, VisitState state, const std::vector<BenchStep>* steps) {
    const Visit& visit = job.visit;
    switch (state) {
        case VisitState::draft:
            return {};
        case VisitState::quoted: {
            const bool hasWork = anyModOn(job) || !visit.agreed.empty();
            return {{visit.complaint.empty() ? said("The customer's complaint is not written down yet.")
                                             : said("The customer's complaint is written down."),
                     !visit.complaint.empty(), true},
                    {hasWork ? said("There is something to quote.")
                             : said("No mod is on and nothing is agreed: there is nothing to quote."),
                     hasWork, true}};
        }
        case VisitState::onBench:
            return {{visit.agreed.empty() ? said("What was agreed to do is not written down yet.")
                                          : said("What was agreed to do is written down."),
                     !visit.agreed.empty(), true},
                    {visit.readings.empty()
                         ? said("Nothing was read before the work: a fault that came in with the unit will "
                                "be put down to the mod.")
                         : said("The unit was read before the work."),
                     !visit.readings.empty(), false}};
        case VisitState::proven:
            return needsOfWork(job, steps);
        case VisitState::gone:
            break;
    }
    const bool isProven = visit.state == VisitState::proven || !anyModOn(job);
    return {{isProven
                 ? (anyModOn(job) ? said("The work is proven.") : said("No mod is on: the unit leaves as it came."))
                 : said("The work is not proven yet."),
             isProven, true}};
}

Result<Job> setVisitState(const Job& job, VisitState state, const std::vector<BenchStep>* steps) {
    if (isGone(job)) {
        return closed(job);
    }
    if (state == VisitState::gone) {
        return Error{ErrorCode::invalidInput,
                     said("A visit ends with the record of what leaves: read the unit and let it depart.")};
    }
    if (state > job.visit.state) {
        for (const VisitNeed& need : needsOf(job, state, steps)) {
            if (need.isRequired && !need.isMet) {
                return Error{ErrorCode::invalidInput,
                             said("The visit is not %1 yet. %2", said(visitStateWord(state)), need.sentence)};
            }
        }
    }
    Job edited = job;
    edited.visit.state = state;
    return edited;
}

}  // namespace ohmwright
