// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/sketch.h"

#include "core/base/value_text.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

/// Widths of the look's letters, bold 13 px and plain 12 px, rounded up [grid steps of 20 px].
constexpr double letterWidth = 0.42;
constexpr std::size_t lettersOfLaw = 20;
constexpr double besideBody = 1.2;  // half of both bodies, the gap, and air after the words

GridBox moved(const GridBox& box, int dx, int dy) {
    return {box.left + dx, box.top + dy, box.right + dx, box.bottom + dy};
}

bool overlap(const GridBox& a, const GridBox& b) {
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

}  // namespace

void Sketch::move(int dx, int dy) {
    const auto shift = [dx, dy](GridPoint& point) {
        point.x += dx;
        point.y += dy;
    };
    for (auto& [index, placement] : parts) {
        shift(placement.at);
    }
    for (Flag& flag : flags) {
        shift(flag.at);
    }
    for (Wire& wire : wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), shift);
    }
    for (GridBox& box : taken) {
        box = moved(box, dx, dy);
    }
    for (int& zone : zones) {
        zone += dx;
    }
    for (auto& [net, line] : lines) {
        line = {line.y + dy, line.left + dx, line.right + dx};
    }
}

void Sketch::add(const Sketch& other) {
    parts.insert(other.parts.begin(), other.parts.end());
    flags.insert(flags.end(), other.flags.begin(), other.flags.end());
    wires.insert(wires.end(), other.wires.begin(), other.wires.end());
    taken.insert(taken.end(), other.taken.begin(), other.taken.end());
    lines.insert(other.lines.begin(), other.lines.end());
    zones.insert(zones.end(), other.zones.begin(), other.zones.end());
}

bool Sketch::meets(const Sketch& other, int dx, int dy) const {
    return std::any_of(other.taken.begin(), other.taken.end(), [&](const GridBox& theirs) {
        const GridBox there = moved(theirs, dx, dy);
        if (std::any_of(zones.begin(), zones.end(),
                        [&there](int zone) { return there.left + 0.6 < zone && there.right - 0.6 > zone; })) {
            return true;
        }
        return std::any_of(taken.begin(), taken.end(), [&](const GridBox& ours) { return overlap(ours, there); });
    });
}

double Sketch::lowestBetween(double left, double right, double otherwise) const {
    double lowest = otherwise;
    for (const GridBox& box : taken) {
        if (box.left < right && left < box.right) {
            lowest = std::max(lowest, box.bottom);
        }
    }
    return lowest;
}

GridBox Sketch::bounds() const {
    if (taken.empty()) {
        return {};
    }
    GridBox all = taken.front();
    for (const GridBox& box : taken) {
        all = {std::min(all.left, box.left), std::min(all.top, box.top), std::max(all.right, box.right),
               std::max(all.bottom, box.bottom)};
    }
    return all;
}

int wordColumns(const Part& part) {
    // A law is cut off on the map; values have their room in either style, so that a drawing hangs on no setting.
    const std::string value = !part.law.empty() ? std::string(lettersOfLaw, 'x')
                              : part.model.empty()
                                  ? formatPartValue({part.value, unitOf(part.kind)}, ValueStyle::letterBehind)
                                  : part.model;
    const std::string name = displayName(part);
    const double letters = static_cast<double>(std::max(value.size(), name.size()));
    return std::max(3, static_cast<int>(std::ceil(besideBody + letters * letterWidth)));
}

int usualSpan(const Part& part, bool isTight) {
    return isTight || part.kind == PartKind::potentiometer ? 2 : 3;
}

Placement placementAlong(const Part& part, GridPoint at, int span, bool upright, bool reversed) {
    Placement placement;
    placement.span = span;
    placement.quarterTurns = (upright ? 1 : 0) + (reversed ? 2 : 0);
    placement.at = at;
    if (reversed) {
        (upright ? placement.at.y : placement.at.x) += span;
    }
    // A rheostat's wiper below the level part, to the right of the upright one.
    placement.mirrored = part.kind == PartKind::potentiometer && upright != reversed;
    return placement;
}

std::string signText(const NetName& net) {
    return net;
}

}  // namespace ohmwright
