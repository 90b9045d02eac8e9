// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/corner_labels.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

// All in px.
constexpr double leaderArm = 10.0;
constexpr double armGap = 5.0;
constexpr double edgeGap = 3.0;
constexpr double labelGap = 4.0;
constexpr double curveGap = 5.0;
constexpr double diamondReach = 10.0;
constexpr double preferredDrop = 40.0;
constexpr double rowStep = 4.0;
/// Words under a curve are worse than words far from their diamond.
constexpr double costOfCurve = 400.0;
/// Below and to the right is where a reader looks first.
constexpr double costOfAbove = 60.0;
constexpr double costOfLeft = 30.0;

QRectF lineBox(const QPointF& a, const QPointF& b) {
    return QRectF(a, b).normalized().adjusted(-1.0, -1.0, 1.0, 1.0);
}

PlacedLabel labelAt(const LabelRequest& request, double centreY, bool toRight) {
    const double direction = toRight ? 1.0 : -1.0;
    PlacedLabel label;
    label.elbow = {request.anchor.x(), centreY};
    label.leaderEnd = {request.anchor.x() + direction * leaderArm, centreY};
    const double near = label.leaderEnd.x() + direction * armGap;
    label.box = {toRight ? near : near - request.size.width(), centreY - request.size.height() / 2.0,
                 request.size.width(), request.size.height()};
    return label;
}

QRectF diamondBox(const QPointF& centre) {
    return {centre.x() - diamondReach, centre.y() - diamondReach, 2.0 * diamondReach, 2.0 * diamondReach};
}

bool isFree(const PlacedLabel& label, const LabelRequest& request, const std::vector<LabelRequest>& requests,
            const std::vector<std::optional<PlacedLabel>>& placed) {
    const QRectF padded = label.box.adjusted(-labelGap, -labelGap, labelGap, labelGap);
    const QRectF leader = lineBox(request.anchor, label.elbow);
    for (const LabelRequest& other : requests) {
        if (label.box.intersects(diamondBox(other.anchor))) {
            return false;
        }
        if (&other != &request && leader.intersects(diamondBox(other.anchor)) &&
            !diamondBox(request.anchor).intersects(diamondBox(other.anchor))) {
            return false;
        }
    }
    for (std::size_t i = 0; i < placed.size(); ++i) {
        if (!placed[i]) {
            continue;
        }
        const QRectF theirLeader = lineBox(requests[i].anchor, placed[i]->elbow);
        const QRectF theirArm = lineBox(placed[i]->elbow, placed[i]->leaderEnd);
        if (padded.intersects(placed[i]->box) || padded.intersects(theirLeader) || padded.intersects(theirArm) ||
            leader.intersects(placed[i]->box)) {
            return false;
        }
    }
    return true;
}

int curvesUnder(const QRectF& box, const std::vector<QPolygonF>& curves) {
    const QRectF padded = box.adjusted(-curveGap, -curveGap, curveGap, curveGap);
    return static_cast<int>(std::count_if(curves.begin(), curves.end(), [&](const QPolygonF& curve) {
        for (qsizetype i = 1; i < curve.size(); ++i) {
            if (padded.intersects(lineBox(curve[i - 1], curve[i]))) {
                return true;
            }
        }
        return false;
    }));
}

double costOf(const PlacedLabel& label, const LabelRequest& request, const std::vector<QPolygonF>& curves) {
    const double drop = label.elbow.y() - request.anchor.y();
    const bool isAbove = drop < 0.0;
    const bool isLeft = label.leaderEnd.x() < request.anchor.x();
    return std::abs(std::abs(drop) - preferredDrop) + (isAbove ? costOfAbove : 0.0) + (isLeft ? costOfLeft : 0.0) +
           costOfCurve * curvesUnder(label.box, curves);
}

std::optional<PlacedLabel> bestPlace(const QRectF& plot, const LabelRequest& request,
                                     const std::vector<LabelRequest>& requests,
                                     const std::vector<std::optional<PlacedLabel>>& placed,
                                     const std::vector<QPolygonF>& curves) {
    const QRectF room = plot.adjusted(edgeGap, edgeGap, -edgeGap, -edgeGap);
    std::optional<PlacedLabel> best;
    double bestCost = std::numeric_limits<double>::infinity();
    for (double y = room.top() + request.size.height() / 2.0; y <= room.bottom(); y += rowStep) {
        for (const bool toRight : {true, false}) {
            const PlacedLabel label = labelAt(request, y, toRight);
            if (!room.contains(label.box) || !isFree(label, request, requests, placed)) {
                continue;
            }
            const double cost = costOf(label, request, curves);
            if (cost < bestCost) {
                bestCost = cost;
                best = label;
            }
        }
    }
    return best;
}

}  // namespace

std::vector<std::optional<PlacedLabel>> placeLabels(const QRectF& plot, const std::vector<LabelRequest>& requests,
                                                    const std::vector<QPolygonF>& curves) {
    std::vector<std::optional<PlacedLabel>> placed;
    for (const LabelRequest& request : requests) {
        placed.push_back(bestPlace(plot, request, requests, placed, curves));
    }
    return placed;
}

}  // namespace ohmwright
