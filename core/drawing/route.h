/// Draws the wires that are missing: at right angles on the grid, with few bends and crossings, clear of bodies and
/// words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/outline.h"

#include <vector>

namespace ohmwright {

/// Joins up every net of the placed parts. What stands is kept: the circuit's wires, and its signs, whose nets need no
/// wire from sign to sign. A wire meets no pin, corner or end of another net; it crosses another only straight. Pins
/// that no wire can reach get a sign with the net's name; there is none where every pin has a free point beside it.
///
/// Each join is a shortest way for a step's length 1 and prices for bends, crossings, words and joints of four; nets
/// are joined from the small to the large, and then each once more with all others in place. Source of the method: C.
/// Y. Lee, IRE Trans. EC-10 (1961) 346; prices in place of walls after E. W. Dijkstra, Numerische Mathematik 1 (1959)
/// 269.
/// @param words  places where words will stand; a wire may cross them at a price, which is raised where a part's words
///     would be left without a side of their own.
void joinWithWires(Circuit& circuit, const std::vector<GridBox>& words);

}  // namespace ohmwright
