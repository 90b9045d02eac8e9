/// The circuit that a plan gives.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/plan/job.h"
#include "core/plan/mod.h"

#include <string>

namespace ohmwright {

/// `circuit` with one change made; the input is untouched.
/// @param throwName  how a switch that the mod fits stands; empty: its first throw.
///
/// Errors: invalidInput naming the mod's part when it does not exist, has no such pin, has no value to
/// swap, is already lifted there, or when the new value is outside the limits of circuit/check.h; a switch without
/// that throw.
Result<Circuit> applyMod(const Circuit& circuit, const Mod& mod, const std::string& throwName = {});

/// `stock` with every mod that is on, in order, switches standing as `throws` says. No mods on gives a circuit equal
/// to `stock`.
/// Errors: as applyMod, the mod's letter and name before the sentence; a mod on a part that another mod fits names
/// both when that one is off or comes later.
Result<Circuit> applyPlan(const Circuit& stock, const Plan& plan, const Throws& throws = {});

/// The job's stock with its plan, switches as its setting has them. Errors: as applyPlan.
Result<Circuit> nowCircuit(const Job& job);

/// `stock` with exactly the one mod, whether it is on or off: "this change alone".
Result<Circuit> applyAlone(const Circuit& stock, const Mod& mod, const Throws& throws = {});

}  // namespace ohmwright
