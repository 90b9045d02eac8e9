/// Edits of the drawing taken into a job: plan, setting, readings and corrections follow the nets and parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/edit.h"
#include "core/plan/job.h"

#include <string_view>
#include <vector>

namespace ohmwright {

/// The job with its stock circuit as it is after an edit of the drawing. Mods, readings and corrections that name a net
/// that went up into another one name that one now; positions of knobs that are gone are forgotten; a battery or load
/// that was put down or given another value is taken into the setting (core/plan/stock_setting.h).
/// A part that was put down takes no reference or id of one that the plan fits, a correction speaks of or an earlier
/// visit left: it gets the next free one.
/// Errors: the edit's own; invalidInput when the visit is gone, when a mod that is on could be made before and cannot
/// be made any more (its part is gone, or both its nets are one now), when a part goes whose correction still holds
/// (what was read of it would be lost), when a part that a correction joined elsewhere would be put back on its old
/// lines, or when a battery or load has a value that no setting has: nothing is changed then.
Result<Job> withDrawing(const Job& job, const EditResult& edit);

/// The lines of core/drawing/edit_lines.h, each taken into the job as withDrawing does.
/// Errors: of the first line that is refused, with its number; nothing is changed then.
Result<Job> withDrawingLines(const Job& job, std::string_view text, const std::vector<Model>& models);

}  // namespace ohmwright
