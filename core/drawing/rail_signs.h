/// Signs of supplies and ground at pins that have none.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/branches.h"

namespace ohmwright {

/// Pins on a supply or on ground that no sign stands at yet get one, at the pin or beside it where it is free. A
/// rheostat's wiper is left to the wire to its end.
/// @param joinedByWires  by index into Circuit::parts: a wire will join them to a sign.
void addMissingSigns(Circuit& drawn, const Rails& rails, const std::vector<bool>& joinedByWires);

/// Supply signs say what the signs of their net said before.
void keepSignTexts(const Drawing& before, Drawing& drawn);

}  // namespace ohmwright
