// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/draw_beside.h"

#include "core/drawing/edit.h"
#include "core/drawing/lead.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"

#include <algorithm>
#include <cstdlib>
#include <tuple>
#include <utility>
#include <vector>

namespace ohmwright {
namespace {

constexpr int reach = 14;              ///< Furthest place from the part beside which it is set down, in grid steps.
constexpr std::size_t mostTries = 24;  ///< Places for which ways are sought.
constexpr int roomBelow = 8;           ///< Rows that a full sheet gets.
constexpr double wideRoom = 2.0;       ///< Around a part where there is so much, in grid steps: names fit in.
constexpr double leastRoom = 1.0;
constexpr int bendCost = 4;       ///< As a lead counts it (lead.h).
constexpr int wrongWayCost = 10;  ///< A ground sign at an upper leg, a supply sign at a lower one.

// ---- Where it may stand ---------------------------------------------------------------------------------------

/// Body and pins.
GridBox footprint(const Part& part) {
    GridBox box = bodyBox(part);
    for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
        const GridPoint at = pinPoint(part, pin);
        box = {std::min(box.left, static_cast<double>(at.x)), std::min(box.top, static_cast<double>(at.y)),
               std::max(box.right, static_cast<double>(at.x)), std::max(box.bottom, static_cast<double>(at.y))};
    }
    return box;
}

/// Closed boxes: what touches meets.
bool meet(const GridBox& one, const GridBox& two) {
    return one.left <= two.right && two.left <= one.right && one.top <= two.bottom && two.top <= one.bottom;
}

GridBox widened(const GridBox& box, double by) {
    return {box.left - by, box.top - by, box.right + by, box.bottom + by};
}

GridBox boxOf(GridPoint from, GridPoint to) {
    return {static_cast<double>(std::min(from.x, to.x)), static_cast<double>(std::min(from.y, to.y)),
            static_cast<double>(std::max(from.x, to.x)), static_cast<double>(std::max(from.y, to.y))};
}

/// Clear of everything that is drawn, with room for names around it.
bool isFree(const Circuit& circuit, const Part& part, double room) {
    const GridBox own = footprint(part);
    const GridPoint size = circuit.drawing.size;
    if (own.left < 1 || own.top < 1 || own.right > size.x - 1 || own.bottom > size.y - 1) {
        return false;
    }
    const GridBox clear = widened(own, 0.5);
    const GridBox roomy = widened(own, room);
    for (const Part& other : circuit.parts) {
        if (other.id != part.id && other.placement && meet(roomy, footprint(other))) {
            return false;
        }
    }
    for (const Wire& wire : circuit.drawing.wires) {
        for (std::size_t i = 1; i < wire.corners.size(); ++i) {
            if (meet(clear, boxOf(wire.corners[i - 1], wire.corners[i]))) {
                return false;
            }
        }
    }
    return std::none_of(circuit.drawing.flags.begin(), circuit.drawing.flags.end(),
                        [&roomy](const Flag& flag) { return meet(roomy, boxOf(flag.at, flag.at)); });
}

GridPoint middleOf(const GridBox& box) {
    return {static_cast<int>((box.left + box.right) / 2.0), static_cast<int>((box.top + box.bottom) / 2.0)};
}

/// The middle of the part beside which it goes: of the one named, else of one that shares most of its nets.
GridPoint middleOfHost(const Circuit& circuit, const Part& part, const PartId& beside) {
    const Part* host = findPart(circuit, beside);
    std::ptrdiff_t most = 0;
    for (const Part& other : circuit.parts) {
        const bool isNamed = host != nullptr && host->placement && host->id == beside;
        if (isNamed || other.id == part.id || !other.placement) {
            continue;
        }
        const auto shared = std::count_if(other.nets.begin(), other.nets.end(), [&part](const NetName& net) {
            return net != groundNet && std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
        });
        if (shared > most || host == nullptr) {
            host = &other;
            most = shared;
        }
    }
    return host != nullptr && host->placement ? middleOf(footprint(*host)) : GridPoint();
}

/// Free places around a point, the nearest first.
std::vector<Placement> freePlaces(const Circuit& circuit, Part part, GridPoint around, double room) {
    const int span = part.kind == PartKind::potentiometer ? 4 : 3;
    std::vector<std::tuple<int, int, int, int>> places;  // distance, y, x, turns: equal distances in a fixed order
    for (int y = around.y - reach; y <= around.y + reach; ++y) {
        for (int x = around.x - reach; x <= around.x + reach; ++x) {
            for (int turns = 0; turns < 4; ++turns) {
                part.placement = Placement{{x, y}, turns, false, span, LabelSide::automatic};
                const GridPoint middle = middleOf(footprint(part));
                const int distance = std::abs(middle.x - around.x) + std::abs(middle.y - around.y);
                if (distance <= reach && isFree(circuit, part, room)) {
                    places.emplace_back(distance, y, x, turns);
                }
            }
        }
    }
    std::sort(places.begin(), places.end());
    std::vector<Placement> nearest;
    for (std::size_t i = 0; i < std::min(places.size(), mostTries); ++i) {
        const auto& [distance, y, x, turns] = places[i];
        nearest.push_back({{x, y}, turns, false, span, LabelSide::automatic});
    }
    return nearest;
}

// ---- How its legs are joined ----------------------------------------------------------------------------------

/// Sets one part down at one place and joins its legs; the sum of what that costs to read.
class PartSetDown {
public:
    PartSetDown(const Circuit& circuit, const PartId& part, const Placement& placement)
        : m_before(circuit), m_circuit(circuit), m_part(*findPart(circuit, part)) {
        m_part.placement = placement;
        findPart(m_circuit, part)->placement = placement;
    }

