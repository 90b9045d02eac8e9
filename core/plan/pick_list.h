/// What jobs take out of the drawer: the pick list of one, the shortages over all that are open.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/parts/drawer.h"
#include "core/plan/job.h"

#include <string>
#include <vector>

namespace ohmwright {

/// The name under which a job's parts are reserved: serial and visit, "HL-0231/2".
std::string reservationName(const Job& job);

/// A part that a mod needs, and where it comes from.
struct PickLine {
    std::string modLetter;  ///< "A"
    std::string reference;  ///< Place on the board: "C4".
    PartKind kind = PartKind::resistor;
    double value = 0.0;    ///< SI; 0 for a part with a type.
    std::string type;      ///< Empty for a part with a value.
    std::string lot;       ///< DrawerLot::id; empty when the drawer has none left.
    std::string printed;   ///< Marking to look for; of the lot.
    std::string sentence;  ///< "C4: 120n film, lot CF-12 (marked 124)", "R5: 2k7 is not in the drawer: order 1"
};

/// The parts that the mods that are on need, in the order of fitting, each from the first lot of its kind and value
/// (within 0.1 % of the value ordered) or type that has one left for this job. A lot is not promised twice.
/// Errors: as applyPlan: a plan that cannot be fitted takes nothing.
Result<std::vector<PickLine>> pickList(const Job& job, const Drawer& drawer);

/// The lots and numbers of a pick list: what parts/drawer.h reserves. Lines without a lot are left out.
std::vector<LotCount> takenBy(const std::vector<PickLine>& lines);

/// A part of which the drawer holds too few for all jobs together.
struct Shortage {
    PartKind kind = PartKind::resistor;
    double value = 0.0;
    std::string type;
    int needed = 0;                 ///< By the jobs that were given.
    int there = 0;                  ///< In the drawer, less what jobs that were not given have reserved.
    int missing = 0;                ///< needed - there.
    std::vector<std::string> jobs;  ///< That need it, by reservation name.
    std::string sentence;           ///< "3 of 120n missing (HL-0231/2, HL-0240/1): 5 needed, 2 there"
};

/// Over all open jobs: what to order. Ordered by kind, then value, then type. Jobs whose plan cannot be fitted are
/// named in `unfit`, if it is there.
std::vector<Shortage> shortageList(const std::vector<Job>& jobs, const Drawer& drawer,
                                   std::vector<std::string>* unfit = nullptr);

}  // namespace ohmwright
