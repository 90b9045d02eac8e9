// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/cut_net.h"

#include "core/drawing/outline.h"

#include <algorithm>
#include <map>
#include <utility>

namespace ohmwright {

namespace {

using Place = std::pair<int, int>;

Place placeOf(GridPoint point) {
    return {point.x, point.y};
}

/// A net's wires as places and the straight pieces between them.
class NetLines {
public:
    void add(GridPoint point) { m_neighbours[placeOf(point)]; }

    /// A straight piece, broken at the places that lie on it.
    void join(GridPoint from, GridPoint to, const std::vector<GridPoint>& breaks) {
        std::vector<GridPoint> stops{from, to};
        for (const GridPoint& point : breaks) {
            const bool isOn = point.x >= std::min(from.x, to.x) && point.x <= std::max(from.x, to.x) &&
                              point.y >= std::min(from.y, to.y) && point.y <= std::max(from.y, to.y);
            if (isOn) {
                stops.push_back(point);
            }
        }
        std::sort(stops.begin(), stops.end(), [](GridPoint a, GridPoint b) { return placeOf(a) < placeOf(b); });
        for (std::size_t i = 1; i < stops.size(); ++i) {
            if (!(stops[i] == stops[i - 1])) {
                m_neighbours[placeOf(stops[i - 1])].insert(placeOf(stops[i]));
                m_neighbours[placeOf(stops[i])].insert(placeOf(stops[i - 1]));
            }
        }
    }

    /// Takes loose ends off until each is wanted.
    void prune(const std::set<Place>& wanted) {
        bool isChanged = true;
        while (isChanged) {
            isChanged = false;
            for (auto entry = m_neighbours.begin(); entry != m_neighbours.end();) {
                if (entry->second.size() > 1 || wanted.count(entry->first) > 0) {
                    ++entry;
                    continue;
                }
                for (const Place& neighbour : entry->second) {
                    m_neighbours[neighbour].erase(entry->first);
                }
                entry = m_neighbours.erase(entry);
                isChanged = true;
            }
        }
    }

    /// Places that hang together, each place once.
    [[nodiscard]] std::vector<std::vector<Place>> groups() const {
        std::vector<std::vector<Place>> groups;
        std::set<Place> seen;
        for (const auto& [start, ignored] : m_neighbours) {
            std::vector<Place> group;
            std::vector<Place> open{start};
            while (!open.empty()) {
                const Place place = open.back();
                open.pop_back();
                if (seen.insert(place).second) {
                    group.push_back(place);
                    const auto& next = m_neighbours.at(place);
                    open.insert(open.end(), next.begin(), next.end());
                }
            }
            if (!group.empty()) {
                groups.push_back(std::move(group));
            }
        }
        return groups;
    }

    /// The group's lines, as few as there can be.
    [[nodiscard]] std::vector<Wire> wiresOf(const std::vector<Place>& group, const NetName& net) const {
        std::set<std::pair<Place, Place>> used;
        std::vector<Wire> wires;
        const auto walk = [&](Place from, Place to) {
            Wire wire{net, {{from.first, from.second}}};
            while (used.insert(std::minmax(from, to)).second) {
                wire.corners.push_back({to.first, to.second});
                const std::set<Place>& next = m_neighbours.at(to);
                if (next.size() != 2) {
                    break;
                }
                const Place onward = *next.begin() == from ? *next.rbegin() : *next.begin();
                from = std::exchange(to, onward);
            }
            if (wire.corners.size() > 1) {
                wires.push_back(std::move(wire));
            }
        };
        // From ends and branches first, then what is left: closed rings.
        for (const bool isRing : {false, true}) {
            for (const Place& place : group) {
                for (const Place& next : m_neighbours.at(place)) {
                    if (isRing || m_neighbours.at(place).size() != 2) {
                        walk(place, next);
                    }
                }
            }
        }
        return wires;
    }

private:
    std::map<Place, std::set<Place>> m_neighbours;
};

struct NetPoints {
    std::vector<GridPoint> all;  ///< Corners, pins and signs.
    std::set<Place> ofChosen;    ///< Pins of chosen parts.
    std::vector<Flag> signs;
};

NetPoints pointsOf(const Circuit& circuit, const NetName& net, const std::set<PartId>& parts, bool keepsSigns) {
    NetPoints points;
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            if (part.nets[static_cast<std::size_t>(pin)] == net) {
                points.all.push_back(pinPoint(part, pin));
                if (parts.count(part.id) > 0) {
                    points.ofChosen.insert(placeOf(points.all.back()));
                }
            }
        }
    }
    for (const Flag& flag : circuit.drawing.flags) {
        const bool isSign = flag.kind == FlagKind::ground || flag.kind == FlagKind::supply;
        if (flag.net == net && isSign && keepsSigns) {
            points.signs.push_back(flag);
            points.all.push_back(flag.at);
        }
    }
    for (const Wire& wire : circuit.drawing.wires) {
        if (wire.net == net) {
            points.all.insert(points.all.end(), wire.corners.begin(), wire.corners.end());
        }
    }
    return points;
}

}  // namespace

std::vector<JoinedPoints> cutNet(const Circuit& circuit, const NetName& net, const std::set<PartId>& parts,
                                 bool keepsSigns) {
    const NetPoints points = pointsOf(circuit, net, parts, keepsSigns);
    NetLines lines;
    std::set<Place> wanted = points.ofChosen;
    for (const Place& place : points.ofChosen) {
        lines.add({place.first, place.second});
    }
    for (const Flag& sign : points.signs) {
        wanted.insert(placeOf(sign.at));
        lines.add(sign.at);
    }
    for (const Wire& wire : circuit.drawing.wires) {
        for (std::size_t i = 1; wire.net == net && i < wire.corners.size(); ++i) {
            lines.join(wire.corners[i - 1], wire.corners[i], points.all);
        }
    }
    lines.prune(wanted);
    std::vector<JoinedPoints> cut;
    for (const std::vector<Place>& group : lines.groups()) {
        JoinedPoints joined;
        bool isChosen = false;
        for (const Place& place : group) {
            joined.points.push_back({place.first, place.second});
            isChosen = isChosen || points.ofChosen.count(place) > 0;
        }
        if (!isChosen) {
            continue;
        }
        joined.wires = lines.wiresOf(group, net);
        for (const Flag& sign : points.signs) {
            if (std::find(joined.points.begin(), joined.points.end(), sign.at) != joined.points.end()) {
                joined.flags.push_back(sign);
            }
        }
        cut.push_back(std::move(joined));
    }
    return cut;
}

}  // namespace ohmwright
