// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/board_legs.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/bench/net_words.h"
#include "core/circuit/references.h"
#include "core/plan/board_walk.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {

namespace {

std::string printedPin(const Part& part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    return index < part.pins.size() ? part.pins[index] : std::string();
}

bool isBulkAtSource(const Part& part, int pin) {
    constexpr int source = 2;
    constexpr int bulk = 3;
    return part.kind == PartKind::mosfet && pin == bulk && part.nets[bulk] == part.nets[source];
}

/// Smaller is named first; as a hand finds it.
int findingOrder(PartKind kind) {
    constexpr std::array plain{PartKind::potentiometer, PartKind::capacitor, PartKind::resistor, PartKind::inductor,
                               PartKind::diode};
    if (kind == PartKind::opamp) {
        return 0;
    }
    const auto found = std::find(plain.begin(), plain.end(), kind);
    return isAmplifying(kind) ? 1 : 2 + static_cast<int>(found - plain.begin());
}

/// "U1 pin 2" where the leg has a name of its own, else the part's reference: "C4".
std::string shortLegWords(const Part& part, int pin) {
    constexpr int named = 3;
    return findingOrder(part.kind) < named ? said("%1 %2", {chipName(part), legWord(part, pin)}) : part.reference;
}

std::vector<Leg> inFindingOrder(const Circuit& circuit, std::vector<Leg> legs) {
    const auto place = [&circuit](const Leg& leg) {
        const Part& part = *findPart(circuit, leg.part);
        return std::pair(findingOrder(part.kind), referenceNumber(part.reference, referencePrefix(part.kind)));
    };
    std::stable_sort(legs.begin(), legs.end(),
                     [&place](const Leg& one, const Leg& other) { return place(one) < place(other); });
    return legs;
}

NetName netOfProbe(const Circuit& circuit, const Probe& probe) {
    return probe.part.empty() ? probe.net : probe.leg >= 0 ? netAt(circuit, {probe.part, probe.leg}) : NetName();
}

}  // namespace

std::vector<Leg> legsOnBoard(const Circuit& circuit) {
    std::vector<Leg> legs;
    for (const PartId& id : walkOrder(circuit)) {
        const Part& part = *findPart(circuit, id);
        for (int pin = 0; pin < static_cast<int>(part.nets.size()); ++pin) {
            const Leg leg{id, pin};
            if (!isBulkAtSource(part, pin) && standingLeg(circuit, leg) == leg) {
                legs.push_back(leg);
            }
        }
    }
    return legs;
}

Leg standingLeg(const Circuit& circuit, const Leg& leg) {
    const Part* own = findPart(circuit, leg.part);
    if (own == nullptr || own->kind != PartKind::opamp) {
        return leg;
    }
    const std::string printed = printedPin(*own, leg.pin);
    if (printed.empty()) {
        return leg;
    }
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::opamp || chipName(part) != chipName(*own)) {
            continue;
        }
        const auto pin = std::find(part.pins.begin(), part.pins.end(), printed);
        if (pin != part.pins.end()) {
            return {part.id, static_cast<int>(pin - part.pins.begin())};
        }
    }
    return leg;
}

NetName netAt(const Circuit& circuit, const Leg& leg) {
    const Part* part = findPart(circuit, leg.part);
    const bool isThere = part != nullptr && leg.pin >= 0 && leg.pin < static_cast<int>(part->nets.size());
    return isThere ? part->nets[static_cast<std::size_t>(leg.pin)] : NetName();
}

std::vector<Leg> legsOfNet(const Circuit& circuit, const NetName& net) {
    std::vector<Leg> legs = legsOnBoard(circuit);
    std::erase_if(legs, [&](const Leg& leg) { return netAt(circuit, leg) != net; });
    return legs;
}

std::string legWord(const Part& part, int pin) {
    if (const std::string printed = printedPin(part, pin); part.kind == PartKind::opamp && !printed.empty()) {
        return said("pin %1", {printed});
    }
    if (part.kind == PartKind::diode) {
        return pin == 1 ? said("band leg") : said("plain leg");
    }
    if (isPolarised(part)) {
        return pin == 0 ? said("plus leg") : said("minus leg");
    }
    if (part.kind == PartKind::opamp || isAmplifying(part.kind) || part.kind == PartKind::potentiometer) {
        return said(pinName(part.kind, pin));
    }
    return said("leg %1", {std::to_string(pin + 1)});
}

