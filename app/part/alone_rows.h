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

/// "bigger than the spread: +5.89 dB at 110 Hz against ±1.19 dB": the selected part's change alone, at the cursor,
/// against what two stock units differ by there, in the words of spreadSentence. Empty where one of the two has no
/// value.
QString aloneAgainstSpread(const LinearAnswer& linear);

}  // namespace ohmwright
