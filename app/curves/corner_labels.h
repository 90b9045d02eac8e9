/// Where the words of the corner markers go: below or above their diamond, never on each other, never outside.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointF>
#include <QPolygonF>
#include <QRectF>
#include <QSizeF>

#include <optional>
#include <vector>

namespace ohmwright {

struct CornerLabelRequest {
    QPointF anchor;  ///< Centre of the diamond.
    QSizeF size;     ///< Of the words.
};

/// A leader runs from the anchor straight to `elbow` and on to the near side of `box`.
struct PlacedCornerLabel {
    QRectF box;
    QPointF elbow;
    QPointF leaderEnd;
};

/// One answer a request, in their order; the earlier request chooses first. A label that finds no free place is
/// absent. Places clear of `curves` and near the anchor are preferred.
std::vector<std::optional<PlacedCornerLabel>> placeLabels(const QRectF& plot,
                                                          const std::vector<CornerLabelRequest>& requests,
                                                          const std::vector<QPolygonF>& curves);

}  // namespace ohmwright
