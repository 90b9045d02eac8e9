// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/rejoin.h"

#include "core/drawing/outline.h"

#include <algorithm>
#include <cstddef>
#include <memory>
#include <numeric>
#include <set>
#include <string>
#include <tuple>
#include <vector>

namespace ohmwright {
namespace {

bool isBetween(int value, int a, int b) {
    return value >= std::min(a, b) && value <= std::max(a, b);
}

bool isOnSegment(GridPoint point, GridPoint from, GridPoint to) {
    return isBetween(point.x, from.x, to.x) && isBetween(point.y, from.y, to.y) &&
           (from.x == to.x || from.y == to.y);  // wires run at right angles: the box is the wire
}

bool joins(const Flag& flag) {
    return flag.kind != FlagKind::note;
}

/// A pin, a wire or a sign: what has a net on the drawing.
struct Element {
    NetName* net = nullptr;  ///< In the circuit that is put together.
    std::size_t pins = 0;    ///< 1 for a pin.
    bool isGround = false;
    bool isSign = false;      ///< A supply sign.
    bool isTerminal = false;  ///< A jack.
    NetName sign;             ///< Its name, of a supply sign.
};

class Groups {
public:
    explicit Groups(std::size_t count) : m_parent(count) { std::iota(m_parent.begin(), m_parent.end(), std::size_t{}); }
    std::size_t of(std::size_t element) {
        while (m_parent[element] != element) {
            m_parent[element] = m_parent[m_parent[element]];
            element = m_parent[element];
        }
        return element;
    }
    void join(std::size_t a, std::size_t b) { m_parent[std::max(of(a), of(b))] = std::min(of(a), of(b)); }

private:
    std::vector<std::size_t> m_parent;
};

/// What speaks for a group keeping a name; compared from the first member on.
struct Claim {
    bool ground = false;
    bool sign = false;
    bool terminal = false;
    std::size_t pins = 0;

    friend bool operator<(const Claim& a, const Claim& b) {
        return std::tie(a.ground, a.sign, a.terminal, a.pins) < std::tie(b.ground, b.sign, b.terminal, b.pins);
    }
};

/// Puts the nets of one circuit together anew.
class Rejoining {
public:
    explicit Rejoining(const Circuit& circuit) : m_circuit(circuit) {
        collect();
        joinAtPoints();
        joinSigns();
        findMentioned();
    }

    Rejoined take() {
        gatherClaims();
        shareOutNames();
        giveNewNames();
        for (std::size_t i = 0; i < m_elements.size(); ++i) {
            *m_elements[i].net = m_nameOf.at(m_groups->of(i));
        }
        renameMentions();
        return {std::move(m_circuit), std::move(m_goneInto)};
    }

private:
    void collect();
    void joinAtPoints();
    void joinSigns();
    void findMentioned();
    void gatherClaims();
    void shareOutNames();
    void giveNewNames();
    void renameMentions();

    Circuit m_circuit;
    std::vector<Element> m_elements;  // wires first, in their order
    std::vector<std::pair<GridPoint, std::size_t>> m_ends;
    std::unique_ptr<Groups> m_groups;
    std::set<NetName> m_mentioned;
    std::map<NetName, std::map<std::size_t, Claim>> m_claims;  // name -> group -> claim
    std::map<std::size_t, NetName> m_nameOf;                   // by group
    std::set<NetName> m_taken;
    std::map<NetName, NetName> m_goneInto;
};

void Rejoining::collect() {
    for (Wire& wire : m_circuit.drawing.wires) {
        for (const GridPoint corner : wire.corners) {
            m_ends.emplace_back(corner, m_elements.size());
        }
        m_elements.push_back({&wire.net, 0, false, false, false, {}});
    }
    for (Part& part : m_circuit.parts) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            m_ends.emplace_back(pinPoint(part, pin), m_elements.size());
            m_elements.push_back({&part.nets[static_cast<std::size_t>(pin)], 1, false, false, false, {}});
        }
        for (std::size_t pin = static_cast<std::size_t>(drawn); pin < part.nets.size(); ++pin) {
            m_mentioned.insert(part.nets[pin]);
        }
    }
    for (Flag& flag : m_circuit.drawing.flags) {
        if (joins(flag)) {
            m_ends.emplace_back(flag.at, m_elements.size());
            const bool isSign = flag.kind == FlagKind::supply;
            m_elements.push_back({&flag.net, 0, flag.kind == FlagKind::ground, isSign, flag.kind == FlagKind::terminal,
                                  isSign ? signName(flag) : NetName()});
        }
    }
    m_groups = std::make_unique<Groups>(m_elements.size());
}

