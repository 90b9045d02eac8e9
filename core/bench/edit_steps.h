/// What the hands do for the edits of one mod: take out, move legs, fit, with what to look for and where each leg goes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/bench_step.h"
#include "core/bench/board_edits.h"
#include "core/bench/polarity.h"

#include <string>
#include <vector>

namespace ohmwright {

/// One mod's work: the board before and after, and what is solved of the finished board.
struct EditWork {
    std::string letter;
    const Circuit& before;
    const Circuit& after;
    const DutyTable& duties;
    bool isUndone = false;  ///< The way back: what comes out is what the mod had fitted, the old part goes in again.
};

/// In the order of work, without readings.
std::vector<BenchStep> stepsOfEdits(const EditWork& work, const std::vector<BoardEdit>& edits);

}  // namespace ohmwright
