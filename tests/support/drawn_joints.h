/// What a drawing joins, found by a joiner of the tests' own: it knows nothing of core's rejoin, which every edit ends
/// by.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/outline.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace ohmwright::test {

/// A pin, a wire or a sign: the points at which it can be met, and what is drawn of it.
struct DrawnThing {
    std::string name;
    NetName net;
    std::vector<GridPoint> ends;
    std::string sign;  ///< "ground", or a supply's name: all of one are joined.
    std::size_t group = 0;
};

inline bool lieOn(GridPoint point, const std::vector<GridPoint>& way) {
    for (std::size_t i = 0; i < way.size(); ++i) {
        const GridPoint from = way[i == 0 ? 0 : i - 1];
        const GridPoint to = way[i];
        const bool inColumns = std::min(from.x, to.x) <= point.x && point.x <= std::max(from.x, to.x);
        const bool inRows = std::min(from.y, to.y) <= point.y && point.y <= std::max(from.y, to.y);
        if (inColumns && inRows) {
            return true;
        }
    }
    return false;
}

inline bool meet(const DrawnThing& a, const DrawnThing& b) {
    const auto touches = [](const DrawnThing& one, const DrawnThing& other) {
        return std::any_of(one.ends.begin(), one.ends.end(),
                           [&other](GridPoint end) { return lieOn(end, other.ends); });
    };
    return touches(a, b) || touches(b, a) || (!a.sign.empty() && a.sign == b.sign);
}

inline std::vector<DrawnThing> drawnThings(const Circuit& circuit) {
    std::vector<DrawnThing> things;
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            things.push_back({part.reference + " pin " + std::to_string(pin + 1),
                              part.nets[static_cast<std::size_t>(pin)],
                              {pinPoint(part, pin)},
                              {},
                              0});
        }
    }
    for (const Wire& wire : circuit.drawing.wires) {
        things.push_back({"a wire", wire.net, wire.corners, {}, 0});
    }
    for (const Flag& flag : circuit.drawing.flags) {
        if (flag.kind != FlagKind::note) {
            std::string sign = flag.kind == FlagKind::ground ? "0" : "";
            if (flag.kind == FlagKind::supply) {
                sign = flag.text.empty() ? flag.net : flag.text;
                std::erase(sign, ' ');
            }
            things.push_back({"a sign", flag.net, {flag.at}, sign, 0});
        }
    }
    return things;
}

/// One sentence a broken rule: what meets is one net, what does not meet is two.
inline std::vector<std::string> jointFaults(const Circuit& circuit) {
    std::vector<DrawnThing> things = drawnThings(circuit);
    for (std::size_t i = 0; i < things.size(); ++i) {
        things[i].group = i;
    }
    for (std::size_t i = 0; i < things.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (things[i].group != things[j].group && meet(things[i], things[j])) {
                const std::size_t gone = things[i].group;
                for (DrawnThing& thing : things) {
                    thing.group = thing.group == gone ? things[j].group : thing.group;
                }
            }
        }
    }
    std::vector<std::string> faults;
    std::map<NetName, const DrawnThing*> firstOf;
    std::map<std::size_t, const DrawnThing*> firstIn;
    for (const DrawnThing& thing : things) {
        const DrawnThing& ofNet = *firstOf.try_emplace(thing.net, &thing).first->second;
        const DrawnThing& inGroup = *firstIn.try_emplace(thing.group, &thing).first->second;
        if (ofNet.group != thing.group) {
            faults.push_back(thing.name + " of net " + thing.net + " does not meet " + ofNet.name);
        }
        if (inGroup.net != thing.net) {
            faults.push_back(thing.name + " of net " + thing.net + " meets " + inGroup.name + " of net " + inGroup.net);
        }
    }
    return faults;
}

}  // namespace ohmwright::test
