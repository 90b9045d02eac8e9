// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/part_match.h"

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
        return {"ground"};
    }
    std::vector<std::string> names;
    if (net == circuit.ports.jack) {
        names.emplace_back("the input jack");
    }
    if (net == circuit.ports.output) {
        names.emplace_back("the output");
    }
    bool isSupply = false;
    for (const Part& part : circuit.parts) {
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            if (part.nets[pin] != net || part.id == apart || !isLandmark(part.kind)) {
                continue;
            }
            const std::string name(pinName(part.kind, static_cast<int>(pin)));
            // Several devices hang on a rail: the rail is what names it.
            isSupply = isSupply || (part.kind == PartKind::opamp && pin >= 3);
            names.push_back(part.reference + " " + name);
        }
    }
    if (isSupply) {
        return {"the supply"};
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

/// A net by its landmarks, or by the nearest one behind parts of two legs.
std::string placeOf(const Circuit& circuit, const NetName& net, const PartId& apart) {
    if (const auto names = landmarksOf(circuit, net, apart); !names.empty()) {
        return joined(names);
    }
    struct Way {
        NetName net;
        std::string parts;
    };
    std::vector<Way> ways{{net, ""}};
    std::set<NetName> seen{net};
    for (std::size_t distance = 0; distance < furthest; ++distance) {
        std::vector<Way> next;
        for (const Way& way : ways) {
            for (const Part& part : circuit.parts) {
                const auto at = std::find(part.nets.begin(), part.nets.end(), way.net);
                if (part.id == apart || at == part.nets.end() || isLandmark(part.kind)) {
                    continue;
                }
                for (const NetName& far : part.nets) {
                    if (seen.insert(far).second) {
                        next.push_back({far, way.parts + (way.parts.empty() ? "" : " and ") + part.reference});
                    }
                }
            }
        }
        for (const Way& way : next) {
            if (const auto names = landmarksOf(circuit, way.net, apart); !names.empty()) {
                return "(through " + way.parts + ") " + joined(names);
            }
        }
        ways = std::move(next);
    }
    return "a net of its own";
}

}  // namespace

std::string roleWords(const Circuit& circuit, const Part& part) {
    std::string words(kindName(part.kind));
    if (part.nets.size() == 2) {
        return words + " between " + placeOf(circuit, part.nets[0], part.id) + " and " +
               placeOf(circuit, part.nets[1], part.id);
    }
    std::string_view before = " with ";
    for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
        words.append(before).append(pinName(part.kind, static_cast<int>(pin))).append(" at ");
        words += placeOf(circuit, part.nets[pin], part.id);
        before = ", ";
    }
    return words;
}

}  // namespace ohmwright
