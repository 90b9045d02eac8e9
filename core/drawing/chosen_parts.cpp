// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/chosen_parts.h"

#include "core/drawing/rejoin.h"

#include <algorithm>

namespace ohmwright {
namespace {

/// Half of the room that a wire keeps free of bodies.
constexpr double besideWire = 0.4;

GridBox roomOf(const Part& part) {
    GridBox box = bodyBox(part);
    for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
        const GridPoint at = pinPoint(part, pin);
        box = {std::min(box.left, at.x - 0.5), std::min(box.top, at.y - 0.5), std::max(box.right, at.x + 0.5),
               std::max(box.bottom, at.y + 0.5)};
    }
    return box;
}

GridBox roomOf(GridPoint from, GridPoint to) {
    return {std::min(from.x, to.x) - besideWire, std::min(from.y, to.y) - besideWire,
            std::max(from.x, to.x) + besideWire, std::max(from.y, to.y) + besideWire};
}

}  // namespace

ChosenParts::ChosenParts(const Circuit& circuit, const std::vector<PartId>& chosen)
    : m_taken(circuit), m_rest(circuit) {
    m_taken.parts.clear();
    m_taken.drawing = {};
    for (Part& part : m_rest.parts) {
        const bool isChosen = std::find(chosen.begin(), chosen.end(), part.id) != chosen.end();
        if (isChosen && part.id != circuit.ports.load) {
            m_taken.parts.push_back(part);
            m_taken.parts.back().placement.reset();
            part.placement.reset();
        }
    }
    takeWiresAway();
}

void ChosenParts::takeWiresAway() {
    std::vector<GridPoint> pins;
    for (const Part& part : m_rest.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            pins.push_back(pinPoint(part, pin));
        }
    }
    std::vector<Wire>& wires = m_rest.drawing.wires;
    std::vector<Flag>& flags = m_rest.drawing.flags;
    const auto isPin = [&pins](GridPoint at) { return std::find(pins.begin(), pins.end(), at) != pins.end(); };
    const auto isOnOther = [&wires](GridPoint at, const NetName& net, const Wire* own) {
        return std::any_of(wires.begin(), wires.end(),
                           [&](const Wire& wire) { return &wire != own && wire.net == net && isOnWire(at, wire); });
    };
    const auto isLoose = [&](const Wire& wire) {
        for (const GridPoint end : {wire.corners.front(), wire.corners.back()}) {
            const bool isFlag =
                std::any_of(flags.begin(), flags.end(), [end](const Flag& flag) { return flag.at == end; });
            if (!isPin(end) && !isFlag && !isOnOther(end, wire.net, &wire)) {
                return true;
            }
        }
        return false;
    };
    const auto leadsNowhere = [&](const Flag& flag) {
        const bool isSign = flag.kind == FlagKind::ground || flag.kind == FlagKind::supply;
        return isSign && !isPin(flag.at) && !isOnOther(flag.at, flag.net, nullptr);
    };
    for (bool changed = true; changed;) {
        const auto wire = std::find_if(wires.begin(), wires.end(), isLoose);
        const auto flag = std::find_if(flags.begin(), flags.end(), leadsNowhere);
        changed = wire != wires.end() || flag != flags.end();
        if (wire != wires.end()) {
            wires.erase(wire);
        } else if (flag != flags.end()) {
            flags.erase(flag);
        }
    }
}

std::set<NetName> ChosenParts::netsOfTheRest() const {
    std::set<NetName> nets;
    for (const Part& part : m_rest.parts) {
        if (part.placement) {
            nets.insert(part.nets.begin(), part.nets.end());
        }
    }
    return nets;
}

Sketch ChosenParts::standing() const {
    Sketch sketch;
    for (const Part& part : m_rest.parts) {
        if (!part.placement) {
            continue;
        }
        sketch.taken.push_back(roomOf(part));
        for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
            const GridPoint at = pinPoint(part, pin);
            sketch.lines.try_emplace(part.nets[static_cast<std::size_t>(pin)], NetLine{at.y, at.x, at.x});
        }
    }
    for (const Wire& wire : m_rest.drawing.wires) {
        for (std::size_t i = 1; i < wire.corners.size(); ++i) {
            sketch.taken.push_back(roomOf(wire.corners[i - 1], wire.corners[i]));
        }
    }
    for (const Flag& flag : m_rest.drawing.flags) {
        sketch.taken.push_back({flag.at.x - 0.9, flag.at.y - 1.3, flag.at.x + 0.9, flag.at.y + 1.0});
    }
    for (const Field& field : m_rest.drawing.fields) {
        sketch.taken.push_back({double(field.topLeft.x), double(field.topLeft.y), double(field.bottomRight.x),
                                double(field.bottomRight.y)});
    }
    for (const Stage& stage : m_rest.stages) {
        sketch.zones.push_back(stage.firstColumn);
    }
    return sketch;
}

void ChosenParts::put(const Sketch& added, Circuit& drawn) const {
    for (const auto& [index, placement] : added.parts) {
        findPart(drawn, m_taken.parts[index].id)->placement = placement;
    }
    std::vector<Flag>& flags = drawn.drawing.flags;
    flags.insert(flags.end(), added.flags.begin(), added.flags.end());
    std::vector<Wire>& wires = drawn.drawing.wires;
    wires.insert(wires.end(), added.wires.begin(), added.wires.end());
}

}  // namespace ohmwright
