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
    bool follows = false;  ///< The device that drives the output does so by its emitter, source or cathode, or follows.
};

/// Whether a device's output is this net: of a transistor or valve either end of its current.
bool drives(const Part& part, const NetName& net) {
    switch (part.kind) {
        case PartKind::opamp:
            return part.nets[2] == net;
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
            return part.nets[0] == net || part.nets[2] == net;
        case PartKind::pentode:
            return part.nets[0] == net || part.nets[3] == net;
        default:
            return false;
    }
}

/// Whether its output goes with its input: at the emitter, source or cathode, or an op-amp's own inverting input.
bool follows(const Part& part, const NetName& output) {
    switch (part.kind) {
        case PartKind::opamp:
            return part.nets[1] == part.nets[2];
        case PartKind::pentode:
            return part.nets[3] == output;
        default:
            return part.nets[2] == output;
    }
}

bool isDevice(PartKind kind) {
    return kind == PartKind::opamp || kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

/// The device that drives the stage's output; where a capacitor or a pot stands between, the last one.
bool outputFollows(const Circuit& circuit, const Stage& stage) {
    const Part* last = nullptr;
    for (const PartId& id : stage.parts) {
        const Part& part = *findPart(circuit, id);
        if (drives(part, stage.output)) {
            return follows(part, stage.output);
        }
        last = isDevice(part.kind) ? &part : last;
    }
    return last != nullptr && follows(*last, stage.output);
}

Contents contentsOf(const Circuit& circuit, const Stage& stage) {
    Contents found;
    found.follows = outputFollows(circuit, stage);
    for (const PartId& id : stage.parts) {
        const Part& part = *findPart(circuit, id);
        found.hasSource = found.hasSource || id == circuit.ports.source;
        switch (part.kind) {
            case PartKind::opamp:
                found.opamps += 1;
                break;
            case PartKind::bipolar:
            case PartKind::jfet:
            case PartKind::mosfet:
                found.transistors += 1;
                break;
            case PartKind::triode:
            case PartKind::pentode:
                found.valves += 1;
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

/// The name of a stage that was there: the one that held most of these parts. Empty where none held half of them.
std::string knownName(const std::vector<Stage>& known, const Stage& stage) {
    std::string name;
    std::size_t most = 0;
    for (const Stage& each : known) {
        const auto shared =
            static_cast<std::size_t>(std::count_if(stage.parts.begin(), stage.parts.end(), [&each](const PartId& id) {
                return std::find(each.parts.begin(), each.parts.end(), id) != each.parts.end();
            }));
        if (shared > most && 2 * shared >= stage.parts.size()) {
            name = each.name;
            most = shared;
        }
    }
    return name;
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
    const NetName start = source != nullptr ? source->nets.front() : way.empty() ? NetName() : way.front().from;
    const NetName end = way.empty() ? circuit.ports.output : way.back().to;
    if (circuit.parts.empty() || (source == nullptr && way.empty() && known.empty())) {
        return;
    }
    circuit.stages.push_back({"", start, end, {}, 0});
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
    std::set<std::string> given;
    for (Stage& stage : circuit.stages) {
        const std::string own = knownName(known, stage);
        if (!own.empty() && given.insert(own).second) {
            stage.name = own;
        } else if (count[stage.name] > 1) {
            const int next = ++number[stage.name];
            stage.name.append(" ").append(std::to_string(next));
        }
    }
}

}  // namespace ohmwright
