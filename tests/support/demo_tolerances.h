/// The demo netlists as units of a build: pots whole again, tolerances as the demos' definitions have them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <map>
#include <set>
#include <string>
#include <utility>

namespace ohmwright::test {

struct ToleratedDemo {
    Circuit circuit;
    Setting setting;
};

/// The clip stage's borders, by demo.
inline Stage clipStageOf(const std::string& demo) {
    static const std::map<std::string, std::pair<NetName, NetName>> borders{
        {"harbour-lamp", {"ip", "o1"}}, {"quarry-bell", {"ip", "o1"}}, {"small-rooster", {"in", "c"}},
        {"moss-engine", {"in", "t"}},   {"paper-boat", {"in", "d"}},   {"night-ferry", {"in", "a"}},
        {"three-hills", {"o1", "out"}}};
    return {"clip stage", borders.at(demo).first, borders.at(demo).second, {}, 0};
}

/// R 5 %, C 10 %, pots 20 % with both parts together; not pickup, guitar volume, cable, battery, load, devices.
/// RVR2A and RVR2B become one linear pot RVR2 whose knob gives both parts their resistance; a rheostat stays a
/// resistor.
inline ToleratedDemo withTolerances(Circuit circuit) {
    static const std::set<std::string> exact{"RPU", "CPU", "RVGA", "RVGB", "CCABLE", "RLOAD", "RBAT"};
    ToleratedDemo demo;
    std::vector<Part> parts;
    for (const Part& part : circuit.parts) {
        const bool isPot = part.id.rfind("RVR", 0) == 0;
        const bool isTrack = isPot || part.id.rfind("RVG", 0) == 0;
        if (isTrack && part.id.back() == 'B') {
            continue;  // made one with its upper half
        }
        Part tolerated = part;
        if (isTrack && part.id.back() == 'A') {
            tolerated.id = part.id.substr(0, part.id.size() - 1);
            const Part& lower = *findPart(circuit, tolerated.id + "B");
            tolerated.reference = tolerated.id;
            tolerated.kind = PartKind::potentiometer;
            tolerated.value = part.value + lower.value;
            tolerated.nets = {part.nets[0], part.nets[1], lower.nets[1]};
            circuit.knobs.push_back({tolerated.id, tolerated.id, tolerated.id});
            demo.setting.knobs[tolerated.id] = 10.0 * lower.value / tolerated.value;
        }
        const bool isOnBoard = part.call.empty() && exact.count(part.id) == 0;
        if (isOnBoard && isPot) {
            tolerated.tolerance = 0.2;
        } else if (isOnBoard && part.kind == PartKind::resistor) {
            tolerated.tolerance = 0.05;
        } else if (isOnBoard && part.kind == PartKind::capacitor) {
            tolerated.tolerance = 0.1;
        }
        parts.push_back(tolerated);
    }
    circuit.parts = std::move(parts);
    if (findPart(circuit, "RVG") != nullptr) {
        circuit.ports.jack = "in";
        circuit.stages.push_back({"source", "emf", "in", {"RVG"}, 0});
    }
    demo.circuit = std::move(circuit);
    return demo;
}

}  // namespace ohmwright::test
