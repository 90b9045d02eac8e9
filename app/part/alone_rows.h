/// The rows of "this change alone": stock beside stock with only the selected part's mod.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/figure_table.h"
#include "core/plan/compare.h"

#include <QString>

#include <vector>

namespace ohmwright {

/// Either answer may be null, or lack the selected part's own state; its rows are then left out.
std::vector<FigureRow> aloneRows(const LinearAnswer* linear, const LargeSignalAnswer* largeSignal);

/// "+5.89 dB at 110 Hz is bigger than the spread, ±1.19 dB", "within spread: +0.41 dB at 1.00 kHz, ±1.06 dB": the
/// selected part's change alone, at the cursor, against what two stock units differ by there. Empty where one of the
/// two has no value.
QString aloneAgainstSpread(const LinearAnswer& linear);

}  // namespace ohmwright
