/// One part laid out with all that mods hang on it: fitted parts, lifted legs, bridges, the plus of a polarised one.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"

namespace ohmwright {

/// @param part   of the circuit as built; has a placement.
/// @param sheet  a part across another stands on the side that lies on it [scene px].
DrawnPart layOutPart(const MapState& state, const Part& part, const QRectF& sheet);

}  // namespace ohmwright
