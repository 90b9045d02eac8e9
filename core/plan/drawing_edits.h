/// Edits of the drawing taken into a job: the plan, the setting and the readings follow the nets and parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/edit.h"
#include "core/plan/job.h"

namespace ohmwright {

/// The job with its stock circuit as it is after an edit of the drawing. Mods and readings that name a net that went
/// up into another one name that one now; positions of knobs that are gone are forgotten.
/// A part that was put down under a reference or id of a part that the plan fits gets the next free one.
/// Errors: the edit's own; invalidInput when a mod that could be made before cannot be made any more (its part is gone,
/// or both its nets are one now), or when a part that a correction joined elsewhere would be put back on its old lines:
/// nothing is changed then.
Result<Job> withDrawing(const Job& job, const EditResult& edit);

}  // namespace ohmwright
