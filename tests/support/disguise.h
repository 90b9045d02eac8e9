/// A circuit under other names: what a drawing of the same board by another hand looks like.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <utility>

namespace ohmwright::test {

struct Disguise {
    Circuit circuit;
    std::map<PartId, PartId> parts;   ///< From the real ids to the new ones.
    std::map<NetName, NetName> nets;  ///< Likewise; ground keeps its name.
    std::map<PartId, bool> isTurned;  ///< By real id: pins 1 and 2 have changed places.
};

/// Other ids, references, net names and order of parts; resistors, capacitors and coils turned round by chance.
inline Disguise disguised(const Circuit& circuit, std::uint32_t seed) {
    std::mt19937 chance(seed);
    Disguise made{circuit, {}, {}, {}};
    const auto newName = [&](std::map<std::string, std::string>& names, const std::string& name, const char* prefix) {
        if (name.empty() || name == groundNet) {
            return name;
        }
        return names.emplace(name, prefix + std::to_string(names.size() + seed % 7)).first->second;
    };
    // Named in an order of their own, so that names do not betray the order of the drawing.
    std::vector<std::size_t> order;
    for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
        order.insert(order.begin() + static_cast<std::ptrdiff_t>(chance() % (order.size() + 1)), p);
    }
    for (const std::size_t p : order) {
        newName(made.parts, circuit.parts[p].id, "p");
        for (const NetName& net : circuit.parts[p].nets) {
            newName(made.nets, net, "n");
        }
    }
    made.circuit.parts.clear();
    for (const std::size_t p : order) {
        Part part = circuit.parts[p];
        const bool isTurnable = part.kind == PartKind::resistor || part.kind == PartKind::capacitor ||
                                part.kind == PartKind::inductor || part.kind == PartKind::link;
        made.isTurned[part.id] = isTurnable && chance() % 2 == 0;
        if (made.isTurned[part.id]) {
            std::swap(part.nets[0], part.nets[1]);
        }
        part.id = made.parts[part.id];
        part.reference = "X" + std::to_string(chance() % 1000);
        part.function.clear();
        part.role.clear();
        for (NetName& net : part.nets) {
            net = newName(made.nets, net, "n");
        }
        for (PartId& control : part.controls) {
            control = made.parts[control];
        }
        made.circuit.parts.push_back(std::move(part));
    }
    for (Knob& knob : made.circuit.knobs) {
        knob.part = made.parts[knob.part];
    }
    for (Stage& stage : made.circuit.stages) {
        stage.input = newName(made.nets, stage.input, "n");
        stage.output = newName(made.nets, stage.output, "n");
        for (PartId& part : stage.parts) {
            part = made.parts[part];
        }
    }
    Ports& ports = made.circuit.ports;
    for (NetName* net : {&ports.output, &ports.jack, &ports.clipNode}) {
        *net = newName(made.nets, *net, "n");
    }
    for (PartId* part : {&ports.source, &ports.battery, &ports.load}) {
        *part = part->empty() ? *part : made.parts[*part];
    }
    for (NetName& net : made.circuit.openNets) {
        net = newName(made.nets, net, "n");
    }
    made.circuit.drawing = {};
    return made;
}

inline const std::vector<std::string>& allDemos() {
    static const std::vector<std::string> demos{"harbour-lamp", "quarry-bell", "small-rooster", "moss-engine",
                                                "paper-boat",   "night-ferry", "three-hills"};
    return demos;
}

}  // namespace ohmwright::test
