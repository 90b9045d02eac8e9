/// The rows of "this change alone": stock beside stock with only the selected part's mod.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/figure_table.h"
#include "core/plan/compare.h"

#include <vector>

namespace ohmwright {

/// Either answer may be null, or lack the selected part's own state; its rows are then left out.
std::vector<FigureRow> aloneRows(const LinearAnswer* linear, const LargeSignalAnswer* largeSignal);

}  // namespace ohmwright
