/// Where the work of a step lies on the unit's own photo: what a sheet shows beside the step's words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/bench_step.h"
#include "core/board/board_sheet.h"
#include "core/plan/job.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

struct CropLeg {
    Leg leg;
    std::string words;  ///< "leg 1", "band leg", "D2 band leg" where the step works on two parts.
    BoardPoint at;      ///< On the photo [px].

    friend bool operator==(const CropLeg&, const CropLeg&) = default;
};

/// A part of one side's photo, as that side is looked at.
struct StepCrop {
    BoardSide side = BoardSide::part;
    DrawnRect box;              ///< On the photo [px].
    std::vector<CropLeg> legs;  ///< Those of the step that have a place, at least one.

    friend bool operator==(const StepCrop&, const StepCrop&) = default;
};

/// One a step; nothing where the step touches no leg that has a place on a photo. The side on which more of the step's
/// legs were marked by hand is shown, of equals the part side; a drawn board is no photo.
/// Errors: of workGroups, as the parts of the plan are named from the finished board.
Result<std::vector<std::optional<StepCrop>>> stepCrops(const Job& job, const std::vector<BenchStep>& steps);

}  // namespace ohmwright
