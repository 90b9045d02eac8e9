// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/references.h"
#include "core/drawing/edit.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"

#include <algorithm>
#include <set>
#include <utility>

namespace ohmwright {
namespace {

template <class Entry>
bool contains(const std::vector<Entry>& entries, const Entry& entry) {
    return std::find(entries.begin(), entries.end(), entry) != entries.end();
}

bool isInside(GridPoint point, GridPoint least, GridPoint most) {
    return point.x >= least.x && point.x <= most.x && point.y >= least.y && point.y <= most.y;
}

/// The same types under the names that the circuit has for them.
void takeTypes(Circuit& circuit, const Circuit& copy, std::vector<Part>& parts) {
    for (const Model& model : copy.models) {
        Model wanted = model;
        for (int number = 2; findModel(circuit, wanted.name) && *findModel(circuit, wanted.name) != wanted; ++number) {
            wanted.name = model.name;
            wanted.name.append("-").append(std::to_string(number));
        }
        if (!findModel(circuit, wanted.name)) {
            circuit.models.push_back(wanted);
        }
        for (Part& part : parts) {
            part.model = part.model == model.name ? wanted.name : part.model;
        }
    }
}

/// What went up into another net in one step after the other.
void follow(std::map<NetName, NetName>& goneInto, const std::map<NetName, NetName>& next) {
    for (auto& [net, name] : goneInto) {
        const auto further = next.find(name);
        name = further != next.end() ? further->second : name;
    }
    goneInto.insert(next.begin(), next.end());
}

}  // namespace

Picked withInnerWires(const Circuit& circuit, const Picked& picked) {
    Picked all = picked;
    std::vector<GridPoint> pins;
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && contains(picked.parts, part.id) && pin < drawnPinCount(part.kind); ++pin) {
            pins.push_back(pinPoint(part, pin));
        }
    }
    const Drawing& drawing = circuit.drawing;
    std::vector<std::size_t> candidates;
    for (std::size_t i = 0; i < drawing.wires.size(); ++i) {
        if (contains(picked.wires, i)) {
            candidates.push_back(i);
        }
    }
    const auto holds = [&](GridPoint point) {
        return contains(pins, point) || std::any_of(all.wires.begin(), all.wires.end(), [&](std::size_t wire) {
                   return isOnWire(point, drawing.wires[wire]);
               });
    };
    for (bool hasGrown = true; hasGrown;) {
        hasGrown = false;
        for (std::size_t i = 0; i < drawing.wires.size(); ++i) {
            const std::vector<GridPoint>& corners = drawing.wires[i].corners;
            if (!contains(all.wires, i) && holds(corners.front()) && holds(corners.back())) {
                all.wires.push_back(i);
                hasGrown = true;
            }
        }
    }
    for (std::size_t i = 0; i < drawing.flags.size(); ++i) {
        if (!contains(all.flags, i) && drawing.flags[i].kind != FlagKind::note && holds(drawing.flags[i].at)) {
            all.flags.push_back(i);
        }
    }
    return all;
}

Circuit copyOf(const Circuit& circuit, const Picked& picked) {
    Circuit copy;
    std::set<std::string> types;
    for (const Part& part : circuit.parts) {
        if (contains(picked.parts, part.id)) {
            copy.parts.push_back(part);
            types.insert(part.model);
        }
    }
    for (const Model& model : circuit.models) {
        if (types.contains(model.name)) {
            copy.models.push_back(model);
        }
    }
    for (const Knob& knob : circuit.knobs) {
        if (contains(picked.parts, knob.part)) {
            copy.knobs.push_back(knob);
        }
    }
    for (std::size_t i = 0; i < circuit.drawing.wires.size(); ++i) {
        if (contains(picked.wires, i)) {
            copy.drawing.wires.push_back(circuit.drawing.wires[i]);
        }
    }
    for (std::size_t i = 0; i < circuit.drawing.flags.size(); ++i) {
        if (contains(picked.flags, i)) {
            copy.drawing.flags.push_back(circuit.drawing.flags[i]);
        }
    }
    return copy;
}

