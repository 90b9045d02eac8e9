/// Finds free ground for words that come and go over a finished map: figures of influence, volts at nodes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_geometry.h"

#include <vector>

namespace ohmwright {

/// The first of the boxes that covers nothing, else the one that covers least, an earlier one being the better by a
/// strip of a few px. It is entered among the obstacles, so that the next words keep off it.
/// REQUIRES: at least one box.
QRectF takeFreeBox(const std::vector<QRectF>& wished, Obstacles& drawn);

/// Boxes of one size round a body, nearest first: below, above, right, left, then at its corners.
std::vector<QRectF> boxesRound(const QRectF& body, const QSizeF& size, double gap);

}  // namespace ohmwright
