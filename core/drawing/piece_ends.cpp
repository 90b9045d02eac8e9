// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/piece_ends.h"

#include "core/base/said.h"
#include "core/circuit/battery_resistor.h"
#include "core/circuit/supply_volts.h"
#include "core/drawing/outline.h"
#include "core/drawing/stage_piece.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <utility>

namespace ohmwright {

namespace {

Error cannotKeep(std::string sentence, std::string where = {}) {
    return {ErrorCode::invalidInput, std::move(sentence), std::move(where)};
}

bool isAt(const Part& part, std::string_view net) {
    return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
}

std::string listed(const std::vector<NetName>& nets) {
    std::string list;
    for (const NetName& net : nets) {
        list.append(list.empty() ? "" : ", ").append(net);
    }
    return list;
}

// ---- Rails --------------------------------------------------------------------------------------------------

/// The net that a resistor between battery and circuit feeds, or the battery's own.
NetName railOfBattery(const Circuit& circuit) {
    const Part* battery = findPart(circuit, circuit.ports.battery);
    if (battery == nullptr) {
        return {};
    }
    const NetName& plus = battery->nets.front();
    const Part* inner = batteryResistor(circuit);
    return inner == nullptr ? plus : inner->nets[0] == plus ? inner->nets[1] : inner->nets[0];
}

bool joins(const Part& part, PartKind kind, const NetName& net, std::string_view other) {
    return part.kind == kind && isAt(part, net) && isAt(part, other);
}

/// A divider's middle, held by a capacitor.
bool isHalfSupply(const Circuit& circuit, const NetName& net, const NetName& rail) {
    const auto has = [&](PartKind kind, std::string_view other) {
        return std::any_of(circuit.parts.begin(), circuit.parts.end(),
                           [&](const Part& part) { return joins(part, kind, net, other); });
    };
    return net != rail && has(PartKind::resistor, rail) && has(PartKind::resistor, groundNet) &&
           has(PartKind::capacitor, groundNet);
}

/// What the circuit's rails are called, whatever is chosen.
PieceEnds railsOf(const Circuit& circuit) {
    PieceEnds rails;
    const NetName rail = railOfBattery(circuit);
    const Part* battery = findPart(circuit, circuit.ports.battery);
    if (battery == nullptr) {
        return {{}, {}, NetName(supplyRail), NetName(halfRail), NetName(highRail)};
    }
    (battery->value >= highVolts ? rails.high : rails.supply) = rail;
    for (const Part& part : circuit.parts) {
        for (const NetName& net : part.nets) {
            if (rails.half.empty() && net != groundNet && isHalfSupply(circuit, net, rail)) {
                rails.half = net;
            }
        }
    }
    return rails;
}

// ---- Signal -------------------------------------------------------------------------------------------------

/// How many parts lie between the source and each net, not counted through ground and rails.
std::map<NetName, int> distancesFromSource(const Circuit& circuit, const std::set<NetName>& walls) {
    std::map<NetName, int> distances;
    const Part* source = findPart(circuit, circuit.ports.source);
    if (source == nullptr) {
        return distances;
    }
    std::vector<NetName> open;
    const auto reach = [&](const NetName& net, int distance) {
        if (walls.count(net) == 0 && distances.emplace(net, distance).second) {
            open.push_back(net);
        }
    };
    for (const NetName& net : source->nets) {
        reach(net, 0);
    }
    for (std::size_t i = 0; i < open.size(); ++i) {
        const NetName net = open[i];
        const int next = distances[net] + 1;
        for (const Part& part : circuit.parts) {
            if (isAt(part, net)) {
                for (const NetName& other : part.nets) {
                    reach(other, next);
                }
            }
        }
    }
    return distances;
}

int leftmostPin(const Circuit& circuit, std::span<const PartId> parts, const NetName& net) {
    int leftmost = std::numeric_limits<int>::max();
    for (const PartId& id : parts) {
        const Part& part = *findPart(circuit, id);
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            if (part.nets[static_cast<std::size_t>(pin)] == net) {
                leftmost = std::min(leftmost, pinPoint(part, pin).x);
            }
        }
    }
    return leftmost;
}

/// Input and output of the nets that are left over, as far as they are asked to be found.
Result<PieceEnds> withSignal(const Circuit& circuit, std::span<const PartId> parts, PieceEnds ends,
                             std::vector<NetName> left, const std::set<NetName>& walls) {
    std::erase_if(left, [&ends](const NetName& net) { return net == ends.input || net == ends.output; });
    const std::size_t wanted = (ends.input.empty() ? 1U : 0U) + (ends.output.empty() ? 1U : 0U);
    if (left.size() > wanted) {
        return cannotKeep(
            said("The chosen parts hang on %1 nets of the rest: %2. A stage has one input and one output: "
                 "choose more or fewer parts, or name its input, output and supplies.",
                 left.size(), listed(left)));
    }
    if (left.size() < wanted) {
        return cannotKeep(left.empty() ? said("The chosen parts carry no signal from one side to the other: no net is "
                                              "left to be input or output. Name them, or choose others.")
                                       : said("Only %1 leads out of the chosen parts. A stage has an input and an "
                                              "output: name both.",
                                              left.front()));
    }
    std::map<NetName, int> distances = distancesFromSource(circuit, walls);
    std::sort(left.begin(), left.end(), [&](const NetName& a, const NetName& b) {
        const auto key = [&](const NetName& net) {
            const auto known = distances.find(net);
            return std::make_tuple(known == distances.end() ? std::numeric_limits<int>::max() : known->second,
                                   leftmostPin(circuit, parts, net), net);
        };
        return key(a) < key(b);
    });
    auto next = left.begin();
    if (ends.input.empty()) {
        ends.input = *next++;
    }
    if (ends.output.empty()) {
        ends.output = *next;
    }
    return ends;
}

Result<void> checkChosen(const Circuit& circuit, std::span<const PartId> parts) {
    if (parts.empty()) {
        return cannotKeep(said("No part is chosen. Choose those of the stage."));
    }
    for (const PartId& id : parts) {
        const Part* part = findPart(circuit, id);
        if (part == nullptr) {
            return cannotKeep(said("There is no part %1 in this circuit. Choose others.", id), id);
        }
        const Ports& ports = circuit.ports;
        if (id == ports.source || id == ports.battery || id == ports.load) {
            return cannotKeep(
                said("%1 is one of the unit's ends and no part of a stage. Leave it out.", displayName(*part)), id);
        }
    }
    return {};
}

}  // namespace

