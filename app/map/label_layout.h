/// Finds a free place for the words and triangles of a part.
///
/// Order of trying: the wished side, then the opposite one, then the two others; on each side the words stacked,
/// then in one line, each shifted along the part by about one grid step; then beside a level part's body, above or
/// below its wire; last of all the value alone. The first place that covers nothing wins, else the one that covers
/// least: the same circuit always gives the same map.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/label_block.h"
#include "app/map/map_geometry.h"

#include <vector>

namespace ohmwright {

struct LabelRequest {
    std::vector<LabelBlock> shapes;  ///< Best first; the last one only when nothing else fits.
    QRectF body;
    double gap = 5.0;  ///< Between body and words [px].
    bool isUpright = false;
    LabelSide side = LabelSide::automatic;
    double firstShift = 0.0;    ///< Along the part; a transistor's words stand at its collector.
    std::size_t markCount = 0;  ///< Triangles to be placed with the words.
    bool isOnWire = false;      ///< A level part of two pins: words may stand beside it above or below its wire.
};

struct PlacedLabel {
    LabelBlock block;
    LabelPlace place;
    std::vector<QRectF> boxes;  ///< One a line.
    std::vector<QRectF> marks;  ///< One a triangle.
    double covered = 0.0;       ///< 0: nothing is written over.
};

PlacedLabel placeLabel(const LabelRequest& request, const LabelWriter& writer, const Obstacles& obstacles);

}  // namespace ohmwright
