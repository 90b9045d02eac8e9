/// Edits: an old job in, a new job or the reason against it out. Every change the window makes is one of these.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"
#include "core/plan/part_names.h"

#include <optional>

namespace ohmwright {

/// Gives the part a new value as a mod: the value mod that the plan already has on this part is changed,
/// and taken out again when the value is back at stock; else a new mod with the next free letter is added.
/// The mod is switched on. The value of a part that a mod fits is changed in that mod.
/// Errors: invalidInput as applyMod.
Result<Job> setPartValue(const Job& job, const PartId& part, double value);

/// Gives the part another type as a mod: the type mod that the plan already has on this part is changed, and taken
/// out again when the type is back at stock; else a new mod is added. The mod is switched on.
/// Errors: invalidInput as applyMod.
Result<Job> setPartType(const Job& job, const PartId& part, const Model& model);
/// What a meter read of a part of stock, in SI; nothing takes the reading back. The part counts as measured, then as
/// seen. Errors: invalidInput for a part that stock has not or that has no value, and for a value that is none.
Result<Job> setPartMeasured(const Job& job, const PartId& part, std::optional<double> value);

/// Several changes as mods, in their order: a value as setPartValue does it, anything else as a mod of its own.
/// Errors: of the first that cannot be made; nothing is changed then.
Result<Job> planChanges(const Job& job, const std::vector<Change>& changes);

/// Several changes as one that can be tried as a ghost; new parts without an id take their reference as theirs.
/// REQUIRES: at least one, none of them a switch.
Change asOneChange(const std::vector<Change>& changes);

/// Adds a mod with the next free letter, switched on; `change` is tried on the circuit first.
/// @param name  the list's first line; empty: made from the part's role.
Result<Job> addMod(const Job& job, const Change& change, const std::string& name = {});

/// Errors: invalidInput when there is no such mod (the three below).
Result<Job> setModOn(const Job& job, const std::string& modId, bool on);
Result<Job> removeMod(const Job& job, const std::string& modId);
Result<Job> renameMod(const Job& job, const std::string& modId, const std::string& name);
/// Moves a mod to another place in the order of fitting.
Result<Job> moveMod(const Job& job, const std::string& modId, int toIndex);

/// Holds a word of the customer against the figures from now on; in small letters, without spaces around it.
/// Errors: invalidInput for an empty word and one that is held already.
Result<Job> addWord(const Job& job, const std::string& word);
/// Errors: invalidInput when the word is not held.
Result<Job> removeWord(const Job& job, const std::string& word);

/// Turns a knob; position is held to 0..10.
Result<Job> setKnob(const Job& job, const std::string& knobId, double position);
/// Stands the switch that a mod fits at one of its throws.
/// Errors: invalidInput when no such mod fits a switch, or the switch has no such throw.
Result<Job> setThrow(const Job& job, const std::string& modId, const std::string& throwName);
/// Errors: invalidInput when a figure is outside its range (circuit/setting.h).
Result<Job> setSetting(const Job& job, const Setting& setting);

/// "A" .. "Z", "AA" ...: the first not used by the plan.
std::string nextFreeLetter(const Plan& plan);
/// The plan's value mod on a part, or null; of several the one that counts (the last that is on, else the last).
const Mod* valueModOf(const Plan& plan, const PartId& part);

}  // namespace ohmwright
