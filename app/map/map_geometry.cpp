// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_geometry.h"

#include "app/look/theme.h"

#include <QPolygonF>

#include <algorithm>
#include <array>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
/// Half a pixel: two grid points are 20 apart.
constexpr double samePoint = 0.5;

bool isSame(const QPointF& a, const QPointF& b) {
    return std::abs(a.x() - b.x()) < samePoint && std::abs(a.y() - b.y()) < samePoint;
}

bool isOn(const QPointF& point, const QLineF& line) {
    const QRectF box = QRectF(line.p1(), line.p2()).normalized().adjusted(-samePoint, -samePoint, samePoint, samePoint);
    return box.contains(point);  // wires run at right angles: a box without area is the wire
}

std::vector<QLineF> wireLines(const Circuit& circuit, const NetName& net) {
    std::vector<QLineF> lines;
    for (const Wire& wire : circuit.drawing.wires) {
        for (std::size_t i = 1; wire.net == net && i < wire.corners.size(); ++i) {
            lines.emplace_back(scenePoint(wire.corners[i - 1]), scenePoint(wire.corners[i]));
        }
    }
    return lines;
}

std::vector<QPointF> pinsOn(const Circuit& circuit, const NetName& net) {
    std::vector<QPointF> points;
    for (const Part& part : circuit.parts) {
        const int drawn = std::min(drawnPinCount(part.kind), static_cast<int>(part.nets.size()));
        for (int pin = 0; part.placement && pin < drawn; ++pin) {
            if (part.nets[static_cast<std::size_t>(pin)] == net) {
                points.push_back(pinPosition(part, pin));
            }
        }
    }
    return points;
}

std::vector<QPointF> signsOn(const Circuit& circuit, const NetName& net) {
    std::vector<QPointF> points;
    for (const Flag& flag : circuit.drawing.flags) {
        if (flag.net == net && (flag.kind == FlagKind::ground || flag.kind == FlagKind::supply)) {
            points.push_back(scenePoint(flag.at));
        }
    }
    return points;
}

int endsAt(const QPointF& point, const std::vector<QLineF>& wires, const std::vector<QPointF>& others) {
    int ends = 0;
    for (const QLineF& wire : wires) {
        if (isSame(point, wire.p1()) || isSame(point, wire.p2())) {
            ends += 1;
        } else if (isOn(point, wire)) {
            ends += 2;
        }
    }
    for (const QPointF& other : others) {
        ends += isSame(point, other) ? 1 : 0;
    }
    return ends;
}

}  // namespace

QPointF scenePoint(GridPoint point) {
    return {point.x * pitch, point.y * pitch};
}

QRectF sheetOf(const Circuit& circuit) {
    if (circuit.drawing.size.x > 0 && circuit.drawing.size.y > 0) {
        return {QPointF(0, 0), scenePoint(circuit.drawing.size)};
    }
    QRectF sheet(0, 0, 26 * pitch, 13 * pitch);
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            const QPointF at = pinPosition(part, pin);
            sheet = sheet.united(QRectF(at - QPointF(2 * pitch, 2 * pitch), QSizeF(4 * pitch, 4 * pitch)));
        }
    }
    return sheet;
}

std::vector<QLineF> piecesOf(const QPainterPath& path) {
    std::vector<QLineF> pieces;
    for (const QPolygonF& polygon : path.toSubpathPolygons()) {
        for (qsizetype i = 1; i < polygon.size(); ++i) {
            pieces.emplace_back(polygon.at(i - 1), polygon.at(i));
        }
    }
    return pieces;
}

std::vector<QPointF> junctionsOf(const Circuit& circuit, const NetName& net) {
    const std::vector<QLineF> wires = wireLines(circuit, net);
    std::vector<QPointF> others = pinsOn(circuit, net);
    const std::vector<QPointF> signs = signsOn(circuit, net);
    others.insert(others.end(), signs.begin(), signs.end());
    std::vector<QPointF> candidates = others;
    for (const QLineF& wire : wires) {
        candidates.push_back(wire.p1());
        candidates.push_back(wire.p2());
    }
    std::vector<QPointF> junctions;
    for (const QPointF& point : candidates) {
        const bool isNew = std::none_of(junctions.begin(), junctions.end(),
                                        [&point](const QPointF& known) { return isSame(point, known); });
        if (isNew && endsAt(point, wires, others) >= 3) {
            junctions.push_back(point);
        }
    }
    return junctions;
}

bool hangsDown(const Circuit& circuit, const Flag& flag) {
    const QPointF at = scenePoint(flag.at);
    const auto comesFromAbove = [&at](const QPointF& a, const QPointF& b) {
        return (isSame(a, at) && b.y() < at.y() - samePoint) || (isSame(b, at) && a.y() < at.y() - samePoint);
    };
    for (const QLineF& wire : wireLines(circuit, flag.net)) {
        if (comesFromAbove(wire.p1(), wire.p2())) {
            return true;
        }
    }
    for (const Part& part : circuit.parts) {
        if (part.placement && pinCount(part.kind) == 2 && comesFromAbove(pinPosition(part, 0), pinPosition(part, 1))) {
            return true;
        }
    }
    return false;
}

double lengthInside(const QLineF& line, const QRectF& box) {
    if (std::max(line.x1(), line.x2()) < box.left() || std::min(line.x1(), line.x2()) > box.right() ||
        std::max(line.y1(), line.y2()) < box.top() || std::min(line.y1(), line.y2()) > box.bottom()) {
        return 0.0;
    }
    // Liang and Barsky, ACM Trans. Graphics 3 (1984) 1: the stretch of the line between the box's four edges.
    double from = 0.0;
    double to = 1.0;
    const std::array<double, 4> along{-line.dx(), line.dx(), -line.dy(), line.dy()};
    const std::array<double, 4> away{line.x1() - box.left(), box.right() - line.x1(), line.y1() - box.top(),
                                     box.bottom() - line.y1()};
    for (std::size_t edge = 0; edge < along.size(); ++edge) {
        if (along[edge] == 0.0) {
            if (away[edge] <= 0.0) {
                return 0.0;
            }
            continue;
        }
        const double cut = away[edge] / along[edge];
        if (along[edge] < 0.0) {
            from = std::max(from, cut);
        } else {
            to = std::min(to, cut);
        }
    }
    return to > from ? (to - from) * line.length() : 0.0;
}

double Obstacles::covered(const QRectF& box, double enough) const {
    constexpr double outsideWeight = 20.0;
    constexpr double lineWeight = 6.0;  // a line through a word is as bad as a strip this wide
    constexpr double touching = 1e-6;   // px²: edges that meet, after rounding
    double sum = 0.0;
    if (!sheet.isNull() && !sheet.contains(box)) {
        const QRectF inside = box.intersected(sheet);
        const double insideArea = inside.isEmpty() ? 0.0 : inside.width() * inside.height();
        sum += outsideWeight * (box.width() * box.height() - insideArea);
    }
    for (auto other = boxes.begin(); other != boxes.end() && sum < enough; ++other) {
        const QRectF common = box.intersected(*other);
        sum += common.isEmpty() ? 0.0 : common.width() * common.height();
    }
    for (auto wire = lines.begin(); wire != lines.end() && sum < enough; ++wire) {
        sum += lineWeight * lengthInside(*wire, box);
    }
    return sum < touching ? 0.0 : sum;
}

}  // namespace ohmwright
