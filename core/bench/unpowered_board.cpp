// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/unpowered_board.h"

#include "core/circuit/check.h"

#include <algorithm>
#include <set>

namespace ohmwright {

namespace {

bool needsPower(PartKind kind) {
    switch (kind) {
        case PartKind::opamp:
        case PartKind::triode:
        case PartKind::pentode:
        case PartKind::voltageSource:
        case PartKind::currentSource:
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:
        case PartKind::currentControlledCurrent:
        case PartKind::currentControlledVoltage:
        case PartKind::behaviouralVoltage:
        case PartKind::behaviouralCurrent:
            return true;
        default:
            return false;
    }
}

/// Instrument and cable: the stage that ends at the jack, and what hangs between it and the source.
std::set<PartId> partsBeforeJack(const Circuit& circuit) {
    std::set<PartId> before;
    if (!circuit.ports.source.empty()) {
        before.insert(circuit.ports.source);
    }
    if (circuit.ports.jack.empty()) {
        return before;
    }
    if (const Stage* stage = stageWithOutput(circuit, circuit.ports.jack)) {
        before.insert(stage->parts.begin(), stage->parts.end());
    }
    const Part* source = findPart(circuit, circuit.ports.source);
    if (source == nullptr) {
        return before;
    }
    const auto isBorder = [&](const NetName& net) { return net == groundNet || net == circuit.ports.jack; };
    std::set<NetName> reached;
    for (const NetName& net : source->nets) {
        if (!isBorder(net)) {
            reached.insert(net);
        }
    }
    for (bool grew = true; grew;) {
        grew = false;
        for (const Part& part : circuit.parts) {
            const bool hangs = std::any_of(part.nets.begin(), part.nets.end(),
                                           [&](const NetName& net) { return reached.count(net) > 0; });
            if (!hangs || !before.insert(part.id).second) {
                continue;
            }
            grew = true;
            for (const NetName& net : part.nets) {
                if (!isBorder(net)) {
                    reached.insert(net);
                }
            }
        }
    }
    return before;
}

/// Calls of subcircuits that hold a source: chips written out.
std::set<std::string> livelyCalls(const Circuit& circuit) {
    std::set<std::string> calls;
    for (const Part& part : circuit.parts) {
        if (!part.call.empty() && needsPower(part.kind)) {
            calls.insert(part.call);
        }
    }
    return calls;
}

bool isInCall(const std::string& call, const std::set<std::string>& calls) {
    return std::any_of(calls.begin(), calls.end(),
                       [&](const std::string& lively) { return call == lively || call.rfind(lively + ".", 0) == 0; });
}

/// The pins that direct current passes between.
std::vector<NetName> conductingNets(const Part& part) {
    switch (part.kind) {
        case PartKind::capacitor:
        case PartKind::coupling:
            return {};
        case PartKind::switchContact:
            return part.value != 0.0 ? part.nets : std::vector<NetName>{};
        case PartKind::mosfet:
            return {part.nets[0], part.nets[2], part.nets[3]};
        default:
            return part.nets;
    }
}

bool isJunction(PartKind kind) {
    return kind == PartKind::diode || kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet;
}

void keepKnobsOf(Circuit& circuit) {
    circuit.knobs.erase(std::remove_if(circuit.knobs.begin(), circuit.knobs.end(),
                                       [&](const Knob& knob) { return findPart(circuit, knob.part) == nullptr; }),
                        circuit.knobs.end());
}

}  // namespace

Circuit unpoweredBoard(const Circuit& circuit, SupplyEnd supply) {
    const std::set<PartId> unplugged = partsBeforeJack(circuit);
    const std::set<std::string> calls = livelyCalls(circuit);
    Circuit board;
    board.models = circuit.models;
    board.knobs = circuit.knobs;
    for (const Part& part : circuit.parts) {
        const bool isShort = supply == SupplyEnd::shorted && part.id == circuit.ports.battery;
        if (isShort) {
            Part wire = part;
            wire.kind = PartKind::link;
            wire.value = linkOhms;
            board.parts.push_back(wire);
            continue;
        }
        if (unplugged.count(part.id) > 0 || part.id == circuit.ports.load || needsPower(part.kind) ||
            isInCall(part.call, calls) || !part.controls.empty()) {
            continue;
        }
        board.parts.push_back(part);
    }
    keepKnobsOf(board);
    board.openNets = netsWithoutDcPath(board);
    return board;
}

namespace {

/// From red on, never through black: what hangs behind black carries no current.
struct Reach {
    std::set<NetName> nets;
    std::set<const Part*> carrying;
    bool comesToBlack = false;
};

Reach reachOf(const Circuit& board, const NetName& red, const NetName& black) {
    Reach reach;
    reach.nets.insert(red);
    for (bool grew = true; grew;) {
        grew = false;
        for (const Part& part : board.parts) {
            const std::vector<NetName> nets = conductingNets(part);
            const bool hangs =
                std::any_of(nets.begin(), nets.end(), [&](const NetName& net) { return reach.nets.count(net) > 0; });
            if (!hangs || !reach.carrying.insert(&part).second) {
                continue;
            }
            grew = true;
            for (const NetName& net : nets) {
                if (net == black) {
                    reach.comesToBlack = true;
                } else {
                    reach.nets.insert(net);
                }
            }
        }
    }
    return reach;
}

}  // namespace

std::set<NetName> reachedNets(const Circuit& board, const NetName& red, const NetName& black) {
    std::set<NetName> nets = reachOf(board, red, black).nets;
    nets.insert(black);
    return nets;
}

ProbedIsland probedIsland(const Circuit& powered, const Circuit& board, const NetName& red, const NetName& black) {
    const Reach reach = reachOf(board, red, black);
    ProbedIsland island;
    island.isJoined = reach.comesToBlack;
    if (!island.isJoined) {
        return island;
    }
    // Black becomes ground; the board's ground keeps a name that no net has.
    const auto renamed = [&](const NetName& net) {
        return net == black ? NetName(groundNet) : net == groundNet ? NetName("former ground") : net;
    };
    island.red = renamed(red);
    for (const Part& part : board.parts) {
        if (reach.carrying.count(&part) == 0) {
            continue;
        }
        Part kept = part;
        for (NetName& net : kept.nets) {
            net = renamed(net);
        }
        kept.placement.reset();
        island.hasJunction = island.hasJunction || isJunction(kept.kind);
        island.circuit.parts.push_back(std::move(kept));
    }
    for (const Model& model : board.models) {
        const bool isUsed = std::any_of(island.circuit.parts.begin(), island.circuit.parts.end(),
                                        [&](const Part& part) { return part.model == model.name; });
        if (isUsed) {
            island.circuit.models.push_back(model);
        }
    }
    island.circuit.knobs = board.knobs;
    keepKnobsOf(island.circuit);
    island.circuit.openNets = netsWithoutDcPath(island.circuit);
    island.hasChip = std::any_of(powered.parts.begin(), powered.parts.end(), [&](const Part& part) {
        return part.kind == PartKind::opamp && std::any_of(part.nets.begin(), part.nets.end(), [&](const NetName& net) {
                   return net != groundNet && reach.nets.count(net) > 0;
               });
    });
    return island;
}

Setting boardSetting(const Circuit& board, const Setting& setting) {
    Setting own;
    own.temperatureKelvin = setting.temperatureKelvin;
    for (const Knob& knob : board.knobs) {
        own.knobs[knob.id] = knobPosition(setting, knob.id);
    }
    return own;
}

}  // namespace ohmwright
