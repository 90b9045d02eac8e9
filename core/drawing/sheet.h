/// The sheet round a drawing.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

namespace ohmwright {

/// Moves what lies left of or above the sheet onto it, with the stages' columns, and gives the sheet the size that all
/// that is drawn needs. @return by how many columns everything went to the right.
/// @param top  rows kept free above what is drawn, for words.
int fitSheet(Circuit& drawn, int top);

}  // namespace ohmwright
