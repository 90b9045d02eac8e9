/// Axes of the kinds that are tables: level, harmonics, time and noise.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/plot_frame.h"
#include "app/curves/plot_range.h"
#include "core/base/level_unit.h"
#include "core/plan/compare_curves.h"

#include <QString>

namespace ohmwright {

/// What stands around a kind's plot and between which ends its axes run.
struct TableAxes {
    QString vertical;    ///< "output, dBV"
    QString horizontal;  ///< "pick level, mVpk, 220 Hz"
    PlotRange x;
    PlotRange y;
    bool isLogX = false;
    bool isLogY = false;
};

/// Axes that hold both states. REQUIRES: a kind that TablePlot draws; its levels in `unit` (inLevelUnit).
TableAxes tableAxes(const ComparedCurve& curve, const Setting& setting, LevelUnit unit);

/// @param pixels  width of the frame.
AxisMarks horizontalMarks(CurveKind kind, const TableAxes& axes, double pixels);
AxisMarks verticalMarks(const TableAxes& axes);

}  // namespace ohmwright