std::vector<PartId> partsToKeep(const Circuit& circuit, std::size_t stage) {
    std::vector<PartId> parts = circuit.stages[stage].parts;
    const Ports& ports = circuit.ports;
    std::erase_if(parts, [&](const PartId& id) {
        return id == ports.source || id == ports.battery || id == ports.load || findPart(circuit, id) == nullptr;
    });
    return parts;
}

std::vector<NetName> outerNets(const Circuit& circuit, std::span<const PartId> parts) {
    const std::set<PartId> chosen(parts.begin(), parts.end());
    std::set<NetName> outside{circuit.ports.jack, circuit.ports.output};
    for (const Part& part : circuit.parts) {
        if (chosen.count(part.id) == 0) {
            outside.insert(part.nets.begin(), part.nets.end());
        }
    }
    std::vector<NetName> outer;
    for (const PartId& id : parts) {
        const Part* part = findPart(circuit, id);
        for (const NetName& net : part != nullptr ? part->nets : std::vector<NetName>()) {
            const bool isNew = std::find(outer.begin(), outer.end(), net) == outer.end();
            if (net != groundNet && outside.count(net) > 0 && isNew) {
                outer.push_back(net);
            }
        }
    }
    return outer;
}

Result<PieceEnds> findEnds(const Circuit& circuit, std::span<const PartId> parts, const PieceEnds& asked) {
    if (const Result<void> chosen = checkChosen(circuit, parts); !chosen) {
        return chosen.error();
    }
    PieceEnds ends = asked;
    const PieceEnds found = railsOf(circuit);
    const auto isChosenNet = [&](const NetName& net) {
        return std::any_of(parts.begin(), parts.end(),
                           [&](const PartId& id) { return isAt(*findPart(circuit, id), net); });
    };
    std::set<NetName> walls{NetName(groundNet)};
    for (NetName PieceEnds::*rail : {&PieceEnds::supply, &PieceEnds::half, &PieceEnds::high}) {
        NetName& net = ends.*rail;
        net = net.empty() ? found.*rail : net;
        walls.insert(net);
        net = asked.*rail == net || isChosenNet(net) ? net : NetName();
    }
    for (const NetName& net : {asked.input, asked.output, asked.supply, asked.half, asked.high}) {
        if (!net.empty() && net != PieceEnds::none && !isChosenNet(net)) {
            return cannotKeep(said("No chosen part stands at %1. Name another net.", net), net);
        }
    }
    std::vector<NetName> left = outerNets(circuit, parts);
    std::erase_if(left, [&walls](const NetName& net) { return walls.count(net) > 0; });
    return withSignal(circuit, parts, ends, std::move(left), walls);
}

}  // namespace ohmwright