    /// Whether every leg is joined.
    bool joinLegs() {
        for (int pin = 0; pin < drawnPinCount(m_part.kind); ++pin) {
            if (!join(pin)) {
                return false;
            }
        }
        return keepsNets();
    }
    [[nodiscard]] int cost() const { return m_cost; }
    [[nodiscard]] const Circuit& circuit() const { return m_circuit; }

private:
    bool join(int pin) {
        const NetName& net = m_part.nets[static_cast<std::size_t>(pin)];
        const GridPoint at = pinPoint(m_part, pin);
        if (net == groundNet) {
            addSign({FlagKind::ground, net, at, {}}, isLowest(pin));
            return true;
        }
        const auto& flags = m_before.drawing.flags;
        const auto sign = std::find_if(flags.begin(), flags.end(), [&net](const Flag& flag) {
            return flag.kind == FlagKind::supply && flag.net == net;
        });
        if (sign != flags.end()) {
            addSign({FlagKind::supply, net, at, sign->text}, isHighest(pin));
            return true;
        }
        const std::vector<GridPoint> points = pointsOf(net);
        if (points.empty()) {
            // On no line yet: a net of its own, or one of pins that are not drawn, which go by its name.
            return true;
        }
        const std::vector<GridPoint> corners = findLead(m_circuit, net, {at}, [&points](GridPoint point) {
            return std::find(points.begin(), points.end(), point) != points.end();
        });
        if (corners.size() < 2) {
            return false;
        }
        m_cost += bendCost * static_cast<int>(corners.size() - 2);
        for (std::size_t i = 1; i < corners.size(); ++i) {
            m_cost += std::abs(corners[i].x - corners[i - 1].x) + std::abs(corners[i].y - corners[i - 1].y);
        }
        m_circuit.drawing.wires.push_back({net, corners});
        return true;
    }

    void addSign(const Flag& flag, bool isRightWay) {
        m_circuit.drawing.flags.push_back(flag);
        m_cost += isRightWay ? 1 : wrongWayCost;
    }

    /// Whether the leg points down, so that a ground sign hangs on it; up, so that a supply sign stands on it.
    [[nodiscard]] bool isLowest(int pin) const { return pinPoint(m_part, pin).y > bodyBox(m_part).bottom; }
    [[nodiscard]] bool isHighest(int pin) const { return pinPoint(m_part, pin).y < bodyBox(m_part).top; }

    /// Where the net can be reached: along its wires and at pins that lines show on it.
    [[nodiscard]] std::vector<GridPoint> pointsOf(const NetName& net) const {
        std::vector<GridPoint> points;
        const auto add = [&](GridPoint point) {
            if (netAt(m_before, point) == net) {
                points.push_back(point);
            }
        };
        for (const Wire& wire : m_before.drawing.wires) {
            for (std::size_t i = 1; wire.net == net && i < wire.corners.size(); ++i) {
                const GridBox run = boxOf(wire.corners[i - 1], wire.corners[i]);
                for (int x = static_cast<int>(run.left); x <= static_cast<int>(run.right); ++x) {
                    for (int y = static_cast<int>(run.top); y <= static_cast<int>(run.bottom); ++y) {
                        add({x, y});
                    }
                }
            }
        }
        for (const Part& part : m_before.parts) {
            for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
                add(pinPoint(part, pin));
            }
        }
        return points;
    }

