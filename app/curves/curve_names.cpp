// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_names.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

// All in px.
constexpr double stepAlong = 12.0;
constexpr double gapToLine = 3.0;
constexpr double edgeGap = 4.0;
constexpr double boxGap = 3.0;
/// Farther than this two curves are apart enough.
constexpr double enough = 60.0;

/// y of a line at an x; absent beside its ends.
std::optional<double> heightAt(const QPolygonF& line, double x) {
    const auto after =
        std::lower_bound(line.begin(), line.end(), x, [](const QPointF& p, double at) { return p.x() < at; });
    if (after == line.begin() || after == line.end()) {
        return std::nullopt;
    }
    const QPointF& b = *after;
    const QPointF& a = *(after - 1);
    return b.x() > a.x() ? a.y() + (b.y() - a.y()) * (x - a.x()) / (b.x() - a.x()) : a.y();
}

/// How far a box lies from a line over its width; 0 where it touches.
double distanceTo(const QPolygonF& line, const QRectF& box) {
    double least = std::numeric_limits<double>::infinity();
    for (double x = box.left(); x <= box.right(); x += stepAlong / 2.0) {
        if (const auto y = heightAt(line, x)) {
            least = std::min(least, std::max({0.0, box.top() - *y, *y - box.bottom()}));
        }
    }
    return least;
}

/// Just above or below the line over the box's whole width.
std::optional<QRectF> boxOn(const QPolygonF& line, const QSizeF& size, double left, bool isAbove) {
    double edge = isAbove ? std::numeric_limits<double>::infinity() : -std::numeric_limits<double>::infinity();
    for (double x = left; x <= left + size.width(); x += stepAlong / 2.0) {
        const auto y = heightAt(line, x);
        if (!y) {
            return std::nullopt;
        }
        edge = isAbove ? std::min(edge, *y) : std::max(edge, *y);
    }
    return QRectF(QPointF(left, isAbove ? edge - gapToLine - size.height() : edge + gapToLine), size);
}

}  // namespace

std::vector<std::optional<QRectF>> placeNames(const QRectF& plot, const std::vector<NamedCurve>& curves,
                                              const std::vector<QPolygonF>& others, const std::vector<QRectF>& taken) {
    const QRectF room = plot.adjusted(edgeGap, edgeGap, -edgeGap, -edgeGap);
    std::vector<QRectF> boxes = taken;
    std::vector<std::optional<QRectF>> placed;
    for (const NamedCurve& curve : curves) {
        std::optional<QRectF> best;
        double bestDistance = 0.0;
        for (double left = room.left(); left + curve.size.width() <= room.right(); left += stepAlong) {
            for (const bool isAbove : {true, false}) {
                const auto box = boxOn(curve.line, curve.size, left, isAbove);
                const auto touches = [&](const QRectF& one) {
                    return box->adjusted(-boxGap, -boxGap, boxGap, boxGap).intersects(one);
                };
                if (!box || !room.contains(*box) || std::any_of(boxes.begin(), boxes.end(), touches)) {
                    continue;
                }
                double distance = enough;
                for (const QPolygonF& other : others) {
                    distance = std::min(distance, distanceTo(other, *box));
                }
                for (const NamedCurve& other : curves) {
                    distance = &other == &curve ? distance : std::min(distance, distanceTo(other.line, *box));
                }
                if (distance > bestDistance) {
                    bestDistance = distance;
                    best = box;
                }
            }
        }
        if (best) {
            boxes.push_back(*best);
        }
        placed.push_back(best);
    }
    return placed;
}

}  // namespace ohmwright
