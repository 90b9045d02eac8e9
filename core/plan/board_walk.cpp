// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board_walk.h"

#include "core/circuit/battery_resistor.h"

#include <algorithm>
#include <limits>
#include <tuple>

namespace ohmwright {

namespace {

/// More than this is no resistance inside a battery [Ω]: a fresh 9 V block has one to a few ohms, a spent one some
/// tens; common practice, no source.
constexpr double largestInnerResistance = 50.0;

/// The battery, or the resistance inside it: no body of its own.
bool isBattery(const Circuit& circuit, const Part& part) {
    if (part.id == circuit.ports.battery) {
        return true;
    }
    // A dropper that lies on a board is a part like any other.
    const Part* inner = batteryResistor(circuit);
    return inner != nullptr && inner->id == part.id && part.value <= largestInnerResistance && part.boardNote.empty() &&
           part.build.empty();
}

/// Kinds that have a body: resistors to valves, switches. Sources and couplings only stand for what something does.
bool hasBody(PartKind kind) {
    return hasValue(kind) || hasModel(kind) || kind == PartKind::link || kind == PartKind::switchContact;
}

}  // namespace

bool isOnBoard(const Circuit& circuit, const Part& part) {
    if (part.id == circuit.ports.source || part.id == circuit.ports.load || isBattery(circuit, part)) {
        return false;
    }
    const Stage* stage = stageOfPart(circuit, part.id);
    return hasBody(part.kind) &&
           (stage == nullptr || circuit.ports.jack.empty() || stage->output != circuit.ports.jack);
}

std::vector<PartId> walkOrder(const Circuit& circuit) {
    constexpr int nowhere = std::numeric_limits<int>::max();
    std::vector<std::tuple<std::size_t, int, int, std::size_t>> places;
    for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
        const Part& part = circuit.parts[k];
        if (!isOnBoard(circuit, part)) {
            continue;
        }
        const Stage* stage = stageOfPart(circuit, part.id);
        const std::size_t index =
            stage != nullptr ? static_cast<std::size_t>(stage - circuit.stages.data()) : circuit.stages.size();
        const GridPoint at = part.placement ? part.placement->at : GridPoint{nowhere, nowhere};
        places.emplace_back(index, at.x, at.y, k);
    }
    std::sort(places.begin(), places.end());
    std::vector<PartId> order;
    order.reserve(places.size());
    for (const auto& place : places) {
        order.push_back(circuit.parts[std::get<3>(place)].id);
    }
    return order;
}

WalkProgress walkProgress(const Circuit& circuit) {
    WalkProgress progress;
    for (const Part& part : circuit.parts) {
        if (!isOnBoard(circuit, part)) {
            continue;
        }
        progress.drawn += part.knowledge == Knowledge::drawn ? 1 : 0;
        progress.seen += part.knowledge == Knowledge::seen ? 1 : 0;
        progress.measured += part.knowledge == Knowledge::measured ? 1 : 0;
    }
    return progress;
}

std::optional<PartId> nextUnseen(const Circuit& circuit, const PartId& from) {
    const std::vector<PartId> order = walkOrder(circuit);
    const auto here = std::find(order.begin(), order.end(), from);
    const auto isUnseen = [&](const PartId& id) { return findPart(circuit, id)->knowledge == Knowledge::drawn; };
    const auto after = here == order.end() ? order.begin() : here + 1;
    if (const auto next = std::find_if(after, order.end(), isUnseen); next != order.end()) {
        return *next;
    }
    const auto first = std::find_if(order.begin(), after, isUnseen);
    return first != after ? std::optional(*first) : std::nullopt;
}

}  // namespace ohmwright
