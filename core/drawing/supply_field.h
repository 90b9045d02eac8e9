/// The field with the supply: sources, what filters them, and the dividers that make half the supply.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/signal_row.h"

namespace ohmwright {

/// Draws all branches between rails, in rows from source to the last supply made; marks them as drawn. The sketch has
/// one sign for each supply, and ground below. Empty where there is none.
Sketch drawSupply(const RowInput& input, Progress& progress);

}  // namespace ohmwright
