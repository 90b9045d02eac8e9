/// Which pads the iron came to, visit by visit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <map>
#include <string>
#include <vector>

namespace ohmwright {

/// The legs that a visit's mods that are on are soldered at.
struct VisitHeat {
    int visit = 1;
    bool isPresent = false;
    std::vector<Leg> heated;   ///< Of a visit that has ended all of them; of the present one those of signed work.
    std::vector<Leg> planned;  ///< Of the present one what is left.

    friend bool operator==(const VisitHeat&, const VisitHeat&) = default;
};

/// By number, the present visit last. A leg stands once a visit, in the order of work.
/// Errors: as workGroups (core/bench/order_of_work.h) on a visit's plan.
Result<std::vector<VisitHeat>> padHeat(const Job& job);

/// In how many visits each leg was heated.
std::map<Leg, int> timesHeated(const std::vector<VisitHeat>& heat);

/// "C4 Cg: both; R5 Rg: leg 1", "none".
std::string heatedWords(const Circuit& circuit, const std::vector<Leg>& legs);

}  // namespace ohmwright
