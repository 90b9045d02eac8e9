// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/net_words.h"

#include "core/base/colour_bands.h"
#include "core/base/said.h"
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
        return said("ground (jack sleeve)");
    }
    if (!circuit.ports.jack.empty() && net == circuit.ports.jack) {
        return said("input jack tip");
    }
    if (!circuit.ports.output.empty() && net == circuit.ports.output) {
        return said("output jack tip");
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
    const bool isPlain =
        part.kind == PartKind::opamp || isAmplifying(part.kind) || part.kind == PartKind::potentiometer;
    return isPlain ? deviceLegWords(part, pin) : std::string();
}

/// "top of Rg", "the end of R7 away from U1 pin 1"; empty where the other end says nothing.
std::string endOf(const Circuit& circuit, const Part& part, int pin) {
    if (part.nets.size() != 2 || part.nets[0] == part.nets[1]) {
        return {};
    }
    const NetName& other = part.nets[static_cast<std::size_t>(1 - pin)];
    if (other == groundNet) {
        return said("top of %1", shortName(part));
    }
    if (const std::string own = netOfItsOwn(circuit, other); !own.empty()) {
        return said("the end of %1 away from the %2", shortName(part), own);
    }
    for (const auto& [neighbour, leg] : pinsAt(circuit, other, part.id)) {
        if (neighbour->kind == PartKind::opamp || isAmplifying(neighbour->kind)) {
            return said("the end of %1 away from %2", shortName(part), pinWords(*neighbour, leg));
        }
    }
    return {};
}

}  // namespace

std::string chipName(const Part& part) {
    const std::string& name = part.reference;
    const auto isLetter = [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; };
    const auto isDigit = [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; };
    const bool isHalf = name.size() > 2 && isLetter(name.back()) && isDigit(name[name.size() - 2]);
    return isHalf ? name.substr(0, name.size() - 1) : name;
}

bool isAmplifying(PartKind kind) {
    return kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

bool hasLikeLegs(PartKind kind) {
    return kind != PartKind::opamp && kind != PartKind::diode && kind != PartKind::potentiometer && !isAmplifying(kind);
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
        words.append(words.empty() ? "" : "-").append(said(band));
    }
    return words;
}

std::string valueWords(const Part& part) {
    if (hasValue(part.kind)) {
        return formatPartValue({part.value, unitOf(part.kind)});
    }
    return part.model.empty() ? said(kindName(part.kind)) : part.model;
}

std::string pinWords(const Part& part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    const std::string printed = index < part.pins.size() ? part.pins[index] : std::string();
    if (hasLikeLegs(part.kind)) {
        return said("one leg of %1", displayName(part));
    }
    if (part.kind == PartKind::diode) {
        return pin == 1 ? said("band leg of %1", part.reference) : said("plain leg of %1", part.reference);
    }
    if (part.kind == PartKind::opamp && !printed.empty()) {
        return said("%1 pin %2", chipName(part), printed);
    }
    const std::string whose = part.kind == PartKind::opamp ? chipName(part) : part.reference;
    return whose + " " + said(pinName(part.kind, pin));
}

std::string deviceLegWords(const Part& part, int leg) {
    const auto index = static_cast<std::size_t>(leg);
    const bool isNumbered = part.kind == PartKind::opamp && index < part.pins.size() && !part.pins[index].empty();
    return isNumbered ? pinWords(part, leg) + " (" + said(pinName(part.kind, leg)) + ")" : pinWords(part, leg);
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
        return said("no other part");
    }
    // A jack, a chip's pin or a transistor's leg is found without a second landmark.
    return words.size() > 1 && isPlainNet(circuit, net, apart) ? said("%1 and %2", words[0], words[1]) : words[0];
}

namespace {

/// What a probe on a net is put to: the words, and the pin that they name; no part where the words name none.
struct NamedPlace {
    std::string words;
    const Part* part = nullptr;
    int pin = 0;
};

NamedPlace placeAt(const Circuit& circuit, const NetName& net, const PartId& apart) {
    if (net == groundNet) {
        return {said("jack sleeve (ground)")};
    }
    if (std::string own = netOfItsOwn(circuit, net); !own.empty()) {
        return {std::move(own)};
    }
    const auto pins = pinsAt(circuit, net, apart);
    for (const auto& [part, pin] : pins) {
        if (std::string words = plainPlace(*part, pin); !words.empty()) {
            return {std::move(words), part, pin};
        }
    }
    for (const auto& [part, pin] : pins) {
        if (part->kind == PartKind::resistor || part->kind == PartKind::capacitor) {
            if (std::string words = endOf(circuit, *part, pin); !words.empty()) {
                return {std::move(words), part, pin};
            }
        }
    }
    for (const auto& [part, pin] : pins) {
        if (part->kind == PartKind::diode) {
            return {pin == 1 ? said("band end of %1", part->reference) : said("plain end of %1", part->reference), part,
                    pin};
        }
    }
    if (pins.empty()) {
        return {said("a free leg")};
    }
    const auto [part, pin] = pins.front();
    return {pinWords(*part, pin), part, pin};
}

}  // namespace

std::string placeWords(const Circuit& circuit, const NetName& net, const PartId& apart) {
    return placeAt(circuit, net, apart).words;
}

std::optional<PlacedPin> placePin(const Circuit& circuit, const NetName& net, const PartId& apart) {
    const NamedPlace place = placeAt(circuit, net, apart);
    return place.part != nullptr ? std::optional<PlacedPin>({place.part->id, place.pin}) : std::nullopt;
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
