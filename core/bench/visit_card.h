/// The card of the present visit: what is written on it, and what each of its states asks for.
///
/// A visit that is gone is closed: nothing of it is written any more, a correction is a note beside its record
/// (bench/visits.h).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/bench_step.h"
#include "core/plan/job.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// What is written anew; absent stays as it is.
struct VisitWords {
    std::optional<std::string> complaint, agreed, condition;
};
/// Errors: invalidInput when the visit is gone (all below).
Result<Job> writeVisitWords(const Job& job, const VisitWords& words);

/// A reading on coming in, in place of the one that the visit has at that place.
Result<Job> writeReading(const Job& job, const UnitReading& reading);
/// Errors: also when nothing was read there.
Result<Job> eraseReading(const Job& job, const UnitReading& place);

/// Something that a state asks for.
struct VisitNeed {
    std::string sentence;  ///< "What was agreed to do is written down."
    bool isMet = false;
    bool isRequired = true;  ///< Without it the visit does not go there; else it is only said.

    friend bool operator==(const VisitNeed&, const VisitNeed&) = default;
};
/// What the visit needs to be there:
/// quoted: the complaint, and a mod that is on or words of what to do.
/// on bench: what was agreed; said: readings before anything is touched.
/// proven: every step of the work signed, none failed or refused; said: each that was skipped.
/// gone: proven, when a mod is on; said: readings on leaving.
/// @param steps  of core/bench/order_of_work.h for the job; null while they are not known.
std::vector<VisitNeed> needsOf(const Job& job, VisitState state, const std::vector<BenchStep>* steps);

/// The visit in another state, forth or back. `gone` is left to depart(), which freezes the record.
/// Errors: invalidInput when the visit is gone, a need is not met (the first of them), or the state is gone.
Result<Job> setVisitState(const Job& job, VisitState state, const std::vector<BenchStep>* steps);

}  // namespace ohmwright