std::string legWords(const Circuit& circuit, const Leg& leg) {
    const Part* part = findPart(circuit, leg.part);
    if (part == nullptr || leg.pin < 0 || leg.pin >= static_cast<int>(part->nets.size())) {
        return {};
    }
    const std::string name = part->kind == PartKind::opamp ? chipName(*part) : displayName(*part);
    return said("%1 %2", {name, legWord(*part, leg.pin)});
}

std::optional<int> pinOfWord(const Part& part, std::string_view word) {
    const std::string wanted = inLowerCase(word);
    const int pins = static_cast<int>(part.nets.size());
    for (int pin = 0; pin < pins; ++pin) {
        if (wanted == inLowerCase(legWord(part, pin)) || wanted == pinName(part.kind, pin) ||
            (!printedPin(part, pin).empty() && wanted == printedPin(part, pin))) {
            return pin;
        }
    }
    for (int pin = 0; pin < pins && part.pins.empty(); ++pin) {
        if (wanted == std::to_string(pin + 1) || wanted == "leg " + std::to_string(pin + 1)) {
            return pin;
        }
    }
    return std::nullopt;
}

std::string netTitle(const Circuit& circuit, const NetName& net) {
    if (net == groundNet) {
        return said("ground");
    }
    if (!circuit.ports.jack.empty() && net == circuit.ports.jack) {
        return said("input jack");
    }
    if (!circuit.ports.output.empty() && net == circuit.ports.output) {
        return said("output jack");
    }
    for (const Leg& leg : inFindingOrder(circuit, legsOfNet(circuit, net))) {
        const Part& part = *findPart(circuit, leg.part);
        if (part.kind == PartKind::opamp) {
            return said(pinName(part.kind, leg.pin));
        }
        if (isAmplifying(part.kind)) {
            return legWords(circuit, leg);
        }
    }
    return net;
}

std::string netLegsWords(const Circuit& circuit, const NetName& net) {
    const std::vector<Leg> legs = inFindingOrder(circuit, legsOfNet(circuit, net));
    std::string list;
    for (const Leg& leg : legs) {
        list.append(list.empty() ? "" : ", ").append(shortLegWords(*findPart(circuit, leg.part), leg.pin));
    }
    if (legs.empty()) {
        return said("no leg on the board");
    }
    return legs.size() == 1 ? said("1 leg: %1", {list}) : said("%1 legs: %2", {std::to_string(legs.size()), list});
}

std::string netWords(const Circuit& circuit, const NetName& net) {
    return said("%1: %2", {netTitle(circuit, net), netLegsWords(circuit, net)});
}

std::optional<Leg> legOfProbe(const Circuit& circuit, const Probe& probe, const Probe& other) {
    if (probe.part.empty()) {
        const std::optional<PlacedPin> place = placePin(circuit, probe.net);
        const Part* named = place ? findPart(circuit, place->part) : nullptr;
        return named != nullptr && isOnBoard(circuit, *named)
                   ? std::optional<Leg>(standingLeg(circuit, {named->id, place->pin}))
                   : std::nullopt;
    }
    const Part* part = findPart(circuit, probe.part);
    if (part == nullptr || !isOnBoard(circuit, *part)) {
        return std::nullopt;
    }
    if (probe.leg != Probe::eitherLeg) {
        return standingLeg(circuit, {part->id, probe.leg});
    }
    const auto reached = std::find(part->nets.begin(), part->nets.end(), netOfProbe(circuit, other));
    return Leg{part->id, reached != part->nets.end() ? static_cast<int>(reached - part->nets.begin()) : 0};
}

std::string markPrompt(const Circuit& circuit, const Leg& leg) {
    const Part* part = findPart(circuit, leg.part);
    if (part == nullptr) {
        return {};
    }
    const std::string name = part->kind == PartKind::opamp ? chipName(*part) : displayName(*part);
    return said("%1: not marked: click %2", {name, legWord(*part, leg.pin)});
}

}  // namespace ohmwright
