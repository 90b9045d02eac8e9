/// Edits of the board: a photo for a side, legs marked on it. Figures and papers' hashes do not depend on them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

namespace ohmwright {

/// Largest side of a photo [px].
inline constexpr int largestPhotoSide = 65535;

/// The side's photo. Marks stay where it is the same picture (hash and size); else they go, since another photo shows
/// the legs elsewhere. Errors: invalidInput for a size that no photo has.
Result<Job> setBoardPhoto(const Job& job, BoardSide side, const BoardPhoto& photo);
/// Errors: invalidInput when the side has none.
Result<Job> removeBoardPhoto(const Job& job, BoardSide side);

/// A leg's place on the side's photo, in place of the one that it has.
/// Errors: invalidInput when the side has no photo, the point lies beside it, or neither stock nor what the plan makes
/// of it has such a leg on the board.
Result<Job> markLeg(const Job& job, BoardSide side, const Leg& leg, const BoardPoint& at);
/// Errors: invalidInput when it is not marked there.
Result<Job> unmarkLeg(const Job& job, BoardSide side, const Leg& leg);

}  // namespace ohmwright
