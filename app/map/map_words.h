/// The words of the parts on a map whose symbols, wires, signs and texts have their places.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"

namespace ohmwright {

/// Adds MapLayout::labels and enters them among the obstacles.
///
/// Parts that the plan changes come first, for they have most to say. Where a part finds no good place, a neighbour
/// gives up its own for another and the two are placed anew, if both together are better off.
void placeWordsOfParts(MapLayout& layout, const LabelWriter& writer);

}  // namespace ohmwright
