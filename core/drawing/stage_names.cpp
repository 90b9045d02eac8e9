// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/stage_names.h"

#include "core/drawing/zones.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace ohmwright {
namespace {

bool amplifies(PartKind kind) {
    switch (kind) {
        case PartKind::bipolar:
        case PartKind::opamp:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
        case PartKind::pentode:
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:
        case PartKind::behaviouralVoltage:
        case PartKind::behaviouralCurrent:
            return true;
        default:
            return false;
    }
}

bool isCoupling(const Circuit& circuit, const Branch& branch) {
    return branch.elements.size() == 1 && circuit.parts[branch.elements.front().part].kind == PartKind::capacitor;
}

/// What stands in a stage, for its name.
struct Contents {
    int opamps = 0, transistors = 0, valves = 0, functions = 0, pots = 0, diodes = 0, capacitors = 0;
    bool hasSource = false;
    bool follows = false;  ///< The output is an emitter, a source, a cathode, or an op-amp's own inverting input.
};

Contents contentsOf(const Circuit& circuit, const Stage& stage) {
    Contents found;
    for (const PartId& id : stage.parts) {
        const Part& part = *findPart(circuit, id);
        found.hasSource = found.hasSource || id == circuit.ports.source;
        switch (part.kind) {
            case PartKind::opamp:
                found.opamps += 1;
                found.follows = part.nets[1] == part.nets[2];
                break;
            case PartKind::bipolar:
            case PartKind::jfet:
            case PartKind::mosfet:
                found.transistors += 1;
                found.follows = part.nets[2] == stage.output;
                break;
            case PartKind::triode:
            case PartKind::pentode:
                found.valves += 1;
                found.follows = part.nets.back() == stage.output;
                break;
            case PartKind::potentiometer:
                found.pots += 1;
                break;
            case PartKind::diode:
                found.diodes += 1;
                break;
            case PartKind::capacitor:
                found.capacitors += 1;
                break;
            default:
                found.functions += amplifies(part.kind) ? 1 : 0;
        }
    }
    return found;
}

std::string nameOf(const Contents& in, bool isLast) {
    if (in.opamps + in.transistors + in.valves > 0) {
        if (in.follows) {
            return isLast ? "Output buffer" : "Buffer";
        }
        if (in.diodes >= 2) {
            return "Clip stage";
        }
        return in.valves > 0 ? "Valve stage" : "Gain stage";
    }
    if (in.functions > 0) {
        return "Function";
    }
    if (in.hasSource) {
        return "Source";
    }
    if (in.diodes > 0) {
        return "Clipper";
    }
    if (in.pots > 1 || (in.pots > 0 && in.capacitors > 1)) {
        return "Tone";
    }
    if (in.pots > 0) {
        return "Level";
    }
    return isLast ? "Output" : in.capacitors > 0 ? "Filter" : "Divider";
}

}  // namespace

std::vector<std::size_t> stageStarts(const Circuit& circuit, const std::vector<Branch>& branches,
                                     const std::vector<SignalStep>& way) {
    std::vector<std::size_t> starts;
    bool hasDevice = false;
    for (std::size_t i = 0; i < way.size(); ++i) {
        const SignalStep& step = way[i];
        const bool isBranch = step.through == SignalStep::Through::branch;
        const bool isDevice = step.through == SignalStep::Through::device && amplifies(circuit.parts[step.index].kind);
        const bool isCoupled = isBranch && isCoupling(circuit, branches[step.index]);
        const bool isJack = step.from == circuit.ports.jack;
        if (i > 0 && (isJack || (hasDevice && (isCoupled || isDevice)))) {
            starts.push_back(i);
            hasDevice = false;
        }
        hasDevice = hasDevice || isDevice;
    }
    return starts;
}

void nameStages(Circuit& circuit, const std::vector<SignalStep>& way, const std::vector<std::size_t>& starts,
                const std::vector<int>& columns) {
    const std::vector<Stage> known = std::exchange(circuit.stages, {});
    const Part* source = findPart(circuit, circuit.ports.source);
    if (source == nullptr) {
        return;
    }
    const NetName end = way.empty() ? circuit.ports.output : way.back().to;
    circuit.stages.push_back({"", source->nets.front(), end, {}, 0});
    for (std::size_t i = 0; i < starts.size() && i < columns.size(); ++i) {
        circuit.stages.back().output = way[starts[i]].from;
        circuit.stages.push_back({"", way[starts[i]].from, end, {}, columns[i]});
    }
    std::vector<PartId> all;
    for (const Part& part : circuit.parts) {
        all.push_back(part.id);
    }
    settleInZones(circuit, all);
    std::map<std::string, int> count;
    for (Stage& stage : circuit.stages) {
        stage.name = nameOf(contentsOf(circuit, stage), &stage == &circuit.stages.back());
        count[stage.name] += 1;
    }
    std::map<std::string, int> number;
    for (Stage& stage : circuit.stages) {
        const auto own = std::find_if(known.begin(), known.end(), [&stage](const Stage& each) {
            return !each.name.empty() && each.output == stage.output;
        });
        if (own != known.end()) {
            stage.name = own->name;
        } else if (count[stage.name] > 1) {
            const int next = ++number[stage.name];
            stage.name.append(" ").append(std::to_string(next));
        }
    }
}

}  // namespace ohmwright
