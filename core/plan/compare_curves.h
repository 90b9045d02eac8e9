/// Stock and now of any kind of curve, side by side: what the window's curves, their tables and files show.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/curve_table.h"
#include "core/plan/job.h"

#include <stop_token>

namespace ohmwright {

struct ComparedCurve {
    CurveTable stock;
    CurveTable now;
};

/// Errors: of applyPlan and measureCurve, with "stock: " or "now: " before the sentence; cancelled.
Result<ComparedCurve> compareCurve(const Job& job, CurveKind kind, const std::stop_token& stop = {});

/// One table of both: what they are read against, then each column as stock, now and change (now less stock; NaN where
/// either has none). A row that only one of them has (a net that a mod makes) stands after those of both.
CurveTable sideBySide(const ComparedCurve& curve);

}  // namespace ohmwright
