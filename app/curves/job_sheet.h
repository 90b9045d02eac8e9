/// The sheet of a curve of a job, without a plot on a screen: what a picture shows that no window was asked for.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/curve_sheet.h"

#include <vector>

namespace ohmwright {

/// Title and conditions alone, with what the models leave out.
CurveSheet headOfSheet(CurveKind kind, const Job& job);

/// The whole of it: axes that hold stock and now, nothing zoomed; levels in the unit chosen.
/// @param curve, pins  as core measures them. REQUIRES: a kind that is drawn, not bias.
CurveSheet sheetOfJob(CurveKind kind, const Job& job, const ComparedCurve& curve, const std::vector<PinnedCurve>& pins);

}  // namespace ohmwright
