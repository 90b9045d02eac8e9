/// A wire found on the grid, around what is drawn already.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <functional>
#include <vector>

namespace ohmwright {

/// The shortest way of a net from any of the points to the first that is wanted, a bend counting as some steps more:
/// under no body, through nothing of another net; other nets' wires are crossed straight. On the sheet alone
/// (drawing.size). @return its corners; empty where there is no way.
std::vector<GridPoint> findLead(const Circuit& circuit, const NetName& net, const std::vector<GridPoint>& from,
                                const std::function<bool(GridPoint)>& isWanted);

}  // namespace ohmwright
