/// Parts drawn beside a drawing that stands: a step of arrange.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/sketch.h"

#include <set>

namespace ohmwright {

/// How parts between the same two nets are laid: each where it is near, or as the rungs of a ladder.
enum class Parallels { each, asLadders };

/// All parts of a circuit placed where they are free and their wires to the rest are short. @return what was added.
/// @param meets  nets that parts outside the circuit are on.
Sketch laidBeside(const Circuit& circuit, const Rails& rails, const std::set<NetName>& meets, const Sketch& standing,
                  Parallels parallels);

}  // namespace ohmwright