void Rejoining::joinAtPoints() {
    std::map<std::pair<int, int>, std::size_t> firstAt;
    for (const auto& [point, element] : m_ends) {
        const auto [known, isNew] = firstAt.try_emplace({point.x, point.y}, element);
        if (!isNew) {
            m_groups->join(known->second, element);
        }
    }
    const std::vector<Wire>& wires = m_circuit.drawing.wires;
    for (const auto& [place, element] : firstAt) {
        for (std::size_t i = 0; i < wires.size(); ++i) {
            if (isOnWire({place.first, place.second}, wires[i])) {
                m_groups->join(element, i);
            }
        }
    }
}

void Rejoining::joinSigns() {
    std::map<NetName, std::size_t> firstOf;
    for (std::size_t i = 0; i < m_elements.size(); ++i) {
        const Element& element = m_elements[i];
        if (element.isGround || element.isSign) {
            const auto [known, isNew] = firstOf.try_emplace(element.isGround ? NetName(groundNet) : element.sign, i);
            if (!isNew) {
                m_groups->join(known->second, i);
            }
        }
    }
}

/// Names that others use: they are kept before those that nobody knows.
void Rejoining::findMentioned() {
    const Ports& ports = m_circuit.ports;
    m_mentioned.insert({ports.output, ports.jack, ports.clipNode});
    for (const Stage& stage : m_circuit.stages) {
        m_mentioned.insert({stage.input, stage.output});
    }
    for (const Part& part : m_circuit.parts) {
        for (std::size_t from = part.law.find('('); from != std::string::npos; from = part.law.find('(', from + 1)) {
            const std::size_t end = part.law.find_first_of(",)", from);
            m_mentioned.insert(part.law.substr(from + 1, end == std::string::npos ? end : end - from - 1));
        }
    }
    m_mentioned.erase(NetName());
}

void Rejoining::gatherClaims() {
    for (std::size_t i = 0; i < m_elements.size(); ++i) {
        const Element& element = m_elements[i];
        if (element.isGround) {
            m_claims[NetName(groundNet)][m_groups->of(i)].ground = true;
        }
        if (element.net->empty()) {
            continue;
        }
        Claim& claim = m_claims[*element.net][m_groups->of(i)];
        claim.sign = claim.sign || element.isSign;
        claim.terminal = claim.terminal || element.isTerminal;
        claim.pins += element.pins;
    }
}

void Rejoining::shareOutNames() {
    std::map<std::size_t, std::vector<std::pair<NetName, Claim>>> wonBy;
    for (const auto& [name, claims] : m_claims) {
        // The first of equals: groups are numbered by their first wire or pin.
        const auto winner = std::max_element(claims.begin(), claims.end(),
                                             [](const auto& a, const auto& b) { return a.second < b.second; });
        wonBy[winner->first].emplace_back(name, winner->second);
    }
    for (const auto& [group, won] : wonBy) {
        const auto rank = [this](const std::pair<NetName, Claim>& name) {
            return std::tuple(name.second.ground, name.second.sign, m_mentioned.contains(name.first), name.second);
        };
        const auto best = std::max_element(won.begin(), won.end(),
                                           [&rank](const auto& a, const auto& b) { return rank(a) < rank(b); });
        m_nameOf[group] = best->first;
        m_taken.insert(best->first);
        for (const auto& [name, claim] : won) {
            if (name != best->first) {
                m_goneInto[name] = best->first;
            }
        }
    }
}

