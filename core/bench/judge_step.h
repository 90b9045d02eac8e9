/// A reading typed in at a step of the work, judged by what the step is: check, probe, supply current, part in hand.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/judge.h"
#include "core/bench/order_of_work.h"

namespace ohmwright {

/// Whether a reading belongs to the step at all.
bool hasReading(const BenchStep& step);

/// What the step allows, in words: "0.53 V to 0.63 V", "no reading", "under 30 V"; empty where any reading will do.
std::string allowedWords(const BenchStep& step);

/// A reading as it stands in the log: "118 nF", "no reading", "3.91 mA", "+15.1 dB".
std::string readWords(const BenchStep& step, CheckReading reading);

/// @param reading  in the step's unit, of a beeper 1 or 0; absent: the meter shows none.
/// Errors: invalidInput when the step has no reading; of judgeProbe (which solves each fault; some ms each); cancelled.
Result<Judgement> judgeStep(const WorkPlan& work, std::size_t step, CheckReading reading, const Setting& setting,
                            const std::stop_token& stop = {});

}  // namespace ohmwright
