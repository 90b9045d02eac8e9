/// What every drawn circuit keeps, told by core's own outlines; needs ohmwright_core_drawing.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"

#include <algorithm>
#include <string>
#include <vector>

namespace ohmwright::test {

inline bool isOnSegment(GridPoint point, GridPoint from, GridPoint to) {
    const auto between = [](int value, int a, int b) { return value >= std::min(a, b) && value <= std::max(a, b); };
    return between(point.x, from.x, to.x) && between(point.y, from.y, to.y);
}

/// Whether a straight wire runs through the inside of a box.
inline bool runsThrough(GridPoint from, GridPoint to, const GridBox& box) {
    const double left = std::min(from.x, to.x);
    const double right = std::max(from.x, to.x);
    const double top = std::min(from.y, to.y);
    const double bottom = std::max(from.y, to.y);
    return right > box.left && left < box.right && bottom > box.top && top < box.bottom;
}

/// Wires: right angles, on the sheet, of two nets never at one point, under no body.
inline void wireFaults(const Circuit& circuit, std::vector<std::string>& faults) {
    const GridPoint size = circuit.drawing.size;
    for (const Wire& wire : circuit.drawing.wires) {
        for (std::size_t i = 0; i < wire.corners.size(); ++i) {
            const GridPoint corner = wire.corners[i];
            if (corner.x < 0 || corner.y < 0 || corner.x > size.x || corner.y > size.y) {
                faults.push_back("a wire of " + wire.net + " leaves the sheet");
            }
            for (const Wire& other : circuit.drawing.wires) {
                for (std::size_t k = 1; other.net != wire.net && k < other.corners.size(); ++k) {
                    if (isOnSegment(corner, other.corners[k - 1], other.corners[k])) {
                        faults.push_back("wires of " + wire.net + " and " + other.net + " share a point");
                    }
                }
            }
            if (i == 0) {
                continue;
            }
            const GridPoint before = wire.corners[i - 1];
            if ((before.x == corner.x) == (before.y == corner.y)) {
                faults.push_back("a wire of " + wire.net + " has no right angle");
            }
            for (const Part& part : circuit.parts) {
                if (part.placement && runsThrough(before, corner, bodyBox(part))) {
                    faults.push_back("a wire of " + wire.net + " runs under " + part.reference);
                }
            }
        }
    }
}

/// Parts: a place each but for what is drawn as words, inside its stage's zone, no body over another.
inline void partFaults(const Circuit& circuit, std::vector<std::string>& faults) {
    const auto& stages = circuit.stages;
    for (const Part& part : circuit.parts) {
        const bool isOfWords = part.reference == "RLOAD" || part.kind == PartKind::currentSource;
        if (part.placement.has_value() == isOfWords) {
            faults.push_back(part.reference + (isOfWords ? " is drawn" : " has no place"));
        }
        for (const Part& other : circuit.parts) {
            const GridBox one = bodyBox(part);
            const GridBox two = bodyBox(other);
            if (part.placement && other.placement && part.id < other.id && one.left < two.right &&
                two.left < one.right && one.top < two.bottom && two.top < one.bottom) {
                faults.push_back(part.reference + " lies over " + other.reference);
            }
        }
    }
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const double left = stages[i].firstColumn;
        const double right = i + 1 < stages.size() ? stages[i + 1].firstColumn : circuit.drawing.size.x;
        for (const PartId& id : stages[i].parts) {
            const Part* part = findPart(circuit, id);
            if (part == nullptr) {
                faults.push_back(stages[i].name + " has no part " + id);
            } else if (part->placement) {
                const GridBox box = bodyBox(*part);
                if (box.left < left || box.right > right) {
                    faults.push_back(part->reference + " stands outside " + stages[i].name);
                }
            }
        }
    }
}

/// One sentence a broken rule; empty for a sound drawing.
inline std::vector<std::string> drawingFaults(const Circuit& circuit) {
    std::vector<std::string> faults;
    wireFaults(circuit, faults);
    partFaults(circuit, faults);
    // What the lines and signs join is what the parts' nets say: neither a gap nor a short.
    const Circuit drawn = rejoin(circuit).circuit;
    for (std::size_t i = 0; i < circuit.parts.size(); ++i) {
        if (drawn.parts[i].nets != circuit.parts[i].nets) {
            faults.push_back(circuit.parts[i].reference + " is drawn on other nets than it has");
        }
    }
    return faults;
}

}  // namespace ohmwright::test
