// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/legibility.h"

#include "core/circuit/net_groups.h"
#include "core/drawing/outline.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace ohmwright {
namespace {

/// A level or upright piece of a wire.
struct Piece {
    const Wire* wire;
    GridPoint from, to;

    [[nodiscard]] bool isLevel() const { return from.y == to.y; }
    [[nodiscard]] bool holds(GridPoint point) const {
        return point.x >= std::min(from.x, to.x) && point.x <= std::max(from.x, to.x) &&
               point.y >= std::min(from.y, to.y) && point.y <= std::max(from.y, to.y);
    }
    [[nodiscard]] bool runsUnder(const GridBox& box) const {
        return std::min(from.x, to.x) < box.right && std::max(from.x, to.x) > box.left &&
               std::min(from.y, to.y) < box.bottom && std::max(from.y, to.y) > box.top;
    }
};

struct Pin {
    std::string name;
    NetName net;
    GridPoint at;
};

/// A point as a name for NetGroups.
std::string named(GridPoint point) {
    return std::to_string(point.x).append(",").append(std::to_string(point.y));
}

class Inspection {
public:
    explicit Inspection(const Circuit& circuit) : m_circuit(circuit) {
        for (const Wire& wire : circuit.drawing.wires) {
            for (std::size_t i = 1; i < wire.corners.size(); ++i) {
                m_pieces.push_back({&wire, wire.corners[i - 1], wire.corners[i]});
            }
        }
        for (const Part& part : circuit.parts) {
            const int drawn = std::min(drawnPinCount(part.kind), static_cast<int>(part.nets.size()));
            for (int pin = 0; part.placement && pin < drawn; ++pin) {
                const std::string name = displayName(part) + " pin " + std::to_string(pin + 1);
                m_pins.push_back({name, part.nets[static_cast<std::size_t>(pin)], pinPoint(part, pin)});
            }
        }
    }

    Legibility result() {
        countBodies();
        countSharedPoints();
        countLoose();
        countShapes();
        countCrossings();
        countJoints();
        return m_found;
    }

private:
    void fault(int& count, const std::string& sentence) {
        count += 1;
        if (m_found.worst.empty()) {
            m_found.worst = sentence;
        }
    }

    void countBodies() {
        for (const Part& part : m_circuit.parts) {
            if (!part.placement) {
                continue;
            }
            const GridBox box = bodyBox(part);
            for (const Part& other : m_circuit.parts) {
                if (other.placement && &other > &part) {
                    const GridBox its = bodyBox(other);
                    if (box.left < its.right && its.left < box.right && box.top < its.bottom && its.top < box.bottom) {
                        fault(m_found.overlappingBodies, displayName(part) + " lies on " + displayName(other) + ".");
                    }
                }
            }
            for (const Piece& piece : m_pieces) {
                if (piece.runsUnder(box)) {
                    fault(m_found.wiresUnderBodies,
                          "A wire of " + piece.wire->net + " runs under " + displayName(part) + ".");
                }
            }
        }
    }

    void countSharedPoints() {
        const auto meet = [this](const std::string& what, const NetName& net, GridPoint at) {
            const std::string said = what + " of net " + net + " lies on ";
            for (const Piece& piece : m_pieces) {
                if (piece.wire->net != net && piece.holds(at)) {
                    fault(m_found.sharedPoints,
                          std::string(said).append("a wire of ").append(piece.wire->net).append("."));
                }
            }
            for (const Pin& pin : m_pins) {
                if (pin.net != net && pin.at == at) {
                    fault(m_found.sharedPoints, std::string(said).append(pin.name).append("."));
                }
            }
        };
        for (const Wire& wire : m_circuit.drawing.wires) {
            for (const GridPoint corner : wire.corners) {
                meet("A corner", wire.net, corner);
            }
        }
        for (const Pin& pin : m_pins) {
            meet(pin.name, pin.net, pin.at);
        }
        for (const Flag& flag : m_circuit.drawing.flags) {
            if (flag.kind != FlagKind::note) {
                meet("A sign", flag.net, flag.at);
            }
        }
    }

