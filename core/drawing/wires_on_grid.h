/// The steps that wires take on the grid, as wires from joint to joint.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/wire_grid.h"

#include <vector>

namespace ohmwright {

/// Each wire runs from joint, pin or sign to the next one, with its corners between.
/// @param names  of the nets, by their numbers on the grid.
std::vector<Wire> wiresOn(const WireGrid& grid, const std::vector<NetName>& names);

}  // namespace ohmwright
