/// The order of work: numbered steps for the mods that are on, from the net list and the solved circuit.
///
/// Parts on one pad together, in the order of the plan; what needs a hole in the box (a switch) last;
/// power-up with probes after each group, tones at the end. Each group begins with the supply out and the capacitors
/// discharged and measured; a unit of high voltage is photographed after that, not before.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/bench_step.h"
#include "core/bench/checks.h"
#include "core/bench/high_voltage.h"
#include "core/bench/polarity.h"
#include "core/bench/probe_card.h"
#include "core/plan/job.h"
#include "core/plan/throws.h"

#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// A mod with the board before and after it, all earlier work being done.
struct FittedMod {
    std::string letter;
    std::string name;
    Circuit before;
    Circuit after;
    std::vector<ThrowCircuit> throws;  ///< Of a switch: all that it gives here; `after` is one of them. Else empty.
    bool takesSwitchOut = false;       ///< The way back: `throws` are what it gave before.
    bool isUndone = false;             ///< The way back: what comes out is what the mod had fitted.
};

/// Mods that share a pad, in the order of work.
using WorkGroup = std::vector<FittedMod>;

/// What is powered up after a group of mods.
struct PoweredGroup {
    Circuit before;
    Circuit finished;
    ProbeCard card;
};

struct WorkPlan {
    std::vector<BenchStep> steps;
    std::vector<CheckPlan>
        checkPlans;  ///< One a mod, or throw of a switch, in the order of work; the whole's, with tones.
    std::vector<PoweredGroup> powered;  ///< In the order of work.
    std::vector<Caution> cautions;
    Discharge discharge;
    DutyTable duties;                ///< Of the finished board.
    std::vector<std::string> notes;  ///< Caveats, mistakes that only the eye tells.
};

/// The mods that are on, switches as the setting has them. Errors: of applyMod, naming the mod.
Result<std::vector<WorkGroup>> workGroups(const Job& job);

/// No mods on gives no steps. Errors: of workGroups; of the solver on any state between; cancelled.
Result<WorkPlan> orderOfWork(const Job& job, const std::stop_token& stop = {});

/// The steps of groups that are given, for other lists of work than a plan's (the way back).
/// @param first  the board before anything, @param setting  for powered readings.
Result<WorkPlan> stepsOfGroups(const std::vector<WorkGroup>& groups, const Setting& setting,
                               const std::stop_token& stop = {});

}  // namespace ohmwright