    void countLoose() {
        std::map<NetName, NetGroups> joined;
        std::map<NetName, std::set<std::string>> places;
        for (const Wire& wire : m_circuit.drawing.wires) {
            for (std::size_t i = 1; i < wire.corners.size(); ++i) {
                joined[wire.net].join(named(wire.corners[i - 1]), named(wire.corners[i]));
            }
        }
        for (const Flag& flag : m_circuit.drawing.flags) {
            if (flag.kind == FlagKind::ground || flag.kind == FlagKind::supply) {
                joined[flag.net].join("sign", named(flag.at));
            }
        }
        for (const Pin& pin : m_pins) {
            places[pin.net].insert(joined[pin.net].groupOf(named(pin.at)));
            countLoosePin(pin);
        }
        for (const auto& [net, groups] : places) {
            if (groups.size() > 1) {
                fault(m_found.looseNets, "Net " + net + " is drawn in " + std::to_string(groups.size()) + " pieces.");
            }
        }
    }

    void countLoosePin(const Pin& pin) {
        bool meets = std::any_of(m_pins.begin(), m_pins.end(), [&pin](const Pin& other) {
            return &other != &pin && other.net == pin.net && other.at == pin.at;
        });
        for (const Wire& wire : m_circuit.drawing.wires) {
            meets = meets || (wire.net == pin.net &&
                              std::find(wire.corners.begin(), wire.corners.end(), pin.at) != wire.corners.end());
        }
        for (const Flag& flag : m_circuit.drawing.flags) {
            meets = meets || (flag.net == pin.net && flag.at == pin.at);
        }
        const auto isHere = [&pin](const Pin& other) { return other.net == pin.net; };
        if (!meets && std::count_if(m_pins.begin(), m_pins.end(), isHere) > 1) {
            fault(m_found.loosePins, pin.name + " of net " + pin.net + " hangs in the air.");
        }
    }

    void countShapes() {
        const GridPoint size = m_circuit.drawing.size;
        const auto keepOn = [&](GridPoint point, const std::string& what) {
            if (point.x < 0 || point.y < 0 || point.x > size.x || point.y > size.y) {
                fault(m_found.offSheet, what + " lies off the sheet.");
            }
        };
        for (const Wire& wire : m_circuit.drawing.wires) {
            for (const GridPoint corner : wire.corners) {
                keepOn(corner, "A wire of " + wire.net);
            }
            for (std::size_t i = 2; i < wire.corners.size(); ++i) {
                const bool wasLevel = wire.corners[i - 2].y == wire.corners[i - 1].y;
                m_found.bends += wasLevel != (wire.corners[i - 1].y == wire.corners[i].y) ? 1 : 0;
            }
        }
        for (const Piece& piece : m_pieces) {
            if ((piece.from.x == piece.to.x) == piece.isLevel()) {
                fault(m_found.slantedWires, "A wire of " + piece.wire->net + " is not level and not upright.");
            }
            m_found.wireLength += std::abs(piece.from.x - piece.to.x) + std::abs(piece.from.y - piece.to.y);
        }
        for (const Pin& pin : m_pins) {
            keepOn(pin.at, pin.name);
        }
        for (const Flag& flag : m_circuit.drawing.flags) {
            keepOn(flag.at, "A sign of " + flag.net);
        }
    }

    void countCrossings() {
        for (const Piece& level : m_pieces) {
            for (const Piece& upright : m_pieces) {
                const bool crosses = level.isLevel() && !upright.isLevel() && level.wire->net != upright.wire->net &&
                                     level.holds({upright.from.x, level.from.y}) &&
                                     upright.holds({upright.from.x, level.from.y});
                m_found.crossings += crosses ? 1 : 0;
            }
        }
    }

    void countJoints() {
        std::map<std::pair<int, int>, int> ends;
        for (const Piece& piece : m_pieces) {
            ends[{piece.from.x, piece.from.y}] += 1;
            ends[{piece.to.x, piece.to.y}] += 1;
        }
        for (const Pin& pin : m_pins) {
            ends[{pin.at.x, pin.at.y}] += 1;
        }
        m_found.jointsOfFour = static_cast<int>(
            std::count_if(ends.begin(), ends.end(), [](const auto& joint) { return joint.second >= 4; }));
    }

    const Circuit& m_circuit;
    std::vector<Piece> m_pieces;
    std::vector<Pin> m_pins;
    Legibility m_found;
};

}  // namespace

Legibility legibilityOf(const Circuit& circuit) {
    return Inspection(circuit).result();
}

}  // namespace ohmwright
