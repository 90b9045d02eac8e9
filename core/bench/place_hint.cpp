// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/place_hint.h"

#include "core/base/said.h"
#include "core/bench/net_words.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace ohmwright {

namespace {

int numberOf(const std::string& text) {
    int number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

std::string ordinal(int number) {
    constexpr std::array words{toSay("first"), toSay("second"), toSay("third"),   toSay("fourth"),
                               toSay("fifth"), toSay("sixth"),  toSay("seventh"), toSay("eighth")};
    const auto index = static_cast<std::size_t>(number - 1);
    return index < words.size() ? said(words[index]) : said("%1th", number);
}

/// Pins of the whole package, both halves of a dual chip among them.
int packagePins(const Circuit& circuit, const Part& chip) {
    int highest = 0;
    for (const Part& part : circuit.parts) {
        const bool isSameChip = part.kind == chip.kind && part.model == chip.model;
        for (const std::string& pin : part.pins) {
            highest = isSameChip ? std::max(highest, numberOf(pin)) : highest;
        }
    }
    return highest <= 8 ? 8 : highest <= 14 ? 14 : 16;
}

const NetName* netOf(const Circuit& circuit, const Probe& probe) {
    if (probe.part.empty()) {
        return &probe.net;
    }
    const Part* part = findPart(circuit, probe.part);
    return part == nullptr || probe.leg < 0 ? nullptr : &part->nets[static_cast<std::size_t>(probe.leg)];
}

/// A net is found at its best landmark; a probe on a net of a chip's pin is counted there.
std::pair<const Part*, int> landmarkOf(const Circuit& circuit, const Probe& probe) {
    if (!probe.part.empty()) {
        return {findPart(circuit, probe.part), probe.leg};
    }
    for (const Part& part : circuit.parts) {
        for (std::size_t leg = 0; leg < part.nets.size(); ++leg) {
            if (part.nets[leg] == probe.net && part.kind == PartKind::opamp) {
                return {&part, static_cast<int>(leg)};
            }
        }
    }
    return {nullptr, 0};
}

}  // namespace

std::string placeHint(const Circuit& circuit, const Probe& probe) {
    const auto [part, leg] = landmarkOf(circuit, probe);
    if (part == nullptr || leg < 0 || (probe.part.empty() && probe.net == groundNet)) {
        return {};
    }
    const auto pin = static_cast<std::size_t>(leg);
    if (part->kind == PartKind::opamp && pin < part->pins.size()) {
        const int number = numberOf(part->pins[pin]);
        const int pins = packagePins(circuit, *part);
        if (number < 1 || number > pins) {
            return {};
        }
        return number <= pins / 2
                   ? said("%1 from the notch, on the side of the dot", ordinal(number))
                   : said("%1 from the notch, on the side away from the dot", ordinal(pins + 1 - number));
    }
    if (isAmplifying(part->kind)) {
        return said("which leg that is, the part's own data sheet says");
    }
    return {};
}

std::string legsAtPlace(const Circuit& circuit, const Probe& probe) {
    const NetName* net = netOf(circuit, probe);
    if (net == nullptr || *net == groundNet) {
        return {};
    }
    constexpr std::size_t most = 8;
    const std::vector<std::string> legs = landmarks(circuit, *net, {}, most);
    std::string words;
    for (const std::string& leg : legs) {
        words += (words.empty() ? "" : ", ") + leg;
    }
    if (words.empty()) {
        return {};
    }
    return legs.size() == 1 ? said("1 leg: %1", words) : said("%1 legs: %2", legs.size(), words);
}

}  // namespace ohmwright
