/// Throws of a switch: what each gives, how far the level jumps between them, and how loud the contact pops.
///
/// A throw is a circuit of its own; centre-off is one as well. Where circuits come from is the caller's: a mod that
/// fits a switch, or variants of a plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/measure/figures.h"
#include "core/plan/job.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

struct ThrowCircuit {
    std::string name;  ///< "silicon", "LED", "centre off"
    Circuit circuit;
};

/// The throws of the switch that a mod of the job fits, in its order; the rest of the plan as it is on, the mod itself
/// taken as on.
/// @param modId  empty: the plan's first switch.
/// Errors: invalidInput when there is no such switch; as applyPlan.
Result<std::vector<ThrowCircuit>> throwCircuits(const Job& job, const std::string& modId = {});

/// What happens at the contact when one throw is left for another.
struct ContactStep {
    std::string from, to;
    PartId part;            ///< That the contact joins, where the step is largest.
    double volts = 0.0;     ///< DC across the open contact just before it closes, without sign.
    bool isCharge = false;  ///< A capacitor that has lost its charge: the step is what it must be charged to.
    std::string sentence;
};

struct ThrowReading {
    std::string name;
    std::vector<Figure> figures;  ///< level, level_slope, peaks, thd, h2.. (measureLargeSignal without thresholds).
    double jumpDb = 0.0;          ///< Level against the first throw; NaN where no signal arrives.
};

struct ThrowTable {
    std::vector<ThrowReading> throws;
    double largestJumpDb = 0.0;      ///< Between any two that follow each other, without sign.
    std::vector<ContactStep> steps;  ///< From each throw to the next, both ways, largest first; none under 1 mV.
};

/// Only the steps, from the bias of each throw: those of ThrowTable.
/// Errors: of the solver, the throw's name before the sentence; cancelled.
Result<std::vector<ContactStep>> contactSteps(const std::vector<ThrowCircuit>& throws, const Setting& setting,
                                              const std::stop_token& stop = {});

/// All throws solved at one setting.
/// Errors: invalidInput with fewer than two throws; of the solver, the throw's name before the sentence; cancelled.
Result<ThrowTable> readThrows(const std::vector<ThrowCircuit>& throws, const Setting& setting,
                              const std::stop_token& stop = {});

/// A resistor before the level pot that makes one throw as loud as another.
struct LevelTrim {
    PartId pot;
    double ohms = 0.0;           ///< Exact.
    double preferredOhms = 0.0;  ///< Nearest of E12.
    double remainingDb = 0.0;    ///< Level left over with the preferred one.
    std::string sentence;        ///< "125k before VR2 makes LED as loud as silicon; 120k leaves +0.2 dB"
};
/// @param loud   its level is brought down to that of `quiet`.
/// The pot is the last one with its bottom on ground that is not on the guitar's side of the jack.
/// Errors: invalidInput when there is no such pot, or `loud` is not the louder one (exchange them); of the solver;
/// noConvergence when even 10 MΩ does not reach it.
Result<LevelTrim> trimLevel(const ThrowCircuit& loud, const ThrowCircuit& quiet, const Setting& setting,
                            const std::stop_token& stop = {});

}  // namespace ohmwright