    /// By the drawing's lines every part has the nets that it had, and the new one its own.
    [[nodiscard]] bool keepsNets() const {
        const Circuit before = rejoin(m_before).circuit;
        const Circuit after = rejoin(m_circuit).circuit;
        for (std::size_t i = 0; i < after.parts.size(); ++i) {
            const std::vector<NetName>& wanted = after.parts[i].id == m_part.id ? m_part.nets : before.parts[i].nets;
            if (after.parts[i].nets != wanted) {
                return false;
            }
        }
        return true;
    }

    const Circuit& m_before;
    Circuit m_circuit;
    Part m_part;
    int m_cost = 0;
};

std::optional<Circuit> setDownNear(const Circuit& circuit, const Part& part, GridPoint around, double room) {
    std::optional<Circuit> best;
    int least = 0;
    for (const Placement& placement : freePlaces(circuit, part, around, room)) {
        PartSetDown tried(circuit, part.id, placement);
        if (tried.joinLegs() && (!best || tried.cost() < least)) {
            best = tried.circuit();
            least = tried.cost();
        }
    }
    return best;
}

// ---- Taking it off --------------------------------------------------------------------------------------------

bool isEnd(const Wire& wire, GridPoint point) {
    return !wire.corners.empty() && (wire.corners.front() == point || wire.corners.back() == point);
}

/// Whether a pin or sign, or another wire's end, is joined to a wire between its ends.
bool holdsMore(const Circuit& circuit, std::size_t index) {
    const Wire& wire = circuit.drawing.wires[index];
    const auto isBetween = [&wire](GridPoint point) { return isOnWire(point, wire) && !isEnd(wire, point); };
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            if (isBetween(pinPoint(part, pin))) {
                return true;
            }
        }
    }
    for (std::size_t i = 0; i < circuit.drawing.wires.size(); ++i) {
        const std::vector<GridPoint>& corners = circuit.drawing.wires[i].corners;
        if (i != index && std::any_of(corners.begin(), corners.end(), isBetween)) {
            return true;
        }
    }
    return std::any_of(circuit.drawing.flags.begin(), circuit.drawing.flags.end(),
                       [&](const Flag& flag) { return isBetween(flag.at); });
}

bool isOtherPinAt(const Circuit& circuit, const PartId& own, GridPoint point) {
    return std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& part) {
        for (int pin = 0; part.id != own && part.placement && pin < drawnPinCount(part.kind); ++pin) {
            if (pinPoint(part, pin) == point) {
                return true;
            }
        }
        return false;
    });
}

}  // namespace

std::optional<Circuit> drawnBeside(const Circuit& circuit, const PartId& part, const PartId& beside) {
    const Part* own = findPart(circuit, part);
    if (own == nullptr || own->placement || circuit.drawing == Drawing() || drawnPinCount(own->kind) == 0 ||
        static_cast<int>(own->nets.size()) != pinCount(own->kind)) {
        return std::nullopt;
    }
    const GridPoint around = middleOfHost(circuit, *own, beside);
    for (const double room : {wideRoom, leastRoom}) {
        if (std::optional<Circuit> drawn = setDownNear(circuit, *own, around, room)) {
            return drawn;
        }
    }
    Circuit roomier = circuit;
    roomier.drawing.size.y = std::min(roomier.drawing.size.y + roomBelow, largestGrid);
    return setDownNear(roomier, *findPart(roomier, part), around, leastRoom);
}

void takeOffLeads(Circuit& circuit, const Part& part) {
    for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
        const GridPoint at = pinPoint(part, pin);
        if (isOtherPinAt(circuit, part.id, at)) {
            continue;
        }
        std::vector<Wire>& wires = circuit.drawing.wires;
        std::vector<std::size_t> here;
        for (std::size_t i = 0; i < wires.size(); ++i) {
            if (isOnWire(at, wires[i])) {
                here.push_back(i);
            }
        }
        const bool isLead = here.size() == 1 && isEnd(wires[here.front()], at) && !holdsMore(circuit, here.front());
        if (isLead) {
            wires.erase(wires.begin() + static_cast<std::ptrdiff_t>(here.front()));
        }
        if (isLead || here.empty()) {
            std::erase_if(circuit.drawing.flags, [at](const Flag& flag) { return flag.at == at; });
        }
    }
}

}  // namespace ohmwright
