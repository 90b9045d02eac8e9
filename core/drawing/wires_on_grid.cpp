// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/wires_on_grid.h"

#include <set>
#include <utility>

namespace ohmwright {
namespace {

constexpr std::array<Way, 4> allWays{Way::right, Way::down, Way::left, Way::up};

/// A step that a wire was drawn along, from its point.
using DrawnSteps = std::set<std::pair<std::size_t, Way>>;

bool isJoint(const WireGrid& grid, std::size_t point, int net) {
    int wires = 0;
    for (const Way way : allWays) {
        wires += grid.netOfStep(point, way) == net ? 1 : 0;
    }
    return wires != 2 || grid.endsHere(point, net) > 2;
}

Way turnedWay(const WireGrid& grid, std::size_t point, Way came, int net) {
    for (const Way next : allWays) {
        if (next != opposite(came) && grid.netOfStep(point, next) == net) {
            return next;
        }
    }
    return came;
}

/// The corners from a joint on to the next one.
std::vector<GridPoint> followed(const WireGrid& grid, std::size_t point, Way way, int net, DrawnSteps& drawn) {
    std::vector<GridPoint> corners{grid.pointOf(point)};
    while (true) {
        drawn.insert({point, way});
        point = grid.neighbour(point, way);
        drawn.insert({point, opposite(way)});
        const bool isEnd = isJoint(grid, point, net);
        if (isEnd || grid.netOfStep(point, way) != net) {
            corners.push_back(grid.pointOf(point));
        }
        if (isEnd) {
            return corners;
        }
        way = grid.netOfStep(point, way) == net ? way : turnedWay(grid, point, way, net);
    }
}

}  // namespace

std::vector<Wire> wiresOn(const WireGrid& grid, const std::vector<NetName>& names) {
    std::vector<Wire> wires;
    for (std::size_t number = 0; number < names.size(); ++number) {
        const int net = static_cast<int>(number);
        DrawnSteps drawn;
        for (std::size_t point = 0; point < grid.count(); ++point) {
            for (const Way way : allWays) {
                if (grid.netOfStep(point, way) == net && isJoint(grid, point, net) && drawn.count({point, way}) == 0) {
                    wires.push_back({names[number], followed(grid, point, way, net, drawn)});
                }
            }
        }
    }
    return wires;
}

}  // namespace ohmwright
