/// Stages of a drawing that was made from a netlist.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/signal_path.h"

namespace ohmwright {

/// The steps of the signal's way that begin a new stage, in order: at a coupling capacitor or a device, once the stage
/// before has a device or a pot of its own, and at the jack.
std::vector<std::size_t> stageStarts(const Circuit& circuit, const std::vector<Branch>& branches,
                                     const std::vector<SignalStep>& way);

/// Gives a drawn circuit its stages: borders from the way, parts by the columns that they stand in, names from what is
/// in them ("Source", "Gain stage", "Clipper", "Tone" ..., with a number where several have one name). What stands in a
/// field belongs to none. A stage that holds most of what one held before keeps that one's name.
/// @param columns  where the stages after the first begin, one for each of `starts`.
void nameStages(Circuit& circuit, const std::vector<SignalStep>& way, const std::vector<std::size_t>& starts,
                const std::vector<int>& columns);

}  // namespace ohmwright
