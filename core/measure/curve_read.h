/// Reading a curve's table: a value between its rows, the nearest row, levels in another unit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/level_unit.h"
#include "core/measure/curve_table.h"

#include <optional>

namespace ohmwright {

/// Of a column at a place on the table's first one, straight between the two nearest rows (over its logarithm where the
/// axis is one: frequency, level of a ladder). Absent outside the rows, beside a missing value, between harmonics, and
/// where rows have names.
std::optional<double> curveValueAt(const CurveTable& table, std::size_t column, double at);

/// The row nearest to a place on the first column; absent without rows or where they have names.
std::optional<std::size_t> nearestRow(const CurveTable& table, double at);

/// The same table with what is a level said in `unit`: pick levels (volts peak) in it, output levels (dBV RMS) in
/// rmsUnitBeside. Other columns stay. Ids, names and units of the columns follow.
CurveTable inLevelUnit(CurveTable table, LevelUnit unit);

/// The table of a response that is solved already.
CurveTable tableOfResponse(ResponseCurve curve, const NetName& output);

/// Volts are said in millivolts.
CurveTable inMillivolts(CurveTable table);

}  // namespace ohmwright
