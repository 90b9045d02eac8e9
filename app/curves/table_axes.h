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
    bool isInDecibels = false;  ///< The vertical one: in steps of 6 dB.
};

/// Of the response. @param gains  that are shown [dB].
TableAxes responseAxes(const PlotRange& gains);
/// Of the clip curve. @param volts  that are shown; @param highest  pick level [V peak]; @param where  "U1A pin 1".
TableAxes clipAxes(const PlotRange& volts, double highest, const Setting& setting, LevelUnit unit,
                   const QString& where);
/// The lowest pick level that a clip curve shows, in `unit`: nothing, or 40 dB under the highest.
double lowestClipLevel(double highest, LevelUnit unit);

/// Whether all that a wave shows stays under a volt: then it is read in millivolts.
bool isInMillivolts(const ComparedCurve& curve);
/// As core measures it, in the units it is drawn in: levels in `unit`, a small wave in millivolts.
CurveTable asDrawn(const CurveTable& table, LevelUnit unit, bool small);
ComparedCurve asDrawn(const ComparedCurve& curve, LevelUnit unit);

/// Axes that hold both states. REQUIRES: a kind that TablePlot draws; its levels in `unit` (inLevelUnit).
TableAxes tableAxes(const ComparedCurve& curve, const Setting& setting, LevelUnit unit);

/// @param pixels  width of the frame.
AxisMarks horizontalMarks(CurveKind kind, const TableAxes& axes, double pixels);
/// @param pixels  height of the frame.
AxisMarks verticalMarks(const TableAxes& axes, double pixels);

}  // namespace ohmwright
