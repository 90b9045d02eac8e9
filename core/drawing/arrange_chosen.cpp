// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/arrange.h"
#include "core/drawing/chosen_parts.h"
#include "core/drawing/laid_beside.h"
#include "core/drawing/legibility.h"
#include "core/drawing/rail_signs.h"
#include "core/drawing/route.h"
#include "core/drawing/sheet.h"
#include "core/drawing/zones.h"

#include <algorithm>

namespace ohmwright {
namespace {

Circuit laidOut(const Circuit& circuit, const ChosenParts& selection, Parallels parallels) {
    const Rails rails = railsOf(circuit);
    const Sketch added =
        laidBeside(selection.taken(), rails, selection.netsOfTheRest(), selection.standing(), parallels);
    Circuit drawn = selection.rest();
    selection.put(added, drawn);
    addMissingSigns(drawn, rails, std::vector<bool>(drawn.parts.size()));
    keepSignTexts(circuit.drawing, drawn.drawing);
    joinWithWires(drawn, added.taken);
    const GridPoint size = drawn.drawing.size;
    fitSheet(drawn, 1);  // a sign that stands in the second row stays there
    drawn.drawing.size = {std::max(size.x, drawn.drawing.size.x), std::max(size.y, drawn.drawing.size.y)};
    std::vector<PartId> all;
    for (const Part& part : drawn.parts) {
        all.push_back(part.id);
    }
    settleInZones(drawn, all);
    return drawn;
}

bool allHavePlaces(const Circuit& circuit, const std::vector<PartId>& chosen) {
    return std::all_of(chosen.begin(), chosen.end(), [&circuit](const PartId& id) {
        const Part* part = findPart(circuit, id);
        return !part || part->placement || id == circuit.ports.load;
    });
}

/// Whether a drawing reads better than another: sound, no more bends and crossings, and less of everything.
bool readsBetter(const Legibility& after, const Legibility& before) {
    if (after.isSound() != before.isSound()) {
        return after.isSound();
    }
    // A bend or a crossing stops the eye as long as some steps of wire (our choice).
    constexpr int perBend = 2;
    constexpr int perCrossing = 6;
    constexpr int perJoint = 2;
    const auto cost = [](const Legibility& read) {
        return perBend * read.bends + perCrossing * read.crossings + perJoint * read.jointsOfFour + read.wireLength;
    };
    return after.bends + after.crossings <= before.bends + before.crossings && cost(after) < cost(before);
}

}  // namespace

Circuit arrange(const Circuit& circuit, const std::vector<PartId>& chosen) {
    const ChosenParts selection(circuit, chosen);
    Circuit best = laidOut(circuit, selection, Parallels::each);
    Legibility bestRead = legibilityOf(best);
    const auto consider = [&best, &bestRead](Circuit other) {
        const Legibility read = legibilityOf(other);
        if (readsBetter(read, bestRead)) {
            best = std::move(other);
            bestRead = read;
        }
    };
    consider(laidOut(circuit, selection, Parallels::asLadders));
    if (allHavePlaces(circuit, chosen) && !readsBetter(bestRead, legibilityOf(circuit))) {
        return circuit;
    }
    return best;
}

}  // namespace ohmwright
