/// "Show the sum": the formula behind a number, worked with the values of the loaded circuit, beside what the solver
/// says, and why the two differ. Parts are found by what they do in the net.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/plan/job.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

struct Sum {
    /// "gain_leg_corner", "stage_gain_1k", "clip_level_positive", "noise_clip_stage" ...: stable. Where a circuit may
    /// have several, the id of knob or device follows: "pot_drive", "valve_gain_v1", "shelf_low_v1".
    std::string figure;
    std::string name;                  ///< "gain-leg corner"
    std::string formula;               ///< With symbols: "1/(2π·Rg·Cg)"
    std::string withValues;            ///< "1/(2π·3k9·56n)"
    double result = 0.0;               ///< Of the formula, in `unit`.
    std::string unit;                  ///< "Hz", "dB", "V", "Ω", "%"
    std::optional<double> solved;      ///< The same from the solved circuit, where there is such a figure.
    std::optional<double> difference;  ///< solved - result in dB; else (solved - result)/solved in percent.
    std::string approximation;         ///< Why they differ, a sentence; empty for an exact sum.
    std::vector<PartId> parts;         ///< Whose values are in it.
};

/// The sums that the circuit's parts have, in the order of the signal; a circuit without an op-amp stage has no
/// gain-leg sums, and so on. Errors: of the solver; cancelled.
Result<std::vector<Sum>> showSums(const Circuit& circuit, const Setting& setting, const std::stop_token& stop = {});

}  // namespace ohmwright
