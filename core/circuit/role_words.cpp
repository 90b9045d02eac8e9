// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/part_match.h"

#include "core/base/said.h"

#include <algorithm>
#include <set>

namespace ohmwright {

namespace {

constexpr std::size_t furthest = 3;  // Parts on the way to a landmark.
constexpr std::size_t mostLandmarks = 2;

bool isLandmark(PartKind kind) {
    return hasModel(kind) && kind != PartKind::diode;
}

/// What names a net by itself: ground, the ends of the unit, pins of transistors, chips and valves.
std::vector<std::string> landmarksOf(const Circuit& circuit, const NetName& net, const PartId& apart) {
    if (net == groundNet) {
        return {said("ground")};
    }
    std::vector<std::string> names;
    if (net == circuit.ports.jack) {
        names.push_back(said("the input jack"));
    }
    if (net == circuit.ports.output) {
        names.push_back(said("the output"));
    }
    bool isSupply = false;
    for (const Part& part : circuit.parts) {
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            if (part.nets[pin] != net || part.id == apart || !isLandmark(part.kind)) {
                continue;
            }
            // Several devices hang on a rail: the rail is what names it.
            isSupply = isSupply || (part.kind == PartKind::opamp && pin >= 3);
            names.push_back(part.reference + " " + said(pinName(part.kind, static_cast<int>(pin))));
        }
    }
    if (isSupply) {
        return {said("the supply")};
    }
    names.resize(std::min(names.size(), mostLandmarks));
    return names;
}

std::string joined(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) {
        text += (text.empty() ? "" : " / ") + name;
    }
    return text;
}

/// A net, and the parts that lead to it.
struct Way {
    NetName net;
    std::string parts;
};

/// One part further than `ways`, to nets that were not seen yet.
std::vector<Way> furtherOn(const Circuit& circuit, const std::vector<Way>& ways, std::set<NetName>& seen,
                           const PartId& apart) {
    std::vector<Way> next;
    for (const Way& way : ways) {
        for (const Part& part : circuit.parts) {
            const auto at = std::find(part.nets.begin(), part.nets.end(), way.net);
            if (part.id == apart || at == part.nets.end() || isLandmark(part.kind)) {
                continue;
            }
            for (const NetName& far : part.nets) {
                if (seen.insert(far).second) {
                    next.push_back(
                        {far, way.parts.empty() ? part.reference : said("%1 and %2", way.parts, part.reference)});
                }
            }
        }
    }
    return next;
}

/// A net by its landmarks, or by the nearest one behind parts of two legs.
std::string placeOf(const Circuit& circuit, const NetName& net, const PartId& apart) {
    if (const auto names = landmarksOf(circuit, net, apart); !names.empty()) {
        return joined(names);
    }
    std::vector<Way> ways{{net, ""}};
    std::set<NetName> seen{net};
    for (std::size_t distance = 0; distance < furthest; ++distance) {
        ways = furtherOn(circuit, ways, seen, apart);
        for (const Way& way : ways) {
            if (const auto names = landmarksOf(circuit, way.net, apart); !names.empty()) {
                return said("(through %1) %2", way.parts, joined(names));
            }
        }
    }
    return said("a net of its own");
}

}  // namespace

std::string roleWords(const Circuit& circuit, const Part& part) {
    const std::string kind = said(kindName(part.kind));
    if (part.nets.size() == 2) {
        return said("%1 between %2 and %3", kind, placeOf(circuit, part.nets[0], part.id),
                    placeOf(circuit, part.nets[1], part.id));
    }
    std::string pins;
    for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
        const std::string name = said(pinName(part.kind, static_cast<int>(pin)));
        pins.append(pins.empty() ? "" : ", ").append(said("%1 at %2", name, placeOf(circuit, part.nets[pin], part.id)));
    }
    return pins.empty() ? kind : said("%1 with %2", kind, pins);
}

}  // namespace ohmwright
