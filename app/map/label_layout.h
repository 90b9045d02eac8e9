/// Finds a free place for the words and triangles of a part.
///
/// Order of trying: the wished side, then the opposite one, then the two others; on each side the words stacked,
/// then in one line, each shifted along the part by about one grid step; then beside a level part's body, above or
/// below its wire; last of all the reference alone. A place is good when nothing is covered and no other part's body is
/// as near: words beside a neighbour would be read as the neighbour's. The first good place wins, else the best of the
/// bad ones: the same circuit always gives the same map.
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
    double firstShift = 0.0;     ///< Along the part; a transistor's words stand at its collector.
    std::size_t markCount = 0;   ///< Triangles to be placed with the words.
    bool isOnWire = false;       ///< A level part of two pins: words may stand beside it above or below its wire.
    std::vector<QRectF> others;  ///< Bodies of other parts.
    QRectF sheet;                ///< Words outside are a last resort, though Obstacles::sheet may be wider; null: none.
};

struct PlacedLabel {
    LabelBlock block;
    LabelPlace place;
    std::vector<QRectF> boxes;  ///< One a line.
    std::vector<QRectF> marks;  ///< One a triangle.
    double covered = 0.0;       ///< 0: nothing is written over.
    double penalty = 0.0;       ///< 0: nothing is covered, the words are nearest to their own part and say all.

    friend bool operator==(const PlacedLabel&, const PlacedLabel&) = default;
};

/// Shortest way between two boxes [px]; 0 where they touch.
double gapBetween(const QRectF& a, const QRectF& b);
/// The box about all of them.
QRectF boundsOf(const std::vector<QRectF>& boxes);

PlacedLabel placeLabel(const LabelRequest& request, const LabelWriter& writer, const Obstacles& obstacles);

}  // namespace ohmwright
