/// One part more on a drawing that is there already: set down near another, with lines of its own.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <optional>

namespace ohmwright {

/// The circuit with a part that has no place yet set down near `beside`, or near the parts that it is joined to where
/// that one is empty or not drawn. Each leg is joined by a wire to its net, at ground and supplies by a sign; nothing
/// that was drawn is touched, and no net changes. The sheet grows only where it has no room.
/// @return nothing without a drawing, where the part has a place or cannot be drawn so: no leg finds a way.
std::optional<Circuit> drawnBeside(const Circuit& circuit, const PartId& part, const PartId& beside);

/// Takes off the wires and signs that lead to the legs of a part alone: what drawnBeside drew with it. Wires that
/// anything else is joined to stay.
void takeOffLeads(Circuit& circuit, const Part& part);

}  // namespace ohmwright
