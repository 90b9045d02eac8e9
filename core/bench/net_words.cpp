// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/net_words.h"

#include "core/base/colour_bands.h"
#include "core/base/value_text.h"
#include "core/circuit/net_groups.h"

#include <algorithm>
#include <cctype>
#include <utility>

namespace ohmwright {

namespace {

constexpr double silentFromOhms = 100.0;

bool isSource(const Part& part) {
    return part.kind == PartKind::voltageSource || part.kind == PartKind::currentSource;
}

bool isAt(const Part& part, const NetName& net) {
    return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
}

/// "U1A" is a half of the chip U1.
std::string chipName(const Part& part) {
    const std::string& name = part.reference;
    const auto isLetter = [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; };
    const auto isDigit = [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; };
    const bool isHalf = name.size() > 2 && isLetter(name.back()) && isDigit(name[name.size() - 2]);
    return isHalf ? name.substr(0, name.size() - 1) : name;
}

/// "Rg", or "R5" where the part has no short name.
const std::string& shortName(const Part& part) {
    return part.function.empty() ? part.reference : part.function;
}

/// Smaller is easier to find on a board.
int landmarkOrder(PartKind kind) {
    switch (kind) {
        case PartKind::opamp:
            return 0;
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
        case PartKind::pentode:
            return 1;
        case PartKind::potentiometer:
            return 2;
        case PartKind::diode:
            return 3;
        case PartKind::resistor:
            return 4;
        default:
            return 5;
    }
}

std::string netOfItsOwn(const Circuit& circuit, const NetName& net) {
    if (net == groundNet) {
        return "ground (jack sleeve)";
    }
    if (!circuit.ports.jack.empty() && net == circuit.ports.jack) {
        return "input jack tip";
    }
    if (!circuit.ports.output.empty() && net == circuit.ports.output) {
        return "output jack tip";
    }
    return {};
}

bool conductsDirectly(const Part& part) {
    switch (part.kind) {
        case PartKind::link:
        case PartKind::inductor:
        case PartKind::potentiometer:
            return true;
        case PartKind::switchContact:
            return part.value != 0.0;
        case PartKind::resistor:
            return part.value < silentFromOhms;
        default:
            return false;
    }
}

/// The pins of a net by landmark order, one a part.
std::vector<std::pair<const Part*, int>> pinsAt(const Circuit& circuit, const NetName& net, const PartId& apart) {
    std::vector<std::pair<const Part*, int>> pins;
    for (const Part& part : circuit.parts) {
        if (part.id == apart || isSource(part) || part.id == circuit.ports.load) {
            continue;
        }
        const auto pin = std::find(part.nets.begin(), part.nets.end(), net);
        if (pin != part.nets.end()) {
            pins.emplace_back(&part, static_cast<int>(pin - part.nets.begin()));
        }
    }
    std::stable_sort(pins.begin(), pins.end(), [](const auto& a, const auto& b) {
        return landmarkOrder(a.first->kind) < landmarkOrder(b.first->kind);
    });
    return pins;
}

/// A pin that has a name nobody mistakes; empty for a leg of a part with two like legs.
std::string plainPlace(const Part& part, int pin) {
    if (part.kind == PartKind::opamp) {
        const std::string words = pinWords(part, pin);
        const bool isNumbered =
            static_cast<std::size_t>(pin) < part.pins.size() && !part.pins[static_cast<std::size_t>(pin)].empty();
        return isNumbered ? words + " (" + std::string(pinName(part.kind, pin)) + ")" : words;
    }
    if (isAmplifying(part.kind) || part.kind == PartKind::potentiometer) {
        return pinWords(part, pin);
    }
    return {};
}

/// "top of Rg", "the end of R7 away from U1 pin 1"; empty where the other end says nothing.
std::string endOf(const Circuit& circuit, const Part& part, int pin) {
    if (part.nets.size() != 2 || part.nets[0] == part.nets[1]) {
        return {};
    }
    const NetName& other = part.nets[static_cast<std::size_t>(1 - pin)];
    if (other == groundNet) {
        return "top of " + shortName(part);
    }
    if (const std::string own = netOfItsOwn(circuit, other); !own.empty()) {
        return "the end of " + shortName(part) + " away from the " + own;
    }
    for (const auto& [neighbour, leg] : pinsAt(circuit, other, part.id)) {
        if (neighbour->kind == PartKind::opamp || isAmplifying(neighbour->kind)) {
            return "the end of " + shortName(part) + " away from " + pinWords(*neighbour, leg);
        }
    }
    return {};
}

}  // namespace

bool isAmplifying(PartKind kind) {
    return kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

bool isNonPolar(const Part& part) {
    constexpr double smallestPolarFarads = 470e-9;
    if (part.build.empty()) {
        return part.kind == PartKind::capacitor && part.value > 0.0 && part.value < smallestPolarFarads;
    }
    std::string build = part.build;
    std::transform(build.begin(), build.end(), build.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return build.rfind("film", 0) == 0 || build.rfind("ceramic", 0) == 0 || build.rfind("mica", 0) == 0;
}

std::string printedMarking(const Part& part) {
    if (!part.printed.empty()) {
        return part.printed;
    }
    if (part.kind == PartKind::capacitor) {
        return capacitorCode(part.value);
    }
    if (part.kind != PartKind::resistor) {
        return {};
    }
    // Where no tolerance is known, its band is left out: only the value's bands are certain.
    constexpr double anyTolerance = 0.05;
    const bool isKnown = part.tolerance > 0.0;
    auto bands = colourBandsOf(part.value, isKnown ? part.tolerance : anyTolerance);
    if (!bands) {
        return {};
    }
    if (!isKnown) {
        bands->pop_back();
    }
    std::string words;
    for (const std::string& band : *bands) {
        words += (words.empty() ? "" : "-") + band;
    }
    return words;
}

std::string valueWords(const Part& part) {
    if (hasValue(part.kind)) {
        return formatPartValue({part.value, unitOf(part.kind)});
    }
    return part.model.empty() ? std::string(kindName(part.kind)) : part.model;
}

std::string pinWords(const Part& part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    const std::string printed = index < part.pins.size() ? part.pins[index] : std::string();
    const std::string name(pinName(part.kind, pin));
    if (part.kind == PartKind::opamp) {
        return chipName(part) + (printed.empty() ? " " + name : " pin " + printed);
    }
    if (part.kind == PartKind::diode) {
        return (pin == 1 ? "band leg of " : "plain leg of ") + part.reference;
    }
    if (isAmplifying(part.kind) || part.kind == PartKind::potentiometer) {
        return part.reference + " " + name;
    }
    return "one leg of " + displayName(part);
}

std::vector<std::string> landmarks(const Circuit& circuit, const NetName& net, const PartId& apart, std::size_t most) {
    std::vector<std::string> words;
    if (std::string own = netOfItsOwn(circuit, net); !own.empty()) {
        words.push_back(std::move(own));
    }
    for (const auto& [part, pin] : pinsAt(circuit, net, apart)) {
        words.push_back(pinWords(*part, pin));
    }
    words.resize(std::min(words.size(), most));
    return words;
}

bool isPlainNet(const Circuit& circuit, const NetName& net, const PartId& apart) {
    if (!netOfItsOwn(circuit, net).empty()) {
        return false;
    }
    return std::none_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& part) {
        const bool stands = part.kind == PartKind::opamp || isAmplifying(part.kind);
        return stands && part.id != apart && isAt(part, net);
    });
}

std::string joinsWords(const Circuit& circuit, const NetName& net, const PartId& apart) {
    const std::vector<std::string> words = landmarks(circuit, net, apart, 2);
    if (words.empty()) {
        return "no other part";
    }
    // A jack, a chip's pin or a transistor's leg is found without a second landmark.
    return words.size() > 1 && isPlainNet(circuit, net, apart) ? words[0] + " and " + words[1] : words[0];
}

std::string placeWords(const Circuit& circuit, const NetName& net, const PartId& apart) {
    if (net == groundNet) {
        return "jack sleeve (ground)";
    }
    if (const std::string own = netOfItsOwn(circuit, net); !own.empty()) {
        return own;
    }
    const auto pins = pinsAt(circuit, net, apart);
    for (const auto& [part, pin] : pins) {
        if (std::string words = plainPlace(*part, pin); !words.empty()) {
            return words;
        }
    }
    for (const auto& [part, pin] : pins) {
        if (part->kind == PartKind::resistor || part->kind == PartKind::capacitor) {
            if (std::string words = endOf(circuit, *part, pin); !words.empty()) {
                return words;
            }
        }
    }
    for (const auto& [part, pin] : pins) {
        if (part->kind == PartKind::diode) {
            return (pin == 1 ? "band end of " : "plain end of ") + part->reference;
        }
    }
    if (pins.empty()) {
        return "a free leg";
    }
    return pinWords(*pins.front().first, pins.front().second);
}

bool staysSilent(const Circuit& circuit, const NetName& a, const NetName& b) {
    NetGroups beeping;
    for (const Part& part : circuit.parts) {
        if (!conductsDirectly(part)) {
            continue;
        }
        for (std::size_t pin = 1; pin < part.nets.size(); ++pin) {
            beeping.join(part.nets[0], part.nets[pin]);
        }
    }
    return !beeping.joined(a, b);
}

}  // namespace ohmwright
