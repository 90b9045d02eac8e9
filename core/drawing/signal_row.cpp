// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/signal_row.h"

#include "core/drawing/row_builder.h"

#include <algorithm>

namespace ohmwright {

int levelSpan(const Part& part) {
    return usualSpan(part, part.kind == PartKind::capacitor);
}

Sketch drawRow(const RowInput& input, const NetName& start, const std::vector<SignalStep>& way, Progress& progress,
               const std::vector<std::size_t>& zones) {
    return RowBuilder(input, progress).build(start, way, zones);
}

Sketch drawLevel(const RowInput& input, const Branch& branch) {
    Sketch sketch;
    int x = 0;
    for (const Branch::Element& element : branch.elements) {
        const Part& part = input.circuit.parts[element.part];
        const int span = levelSpan(part);
        sketch.parts[element.part] = placementAlong(part, {x, 0}, span, false, element.reversed);
        sketch.taken.push_back({x - 0.5, -0.8, x + span + 0.5, 0.8});
        sketch.taken.push_back({x + 0.2, -1.7, x + span - 0.2, 0.0});
        x += span;
    }
    return sketch;
}

void hang(const RowInput& input, const Branch& branch, GridPoint at, bool isUp, Sketch& sketch, bool isTight) {
    isTight = isTight || branch.elements.size() > 1;
    int y = at.y;
    for (const Branch::Element& element : branch.elements) {
        const Part& part = input.circuit.parts[element.part];
        const int span = usualSpan(part, isTight);
        const int top = isUp ? y - span : y;
        sketch.parts[element.part] = placementAlong(part, {at.x, top}, span, true, element.reversed != isUp);
        sketch.taken.push_back({at.x - 0.8, top - 0.4, at.x + 0.8, top + span + 0.4});
        sketch.taken.push_back(
            {at.x - wordColumns(part) + 0.2, top + span / 2.0 - 0.9, double(at.x), top + span / 2.0 + 0.9});
        y += isUp ? -span : span;
    }
    const bool isGround = branch.to == groundNet;
    sketch.flags.push_back(
        {isGround ? FlagKind::ground : FlagKind::supply, branch.to, {at.x, y}, isGround ? "" : signText(branch.to)});
    sketch.taken.push_back(isUp ? GridBox{at.x - 0.9, y - 1.3, at.x + 0.9, double(y)}
                                : GridBox{at.x - 0.6, double(y), at.x + 0.6, y + 1.0});
}

}  // namespace ohmwright