EditResult paste(const Circuit& circuit, const Circuit& copy, GridPoint by) {
    Circuit edited = circuit;
    std::vector<Part> parts = copy.parts;
    takeTypes(edited, copy, parts);
    const auto moved = [by](GridPoint point) { return GridPoint{point.x + by.x, point.y + by.y}; };
    Picked picked;
    std::map<PartId, PartId> renamed;
    std::map<NetName, NetName> goneInto;
    for (Part& part : parts) {
        Placement placement = part.placement.value_or(Placement{});
        placement.at = moved(placement.at);
        const PartId old = std::exchange(part.id, {});
        const int drawn = drawnPinCount(part.kind);
        // Nets come from the drawing; what is not drawn stays on its net by name.
        std::fill(part.nets.begin(), part.nets.begin() + std::min<std::ptrdiff_t>(drawn, std::ssize(part.nets)),
                  NetName());
        const bool isTaken = findPartByReference(edited, part.reference) != nullptr;
        part.reference = isTaken ? nextReference(edited, part.kind) : part.reference;
        part.placement.reset();
        part.measured.reset();
        part.knowledge = Knowledge::drawn;
        EditResult placed = placePart(edited, part, placement);
        if (!placed) {
            return placed.error();
        }
        edited = std::move(placed->circuit);
        follow(goneInto, placed->goneInto);
        renamed[old] = placed->picked.parts.front();
        picked.parts.push_back(placed->picked.parts.front());
    }
    for (Part& part : edited.parts) {
        if (contains(picked.parts, part.id)) {
            for (PartId& named : part.controls) {
                const auto known = renamed.find(named);
                named = known != renamed.end() ? known->second : named;
            }
        }
    }
    for (const Wire& wire : copy.drawing.wires) {
        std::vector<GridPoint> corners = wire.corners;
        std::transform(corners.begin(), corners.end(), corners.begin(), moved);
        EditResult drawn = drawWire(edited, corners);
        if (!drawn) {
            return drawn.error();
        }
        edited = std::move(drawn->circuit);
        follow(goneInto, drawn->goneInto);
        picked.wires.push_back(edited.drawing.wires.size() - 1);
    }
    for (Flag flag : copy.drawing.flags) {
        flag.at = moved(flag.at);
        flag.net = flag.kind == FlagKind::supply ? flag.net : NetName();
        EditResult put = placeFlag(edited, flag);
        if (!put) {
            return put.error();
        }
        edited = std::move(put->circuit);
        follow(goneInto, put->goneInto);
        picked.flags.push_back(edited.drawing.flags.size() - 1);
    }
    return Edited{std::move(edited), std::move(goneInto), std::move(picked)};
}

Picked pickedIn(const Circuit& circuit, GridPoint corner, GridPoint opposite) {
    const GridPoint least{std::min(corner.x, opposite.x), std::min(corner.y, opposite.y)};
    const GridPoint most{std::max(corner.x, opposite.x), std::max(corner.y, opposite.y)};
    Picked picked;
    for (const Part& part : circuit.parts) {
        if (!part.placement) {
            continue;
        }
        const GridBox body = bodyBox(part);
        if (body.left < most.x && body.right > least.x && body.top < most.y && body.bottom > least.y) {
            picked.parts.push_back(part.id);
        }
    }
    for (std::size_t i = 0; i < circuit.drawing.wires.size(); ++i) {
        const std::vector<GridPoint>& corners = circuit.drawing.wires[i].corners;
        if (std::all_of(corners.begin(), corners.end(),
                        [&](GridPoint point) { return isInside(point, least, most); })) {
            picked.wires.push_back(i);
        }
    }
    for (std::size_t i = 0; i < circuit.drawing.flags.size(); ++i) {
        if (isInside(circuit.drawing.flags[i].at, least, most)) {
            picked.flags.push_back(i);
        }
    }
    return picked;
}

}  // namespace ohmwright
