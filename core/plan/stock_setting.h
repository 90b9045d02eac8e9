/// The setting kept to the stock circuit that it is of.
///
/// The setting rules: figures, steps and high-voltage cautions go by its battery volts and load, since a flat battery
/// or another next box is no other drawing. What the drawing says is taken into it when the drawing says something new.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

namespace ohmwright {

/// Battery volts and load as the parts of the drawing have them; one that the circuit has not is left as it is.
void takeUpDrawnEnds(const Circuit& stock, Setting& setting);

/// The battery volts and the load that an edit of the drawing brought or changed; what stayed as it was drawn leaves
/// the setting alone. A source that came as the battery with volts that no setting has (a sensing source of 0 V) is
/// one like any other: the circuit has no battery then.
/// Errors: invalidInput when a battery or load is given a value outside the setting's range.
Result<void> followDrawnEnds(const Circuit& before, Job& edited);

/// Positions of knobs that stock has not are forgotten.
void forgetKnobsNotThere(Job& edited);

}  // namespace ohmwright
