/// A curve's table as a file of comma-separated values.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/curve_table.h"

#include <string>

namespace ohmwright {

/// A line of the columns' ids, units in them, then a line a row; names of rows stand first, under "net". Twelve
/// significant digits with a decimal point; what is not there is an empty cell. The same text as `ohmwright-cli curve`.
std::string writeCurveCsv(const CurveTable& table);

}  // namespace ohmwright
