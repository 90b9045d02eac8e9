/// Checks that prove a piece of work, with what each must show, and the smallest set that tells the plan from every
/// likely mistake.
///
/// A mistake is seen by a check when the reading that it alone would give lies outside the band of the plan. The band
/// holds what parts inside their tolerance and the instrument do; the unit's other parts are the same ones in both.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/board_edits.h"
#include "core/bench/check.h"
#include "core/bench/meter.h"
#include "core/bench/mistakes.h"

#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

struct CheckOptions {
    MeterModel meter;
    std::vector<double> tonesHz = {110.0, 220.0, 1000.0, 3000.0};
    double toneDb = 0.5;       ///< Half the band that generator, cable and level meter add. Common practice, no source.
    double voltsShare = 0.02;  ///< Of a powered reading, meter and supply. Common practice, no source.
    double leastVolts = 0.05;
    /// What a check costs in the choice of the smallest set, by kind: the meter before power, power before tones.
    double meterCost = 1.0, voltsCost = 2.0, toneCost = 4.0;
    std::vector<Mistake> alsoLikely;  ///< Before likelyMistakes: what the edits alone do not tell.
    bool withSettling = false;        ///< Work out how long each ohms reading climbs (some ms each).
};

/// Every check that the edits suggest, with its band on the finished board.
/// Errors: of the solver; cancelled.
Result<std::vector<Check>> candidateChecks(const std::vector<BoardEdit>& edits, const Circuit& finished,
                                           const Setting& setting, const CheckOptions& options = {},
                                           const std::stop_token& stop = {});

/// Checks against mistakes.
struct CheckPlan {
    std::vector<Check> checks;
    std::vector<Mistake> mistakes;
    std::vector<std::vector<CheckReading>> readings;  ///< One row a mistake, one entry a check.
    std::vector<std::size_t> smallest;                ///< Of `checks`, in the order of work.
    std::vector<std::size_t> unseen;                  ///< Of `mistakes`: no check tells them from the plan.
    bool isSmallest = true;                           ///< Proven; false when the search was cut short.
    /// Caveats and what to look at with the eye, as sentences.
    std::vector<std::string> notes;

    [[nodiscard]] bool sees(std::size_t check, std::size_t mistake) const {
        return !checks[check].expected.holds(readings[mistake][check]);
    }
};

/// A mistake whose circuit cannot be solved counts as unseen by what could not be solved.
/// Errors: of the solver on the finished board; cancelled.
Result<CheckPlan> planChecks(const std::vector<BoardEdit>& edits, const Circuit& finished, const Setting& setting,
                             const CheckOptions& options = {}, const std::stop_token& stop = {});

/// How one mistake is found out: "270R fitted for 2k7 (R5 Rg): a tone of 110 Hz cannot see it (−0.08 dB); use 3 kHz
/// (+15.1 dB) or ohms (270 Ω)".
std::string howToSee(const CheckPlan& plan, std::size_t mistake);

}  // namespace ohmwright
