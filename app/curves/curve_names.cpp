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

/// Whole steps that a length holds; below 0 where the length is.
int stepsIn(double length, double step) {
    return static_cast<int>(std::floor(length / step));
}

/// How far a box lies from a line over its width; 0 where it touches.
double distanceTo(const QPolygonF& line, const QRectF& box) {
    constexpr double step = stepAlong / 2.0;
    double least = std::numeric_limits<double>::infinity();
    for (int k = 0; k <= stepsIn(box.width(), step); ++k) {
        if (const auto y = heightAt(line, box.left() + k * step)) {
            least = std::min(least, std::max({0.0, box.top() - *y, *y - box.bottom()}));
        }
    }
    return least;
}

/// Just above or below the line over the box's whole width.
std::optional<QRectF> boxOn(const QPolygonF& line, const QSizeF& size, double left, bool isAbove) {
    double edge = isAbove ? std::numeric_limits<double>::infinity() : -std::numeric_limits<double>::infinity();
    constexpr double step = stepAlong / 2.0;
    for (int k = 0; k <= stepsIn(size.width(), step); ++k) {
        const auto y = heightAt(line, left + k * step);
        if (!y) {
            return std::nullopt;
        }
        edge = isAbove ? std::min(edge, *y) : std::max(edge, *y);
    }
    return QRectF(QPointF(left, isAbove ? edge - gapToLine - size.height() : edge + gapToLine), size);
}

/// What a name must stand clear of: the plot's edges, other boxes, and as far as it goes other curves.
struct Surroundings {
    QRectF room;
    std::vector<QRectF> boxes;
    const std::vector<NamedCurve>& curves;
    const std::vector<QPolygonF>& others;
};

bool isFree(const QRectF& box, const Surroundings& around) {
    const QRectF withAir = box.adjusted(-boxGap, -boxGap, boxGap, boxGap);
    return around.room.contains(box) && std::none_of(around.boxes.begin(), around.boxes.end(),
                                                     [&](const QRectF& one) { return withAir.intersects(one); });
}

double distanceToOthers(const QRectF& box, const NamedCurve& own, const Surroundings& around) {
    double distance = enough;
    for (const QPolygonF& other : around.others) {
        distance = std::min(distance, distanceTo(other, box));
    }
    for (const NamedCurve& other : around.curves) {
        distance = &other == &own ? distance : std::min(distance, distanceTo(other.line, box));
    }
    return distance;
}

std::optional<QRectF> bestBox(const NamedCurve& curve, const Surroundings& around) {
    std::optional<QRectF> best;
    double bestDistance = 0.0;
    for (int k = 0; k <= stepsIn(around.room.width() - curve.size.width(), stepAlong); ++k) {
        for (const bool isAbove : {true, false}) {
            const auto box = boxOn(curve.line, curve.size, around.room.left() + k * stepAlong, isAbove);
            if (!box || !isFree(*box, around)) {
                continue;
            }
            const double distance = distanceToOthers(*box, curve, around);
            if (distance > bestDistance) {
                bestDistance = distance;
                best = box;
            }
        }
    }
    return best;
}

}  // namespace

std::vector<std::optional<QRectF>> placeNames(const QRectF& plot, const std::vector<NamedCurve>& curves,
                                              const std::vector<QPolygonF>& others, const std::vector<QRectF>& taken) {
    Surroundings around{plot.adjusted(edgeGap, edgeGap, -edgeGap, -edgeGap), taken, curves, others};
    std::vector<std::optional<QRectF>> placed;
    placed.reserve(curves.size());
    for (const NamedCurve& curve : curves) {
        placed.push_back(bestBox(curve, around));
        if (placed.back()) {
            around.boxes.push_back(*placed.back());
        }
    }
    return placed;
}

}  // namespace ohmwright
