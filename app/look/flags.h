/// The signs of a drawing, as they stand on the map: ground, supply, jack. Scene px, with the pen that is set.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QPointF>

class QPainter;

namespace ohmwright {

/// @param at  the point that is joined. A ground sign hangs below it, a supply sign stands above it, a jack is round
/// it; a note has no sign.
void paintFlag(QPainter& painter, FlagKind kind, const QPointF& at);

}  // namespace ohmwright
