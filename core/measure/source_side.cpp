// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/source_side.h"

#include "core/base/said.h"
#include "core/circuit/check.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/impedance.h"

#include <algorithm>
#include <numbers>
#include <set>
#include <span>
#include <string>
#include <vector>

namespace ohmwright {

namespace {

constexpr double cornerHertz = 1000.0;
/// No part's net: where an unused source stands.
constexpr const char* nowhere = "(nowhere)";

bool touches(const Part& part, const std::set<NetName>& nets) {
    return std::any_of(part.nets.begin(), part.nets.end(), [&nets](const NetName& net) { return nets.contains(net); });
}

/// Nets reached from the source's hot end without going through the jack or ground.
std::set<NetName> netsBeforeJack(const Circuit& circuit, const Part& source) {
    std::set<NetName> reached{source.nets.front()};
    for (bool grew = true; grew;) {
        grew = false;
        for (const Part& part : circuit.parts) {
            if (!touches(part, reached)) {
                continue;
            }
            for (const NetName& net : part.nets) {
                grew = (net != groundNet && net != circuit.ports.jack && reached.insert(net).second) || grew;
            }
        }
    }
    return reached;
}

std::set<PartId> sourceParts(const Circuit& circuit, const Part& source) {
    std::set<PartId> ids;
    if (const Stage* stage = stageWithOutput(circuit, circuit.ports.jack)) {
        ids.insert(stage->parts.begin(), stage->parts.end());
    }
    if (source.nets.front() != circuit.ports.jack) {
        const std::set<NetName> before = netsBeforeJack(circuit, source);
        for (const Part& part : circuit.parts) {
            if (touches(part, before)) {
                ids.insert(part.id);
            }
        }
    }
    ids.erase(source.id);
    return ids;
}

void takeOut(Circuit& circuit, const std::set<PartId>& ids) {
    std::erase_if(circuit.parts, [&ids](const Part& part) { return ids.contains(part.id); });
    std::erase_if(circuit.knobs, [&ids](const Knob& knob) { return ids.contains(knob.part); });
    for (Stage& stage : circuit.stages) {
        std::erase_if(stage.parts, [&ids](const PartId& id) { return ids.contains(id); });
    }
}

Circuit withSourceAt(const Circuit& circuit, const NetName& net) {
    const Part* source = findPart(circuit, circuit.ports.source);
    if (source == nullptr || source->nets.empty() || circuit.ports.jack.empty()) {
        return circuit;
    }
    Circuit driven = circuit;
    takeOut(driven, sourceParts(circuit, *source));
    findPart(driven, circuit.ports.source)->nets.front() = net;
    for (Stage& stage : driven.stages) {
        // The borders before the jack are gone.
        const bool isSourceStage = stage.output == circuit.ports.jack;
        stage.input = isSourceStage ? NetName() : stage.input;
    }
    return driven;
}

/// Nets joined with `start` by resistors, pots and links, ground and supplies not gone through.
std::set<NetName> joinedByResistors(const Circuit& circuit, const NetName& start) {
    std::set<NetName> joined{start};
    std::set<NetName> walls{NetName(groundNet)};
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::voltageSource) {
            walls.insert(part.nets.begin(), part.nets.end());
        }
    }
    walls.erase(start);
    for (bool grew = true; grew;) {
        grew = false;
        for (const Part& part : circuit.parts) {
            const bool isResistive =
                part.kind == PartKind::resistor || part.kind == PartKind::potentiometer || part.kind == PartKind::link;
            if (isResistive && touches(part, joined)) {
                for (const NetName& net : part.nets) {
                    grew = (!walls.contains(net) && joined.insert(net).second) || grew;
                }
            }
        }
    }
    return joined;
}

/// The one capacitor that leads from the group to a net outside of it that is no ground; null when not exactly one.
const Part* onlyCapacitorFrom(const Circuit& circuit, const std::set<NetName>& group) {
    const Part* only = nullptr;
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::capacitor) {
            continue;
        }
        const bool first = group.contains(part.nets[0]);
        const bool second = group.contains(part.nets[1]);
        const bool leadsToGround = part.nets[0] == groundNet || part.nets[1] == groundNet;
        if (first == second || leadsToGround) {
            continue;
        }
        if (only != nullptr) {
            return nullptr;
        }
        only = &part;
    }
    return only;
}

