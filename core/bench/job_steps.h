/// Steps that belong to the whole job: photograph, discharge, stop, power-up, probes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/order_of_work.h"

#include <cstddef>
#include <vector>

namespace ohmwright {

BenchStep photographStep();
BenchStep dischargeStep(const Discharge& discharge);
BenchStep stopStep();
/// @param supplyVolts  0 where the unit has no supply of its own.
BenchStep powerStep(const ProbeCard& card, double supplyVolts);
/// One a line of the group's card, a dozen at most: the card has the others.
/// @param sheet  index of the group in WorkPlan::powered.
std::vector<BenchStep> probeSteps(const PoweredGroup& group, std::size_t sheet);

}  // namespace ohmwright
