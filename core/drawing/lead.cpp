// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/lead.h"

#include "core/drawing/outline.h"

#include <algorithm>
#include <array>
#include <limits>
#include <queue>
#include <tuple>

namespace ohmwright {

namespace {

constexpr int bendCost = 4;
constexpr std::array<GridPoint, 4> directions{{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};

bool isAlongX(int direction) {
    return direction % 2 == 0;
}

std::size_t pointCount(GridPoint size) {
    return (static_cast<std::size_t>(size.x) + 1) * (static_cast<std::size_t>(size.y) + 1);
}

/// What stands at the points of the sheet, seen from one net.
class Ground {
public:
    Ground(const Circuit& circuit, const NetName& net) : m_size(circuit.drawing.size), m_points(pointCount(m_size)) {
        for (const Part& part : circuit.parts) {
            if (!part.placement) {
                continue;
            }
            m_bodies.push_back(bodyBox(part));
            for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
                block(pinPoint(part, pin), part.nets[static_cast<std::size_t>(pin)] != net);
            }
        }
        for (const Flag& flag : circuit.drawing.flags) {
            block(flag.at, flag.net != net);
        }
        for (const Wire& wire : circuit.drawing.wires) {
            if (wire.net != net) {
                enter(wire);
            }
        }
    }

    [[nodiscard]] bool holds(GridPoint point) const {
        return point.x >= 0 && point.y >= 0 && point.x <= m_size.x && point.y <= m_size.y;
    }
    [[nodiscard]] std::size_t indexOf(GridPoint point) const {
        return static_cast<std::size_t>(point.y) * (static_cast<std::size_t>(m_size.x) + 1) +
               static_cast<std::size_t>(point.x);
    }
    /// Whether one step may be made; the way turns at `from` where `isTurn`.
    [[nodiscard]] bool mayStep(GridPoint from, GridPoint to, int direction, bool isTurn) const {
        if (!holds(to)) {
            return false;
        }
        const Point& start = m_points[indexOf(from)];
        const Point& end = m_points[indexOf(to)];
        const bool isCrossing = start.isAcrossX || start.isAcrossY;
        if (end.isBlocked || (isTurn && isCrossing) || (isAlongX(direction) ? end.isAcrossX : end.isAcrossY)) {
            return false;
        }
        const GridBox step{static_cast<double>(std::min(from.x, to.x)), static_cast<double>(std::min(from.y, to.y)),
                           static_cast<double>(std::max(from.x, to.x)), static_cast<double>(std::max(from.y, to.y))};
        return std::none_of(m_bodies.begin(), m_bodies.end(), [&step](const GridBox& body) {
            return step.right > body.left && step.left < body.right && step.bottom > body.top && step.top < body.bottom;
        });
    }
    /// A way cannot end on another net's wire.
    [[nodiscard]] bool mayEnd(GridPoint point) const {
        const Point& at = m_points[indexOf(point)];
        return !at.isBlocked && !at.isAcrossX && !at.isAcrossY;
    }

private:
    struct Point {
        bool isBlocked = false;
        bool isAcrossX = false;  ///< A wire of another net runs along x here.
        bool isAcrossY = false;
    };

    void block(GridPoint point, bool isOther) {
        if (isOther && holds(point)) {
            m_points[indexOf(point)].isBlocked = true;
        }
    }
    void enter(const Wire& wire) {
        for (std::size_t i = 0; i < wire.corners.size(); ++i) {
            block(wire.corners[i], true);
            if (i == 0) {
                continue;
            }
            const GridPoint from = wire.corners[i - 1];
            const GridPoint to = wire.corners[i];
            for (int x = std::min(from.x, to.x); x <= std::max(from.x, to.x); ++x) {
                for (int y = std::min(from.y, to.y); y <= std::max(from.y, to.y); ++y) {
                    if (holds({x, y})) {
                        Point& point = m_points[indexOf({x, y})];
                        (from.y == to.y ? point.isAcrossX : point.isAcrossY) = true;
                    }
                }
            }
        }
    }

    GridPoint m_size;
    std::vector<Point> m_points;
    std::vector<GridBox> m_bodies;
};

/// The corners of a way that is known point by point.
std::vector<GridPoint> cornersOf(const std::vector<GridPoint>& way) {
    std::vector<GridPoint> corners;
    for (std::size_t i = 0; i < way.size(); ++i) {
        const bool isEnd = i == 0 || i + 1 == way.size();
        if (isEnd || (way[i - 1].x != way[i + 1].x && way[i - 1].y != way[i + 1].y)) {
            corners.push_back(way[i]);
        }
    }
    return corners;
}

/// The state before, and its point.
using Origin = std::pair<std::size_t, GridPoint>;
constexpr auto noState = std::numeric_limits<std::size_t>::max();

std::vector<GridPoint> wayTo(GridPoint end, std::size_t state, const std::vector<Origin>& before) {
    std::vector<GridPoint> way{end};
    for (std::size_t step = state; before[step].first != noState; step = before[step].first) {
        way.push_back(before[step].second);
    }
    std::reverse(way.begin(), way.end());
    return cornersOf(way);
}

}  // namespace

std::vector<GridPoint> findLead(const Circuit& circuit, const NetName& net, const std::vector<GridPoint>& from,
                                const std::function<bool(GridPoint)>& isWanted) {
    const Ground ground(circuit, net);
    const std::size_t count = pointCount(circuit.drawing.size);
    constexpr int untried = std::numeric_limits<int>::max();
    // A state is a point and the direction in which it was reached.
    std::vector<int> costs(count * directions.size(), untried);
    std::vector<Origin> before(costs.size());
    using Entry = std::tuple<int, std::size_t, int, int>;  // cost, state, x, y: equal costs in a fixed order
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    for (const GridPoint& point : from) {
        for (std::size_t direction = 0; ground.holds(point) && direction < directions.size(); ++direction) {
            const std::size_t state = ground.indexOf(point) * directions.size() + direction;
            costs[state] = 0;
            before[state] = {noState, point};
            open.emplace(0, state, point.x, point.y);
        }
    }
    while (!open.empty()) {
        const auto [cost, state, x, y] = open.top();
        open.pop();
        const GridPoint at{x, y};
        if (cost > costs[state]) {
            continue;
        }
        if (isWanted(at) && ground.mayEnd(at)) {
            return wayTo(at, state, before);
        }
        for (std::size_t direction = 0; direction < directions.size(); ++direction) {
            const GridPoint to{x + directions[direction].x, y + directions[direction].y};
            const bool isTurn = state % directions.size() != direction;
            if (!ground.mayStep(at, to, static_cast<int>(direction), isTurn && cost > 0)) {
                continue;
            }
            const std::size_t next = ground.indexOf(to) * directions.size() + direction;
            const int nextCost = cost + 1 + (isTurn && cost > 0 ? bendCost : 0);
            if (nextCost < costs[next]) {
                costs[next] = nextCost;
                before[next] = {state, at};
                open.emplace(nextCost, next, to.x, to.y);
            }
        }
    }
    return {};
}

}  // namespace ohmwright
