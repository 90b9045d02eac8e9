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
constexpr double pieceLength = 6.0;
/// Words under a curve are worse than words far from their diamond.
constexpr double costOfCurve = 400.0;
/// Below and to the right is where a reader looks first.
constexpr double costOfAbove = 60.0;
constexpr double costOfLeft = 30.0;

QRectF lineBox(const QPointF& a, const QPointF& b) {
    return QRectF(a, b).normalized().adjusted(-1.0, -1.0, 1.0, 1.0);
}

PlacedCornerLabel labelAt(const CornerLabelRequest& request, double centreY, bool toRight) {
    const double direction = toRight ? 1.0 : -1.0;
    PlacedCornerLabel label;
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

bool isFree(const PlacedCornerLabel& label, const CornerLabelRequest& request,
            const std::vector<CornerLabelRequest>& requests,
            const std::vector<std::optional<PlacedCornerLabel>>& placed) {
    const QRectF padded = label.box.adjusted(-labelGap, -labelGap, labelGap, labelGap);
    const QRectF leader = lineBox(request.anchor, label.elbow);
    for (const CornerLabelRequest& other : requests) {
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

/// Bounds of a piece of a curve; plain comparisons, because every candidate place asks for all of them.
struct Piece {
    double left, top, right, bottom;

    [[nodiscard]] bool touches(const QRectF& box) const {
        return left < box.right() && right > box.left() && top < box.bottom() && bottom > box.top();
    }
};
using CurvePieces = std::vector<Piece>;

/// A long straight stretch is cut up, so that its bounds hug the line.
CurvePieces piecesOf(const QPolygonF& curve) {
    CurvePieces pieces;
    for (qsizetype i = 1; i < curve.size(); ++i) {
        const QPointF from = curve[i - 1];
        const QPointF step = curve[i] - from;
        const int count = std::max(1, static_cast<int>(std::min(std::abs(step.x()), std::abs(step.y())) / pieceLength));
        for (int part = 0; part < count; ++part) {
            const QPointF a = from + step * (static_cast<double>(part) / count);
            const QPointF b = from + step * (static_cast<double>(part + 1) / count);
            pieces.push_back({std::min(a.x(), b.x()), std::min(a.y(), b.y()) - 0.5, std::max(a.x(), b.x()),
                              std::max(a.y(), b.y()) + 0.5});
        }
    }
    return pieces;
}

int curvesUnder(const QRectF& box, const std::vector<CurvePieces>& curves) {
    const QRectF padded = box.adjusted(-curveGap, -curveGap, curveGap, curveGap);
    return static_cast<int>(std::count_if(curves.begin(), curves.end(), [&](const CurvePieces& pieces) {
        return std::any_of(pieces.begin(), pieces.end(), [&](const Piece& piece) { return piece.touches(padded); });
    }));
}

double costOf(const PlacedCornerLabel& label, const CornerLabelRequest& request,
              const std::vector<CurvePieces>& curves) {
    const double drop = label.elbow.y() - request.anchor.y();
    const bool isAbove = drop < 0.0;
    const bool isLeft = label.leaderEnd.x() < request.anchor.x();
    return std::abs(std::abs(drop) - preferredDrop) + (isAbove ? costOfAbove : 0.0) + (isLeft ? costOfLeft : 0.0) +
           costOfCurve * curvesUnder(label.box, curves);
}

std::optional<PlacedCornerLabel> bestPlace(const QRectF& plot, const CornerLabelRequest& request,
                                           const std::vector<CornerLabelRequest>& requests,
                                           const std::vector<std::optional<PlacedCornerLabel>>& placed,
                                           const std::vector<CurvePieces>& curves) {
    const QRectF room = plot.adjusted(edgeGap, edgeGap, -edgeGap, -edgeGap);
    std::optional<PlacedCornerLabel> best;
    double bestCost = std::numeric_limits<double>::infinity();
    const double firstRow = room.top() + request.size.height() / 2.0;
    const auto lastRow = static_cast<int>(std::floor((room.bottom() - firstRow) / rowStep));
    for (int row = 0; row <= lastRow; ++row) {
        for (const bool toRight : {true, false}) {
            const PlacedCornerLabel label = labelAt(request, firstRow + row * rowStep, toRight);
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

std::vector<std::optional<PlacedCornerLabel>> placeLabels(const QRectF& plot,
                                                          const std::vector<CornerLabelRequest>& requests,
                                                          const std::vector<QPolygonF>& curves) {
    std::vector<CurvePieces> pieces(curves.size());
    std::transform(curves.begin(), curves.end(), pieces.begin(), piecesOf);
    std::vector<std::optional<PlacedCornerLabel>> placed;
    placed.reserve(requests.size());
    for (const CornerLabelRequest& request : requests) {
        placed.push_back(bestPlace(plot, request, requests, placed, pieces));
    }
    return placed;
}

}  // namespace ohmwright