Result<double> impedanceAt(const Circuit& circuit, const Setting& setting, const NetName& net, double hertz,
                           const std::stop_token& stop) {
    const auto solved = solveCircuit(circuit, settingFor(circuit, setting), stop);
    if (!solved) {
        return solved.error();
    }
    const auto impedance = nodeImpedance(*solved->equations, *solved->bias, solved->equations->indexOfNet(net),
                                         std::span(&hertz, 1), stop);
    if (!impedance) {
        return impedance.error();
    }
    return std::abs(impedance->front());
}

CouplingCorner cornerOf(const Part& capacitor, double ohms) {
    return {capacitor.id, ohms, 1.0 / (2.0 * std::numbers::pi * ohms * capacitor.value)};
}

}  // namespace

Setting settingFor(const Circuit& circuit, Setting setting) {
    std::erase_if(setting.knobs, [&circuit](const auto& knob) { return findKnob(circuit, knob.first) == nullptr; });
    return setting;
}

Circuit drivenAtJack(const Circuit& circuit) {
    return withSourceAt(circuit, circuit.ports.jack);
}

Circuit withOpenJack(const Circuit& circuit) {
    Circuit open = withSourceAt(circuit, nowhere);
    // A unit may begin with its coupling capacitor: with nothing plugged in the jack's net is an open leg.
    const std::vector<NetName> floating = netsWithoutDcPath(open);
    if (std::find(floating.begin(), floating.end(), circuit.ports.jack) != floating.end()) {
        open.openNets.push_back(circuit.ports.jack);
    }
    return open;
}

Result<double> inputImpedanceOhms(const Circuit& circuit, const Setting& setting, double hertz,
                                  const std::stop_token& stop) {
    if (circuit.ports.jack.empty()) {
        return Error{ErrorCode::unsolvable,
                     said("The circuit names no input jack: choose the net where the unit begins."), ""};
    }
    const Circuit driven = drivenAtJack(circuit);
    const auto solved = solveCircuit(driven, settingFor(driven, setting), stop);
    if (!solved) {
        return solved.error();
    }
    const auto impedance = inputImpedance(*solved->equations, *solved->bias, std::span(&hertz, 1), stop);
    if (!impedance) {
        return impedance.error();
    }
    return std::abs(impedance->front());
}

Result<double> outputImpedanceOhms(const Circuit& circuit, const Setting& setting, double hertz,
                                   const std::stop_token& stop) {
    Circuit open = circuit;
    takeOut(open, {circuit.ports.load});
    open.ports.load.clear();
    return impedanceAt(open, setting, circuit.ports.output, hertz, stop);
}

Result<std::optional<CouplingCorner>> inputCorner(const Circuit& circuit, const Setting& setting,
                                                  const std::stop_token& stop) {
    if (circuit.ports.jack.empty()) {
        return std::optional<CouplingCorner>();
    }
    const Circuit open = withOpenJack(circuit);
    const std::set<NetName> group = joinedByResistors(open, circuit.ports.jack);
    const Part* capacitor = onlyCapacitorFrom(open, group);
    if (capacitor == nullptr) {
        return std::optional<CouplingCorner>();
    }
    const NetName& farEnd = group.contains(capacitor->nets[0]) ? capacitor->nets[1] : capacitor->nets[0];
    const auto ohms = impedanceAt(open, setting, farEnd, cornerHertz, stop);
    if (!ohms) {
        return ohms.error();
    }
    return std::optional(cornerOf(*capacitor, *ohms));
}

Result<std::optional<CouplingCorner>> outputCorner(const Circuit& circuit, const Setting& setting,
                                                   const std::stop_token& stop) {
    Circuit driven = drivenAtJack(circuit);
    const std::set<NetName> group = joinedByResistors(driven, circuit.ports.output);
    const Part* found = onlyCapacitorFrom(driven, group);
    if (found == nullptr) {
        return std::optional<CouplingCorner>();
    }
    const Part capacitor = *found;
    takeOut(driven, {capacitor.id});
    const auto solved = solveCircuit(driven, settingFor(driven, setting), stop);
    if (!solved) {
        return solved.error();
    }
    const auto between = impedanceBetween(
        *solved->equations, *solved->bias,
        {solved->equations->indexOfNet(capacitor.nets[0]), solved->equations->indexOfNet(capacitor.nets[1])},
        std::span(&cornerHertz, 1), stop);
    if (!between) {
        return between.error();
    }
    return std::optional(cornerOf(capacitor, std::abs(between->front())));
}

}  // namespace ohmwright
