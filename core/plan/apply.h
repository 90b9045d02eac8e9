/// The circuit that a plan gives.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/plan/mod.h"

namespace ohmwright {

/// `circuit` with one change made; the input is untouched.
///
/// Errors: invalidInput naming the mod's part when it does not exist, has no such pin, has no value to
/// swap, is already lifted there, or when the new value is outside the limits of circuit/check.h.
Result<Circuit> applyMod(const Circuit& circuit, const Mod& mod);

/// `stock` with every mod that is on, in order. No mods on gives a circuit equal to `stock`.
/// Errors: as applyMod, the mod's letter and name before the sentence; a mod on a part that another mod fits names
/// both when that one is off or comes later.
Result<Circuit> applyPlan(const Circuit& stock, const Plan& plan);

/// `stock` with exactly the one mod, whether it is on or off: "this change alone".
Result<Circuit> applyAlone(const Circuit& stock, const Mod& mod);

}  // namespace ohmwright