void Rejoining::giveNewNames() {
    const auto isFree = [this](const NetName& name) {
        return !name.empty() && name != groundNet && !m_taken.contains(name) && !m_mentioned.contains(name) &&
               !m_goneInto.contains(name);
    };
    int number = 0;
    for (std::size_t i = 0; i < m_elements.size(); ++i) {
        const std::size_t group = m_groups->of(i);
        if (m_nameOf.contains(group)) {
            continue;
        }
        NetName name;
        for (std::size_t j = i; j < m_elements.size() && name.empty(); ++j) {
            name = m_groups->of(j) == group && isFree(m_elements[j].sign) ? m_elements[j].sign : NetName();
        }
        while (!isFree(name)) {
            name = "n";
            name.append(std::to_string(++number));
        }
        m_nameOf[group] = name;
        m_taken.insert(name);
    }
}

void Rejoining::renameMentions() {
    std::set<NetName> there = m_taken;
    for (const Part& part : m_circuit.parts) {
        there.insert(part.nets.begin(), part.nets.end());
    }
    const auto follow = [this, &there](NetName& name) {
        const auto gone = m_goneInto.find(name);
        name = gone != m_goneInto.end() ? gone->second : name;
        if (!there.contains(name)) {
            name.clear();
        }
    };
    // Undrawn pins follow before the rest is measured by what is there.
    for (Part& part : m_circuit.parts) {
        for (NetName& net : part.nets) {
            const auto gone = m_goneInto.find(net);
            net = gone != m_goneInto.end() ? gone->second : net;
        }
    }
    for (NetName* name : {&m_circuit.ports.output, &m_circuit.ports.jack, &m_circuit.ports.clipNode}) {
        follow(*name);
    }
    for (Stage& stage : m_circuit.stages) {
        follow(stage.input);
        follow(stage.output);
    }
    std::for_each(m_circuit.openNets.begin(), m_circuit.openNets.end(), follow);
    std::erase(m_circuit.openNets, NetName());
}

}  // namespace

Rejoined rejoin(const Circuit& circuit) {
    return Rejoining(circuit).take();
}

NetName signName(const Flag& flag) {
    NetName name = flag.text.empty() ? flag.net : flag.text;
    std::erase(name, ' ');
    return name;
}

NetName newNetName(const Circuit& circuit) {
    std::set<NetName> taken;
    for (const Part& part : circuit.parts) {
        taken.insert(part.nets.begin(), part.nets.end());
    }
    for (const Wire& wire : circuit.drawing.wires) {
        taken.insert(wire.net);
    }
    for (const Flag& flag : circuit.drawing.flags) {
        taken.insert(flag.net);
    }
    NetName name = "n1";
    for (int number = 2; taken.contains(name); ++number) {
        name = "n";
        name.append(std::to_string(number));
    }
    return name;
}

bool isOnWire(GridPoint point, const Wire& wire) {
    for (std::size_t i = 1; i < wire.corners.size(); ++i) {
        if (isOnSegment(point, wire.corners[i - 1], wire.corners[i])) {
            return true;
        }
    }
    return wire.corners.size() == 1 && wire.corners.front() == point;
}

bool hasEndAt(const Circuit& circuit, GridPoint point) {
    return !netAt(circuit, point).empty();
}

NetName netAt(const Circuit& circuit, GridPoint point) {
    // What is pointed at is a line: a leg that was corrected has another net than the lines that lead to it.
    for (const Wire& wire : circuit.drawing.wires) {
        if (isOnWire(point, wire)) {
            return wire.net;
        }
    }
    if (const std::optional<DrawnPin> found = pinAt(circuit, point)) {
        return found->part->nets[static_cast<std::size_t>(found->pin)];
    }
    for (const Flag& flag : circuit.drawing.flags) {
        if (joins(flag) && flag.at == point) {
            return flag.net;
        }
    }
    return {};
}

}  // namespace ohmwright
