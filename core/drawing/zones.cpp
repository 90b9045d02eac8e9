// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/zones.h"

#include "core/base/said.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"

#include <algorithm>
#include <limits>
#include <set>
#include <utility>

namespace ohmwright {
namespace {

Error refusal(std::string message) {
    return {ErrorCode::invalidInput, std::move(message), {}};
}

bool isInField(const Circuit& circuit, const GridBox& box) {
    const double x = (box.left + box.right) / 2;
    const double y = (box.top + box.bottom) / 2;
    return std::any_of(circuit.drawing.fields.begin(), circuit.drawing.fields.end(), [x, y](const Field& field) {
        return x > field.topLeft.x && x < field.bottomRight.x && y > field.topLeft.y && y < field.bottomRight.y;
    });
}

std::vector<PartId> allParts(const Circuit& circuit) {
    std::vector<PartId> ids;
    for (const Part& part : circuit.parts) {
        ids.push_back(part.id);
    }
    return ids;
}

/// The nets at the border where a stage begins: what the one before gives and what it takes.
struct Border {
    NetName output;
    NetName input;
};

std::map<int, Border> bordersOf(const std::vector<Stage>& stages) {
    std::map<int, Border> borders;
    for (std::size_t i = 1; i < stages.size(); ++i) {
        borders[stages[i].firstColumn] = {stages[i - 1].output, stages[i].input};
    }
    return borders;
}

/// Stages in their columns' order, with their parts; borders that are new are found, the others stay as they were set.
Edited rezoned(const Circuit& before, Circuit circuit) {
    std::vector<Stage>& stages = circuit.stages;
    std::stable_sort(stages.begin(), stages.end(),
                     [](const Stage& a, const Stage& b) { return a.firstColumn < b.firstColumn; });
    settleInZones(circuit, allParts(circuit));
    const std::map<int, Border> known = bordersOf(before.stages);
    for (std::size_t i = 0; i < stages.size(); ++i) {
        if (i == 0) {
            const Part* source = findPart(circuit, circuit.ports.source);
            stages[i].input = source && !source->nets.empty() ? source->nets.front() : NetName();
        } else {
            const auto border = known.find(stages[i].firstColumn);
            const NetName net = borderNet(circuit, stages[i].firstColumn);
            stages[i - 1].output = border == known.end() ? net : border->second.output;
            stages[i].input = border == known.end() ? net : border->second.input;
        }
        if (i + 1 == stages.size()) {
            stages[i].output = circuit.ports.output;
        }
    }
    return {std::move(circuit), {}, {}};
}

/// Supplies and ground: nets that a source holds.
std::set<NetName> heldNets(const Circuit& circuit) {
    std::set<NetName> held{NetName(groundNet)};
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::voltageSource && part.acAmplitude == 0.0) {
            held.insert(part.nets.begin(), part.nets.end());
        }
    }
    for (const Flag& flag : circuit.drawing.flags) {
        if (flag.kind == FlagKind::supply) {
            held.insert(flag.net);
        }
    }
    return held;
}

/// Parts that lie between a net and the source; nets that no part leads to are left out.
std::map<NetName, int> partsFromSource(const Circuit& circuit, const std::set<NetName>& held) {
    std::map<NetName, int> away;
    const Part* source = findPart(circuit, circuit.ports.source);
    if (!source) {
        return away;
    }
    std::vector<NetName> queue;
    const auto reach = [&](const NetName& net, int distance) {
        if (!held.contains(net) && away.try_emplace(net, distance).second) {
            queue.push_back(net);
        }
    };
    for (const NetName& net : source->nets) {
        reach(net, 0);
    }
    for (std::size_t next = 0; next < queue.size(); ++next) {
        const NetName here = queue[next];
        for (const Part& part : circuit.parts) {
            if (std::find(part.nets.begin(), part.nets.end(), here) != part.nets.end()) {
                for (const NetName& net : part.nets) {
                    reach(net, away.at(here) + 1);
                }
            }
        }
    }
    return away;
}

/// Everything from a column or a row on, elsewhere. What stands across the line leaves its wires, which is told by
/// whoever joins it anew.
Circuit shifted(const Circuit& circuit, GridPoint at, GridPoint by) {
    const auto shift = [at, by](GridPoint& point) {
        point.x += point.x >= at.x ? by.x : 0;
        point.y += point.y >= at.y ? by.y : 0;
    };
    Circuit edited = circuit;
    // A part moves whole.
    for (Part& part : edited.parts) {
        if (part.placement) {
            const GridBox box = bodyBox(part);
            part.placement->at.x += box.left >= at.x ? by.x : 0;
            part.placement->at.y += box.top >= at.y ? by.y : 0;
        }
    }
    for (Wire& wire : edited.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), shift);
    }
    for (Flag& flag : edited.drawing.flags) {
        shift(flag.at);
    }
    for (Field& field : edited.drawing.fields) {
        shift(field.topLeft);
        shift(field.bottomRight);
    }
    for (Stage& stage : edited.stages) {
        stage.firstColumn += stage.firstColumn >= at.x && stage.firstColumn > 0 ? by.x : 0;
    }
    edited.drawing.size.x += by.x;
    edited.drawing.size.y += by.y;
    return edited;
}

}  // namespace

std::optional<std::size_t> stageAt(const Circuit& circuit, int column) {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < circuit.stages.size(); ++i) {
        if (i == 0 || circuit.stages[i].firstColumn <= column) {
            found = i;
        }
    }
    return found;
}

void settleInZones(Circuit& circuit, const std::vector<PartId>& parts) {
    if (circuit.stages.empty()) {
        return;
    }
    for (const PartId& id : parts) {
        const Part* part = findPart(circuit, id);
        if (!part || !part->placement) {
            continue;
        }
        const GridBox box = bodyBox(*part);
        const std::size_t none = circuit.stages.size();
        const std::size_t zone = isInField(circuit, box)
                                     ? none
                                     : stageAt(circuit, static_cast<int>((box.left + box.right) / 2)).value_or(none);
        for (std::size_t i = 0; i < circuit.stages.size(); ++i) {
            std::vector<PartId>& held = circuit.stages[i].parts;
            const auto place = std::find(held.begin(), held.end(), id);
            if (zone == i && place == held.end()) {
                held.push_back(id);
            } else if (zone != i && place != held.end()) {
                held.erase(place);
            }
        }
    }
}

NetName borderNet(const Circuit& circuit, int column) {
    const std::set<NetName> held = heldNets(circuit);
    std::map<NetName, std::pair<bool, bool>> sides;
    for (const Part& part : circuit.parts) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            const bool isLeft = pinPoint(part, pin).x < column;
            auto& [left, right] = sides[part.nets[static_cast<std::size_t>(pin)]];
            (isLeft ? left : right) = true;
        }
    }
    const std::map<NetName, int> away = partsFromSource(circuit, held);
    NetName best;
    int fewest = std::numeric_limits<int>::max();
    for (const auto& [net, where] : sides) {
        const auto distance = away.find(net);
        if (where.first && where.second && distance != away.end() && distance->second < fewest) {
            best = net;
            fewest = distance->second;
        }
    }
    return best;
}

EditResult beginStage(const Circuit& circuit, int column, const std::string& name) {
    if (name.empty()) {
        return refusal(said("A stage needs a name, such as Input buffer."));
    }
    const int at = circuit.stages.empty() ? 0 : column;
    if (!isOnSheet({at, 0})) {
        return refusal(said("A stage begins at a column of the sheet: 0 to %1.", largestGrid));
    }
    for (const Stage& stage : circuit.stages) {
        if (stage.firstColumn == at) {
            return refusal(said("The stage %1 begins here already.", stage.name));
        }
        if (&stage == &circuit.stages.front() && at < stage.firstColumn) {
            return refusal(said("The stage %1 is the first: begin the new one to the right of it.", stage.name));
        }
    }
    Circuit edited = circuit;
    edited.stages.push_back({name, {}, {}, {}, at});
    return rezoned(circuit, std::move(edited));
}

EditResult endStage(const Circuit& circuit, std::size_t index) {
    if (index >= circuit.stages.size()) {
        return refusal(said("There is no stage here."));
    }
    Circuit edited = circuit;
    edited.stages.erase(edited.stages.begin() + static_cast<std::ptrdiff_t>(index));
    if (index == 0 && !edited.stages.empty()) {
        edited.stages.front().firstColumn = 0;
    }
    return rezoned(circuit, std::move(edited));
}

EditResult nameStage(const Circuit& circuit, std::size_t index, const std::string& name) {
    if (index >= circuit.stages.size() || name.empty()) {
        return refusal(name.empty() ? said("A stage needs a name, such as Input buffer.")
                                    : said("There is no stage here."));
    }
    Circuit edited = circuit;
    edited.stages[index].name = name;
    return Edited{std::move(edited), {}, {}};
}

EditResult moveStage(const Circuit& circuit, std::size_t index, int column) {
    const std::vector<Stage>& stages = circuit.stages;
    if (index == 0 || index >= stages.size()) {
        return refusal(said("The first stage begins at the sheet's edge: move the next one."));
    }
    const int left = stages[index - 1].firstColumn;
    const int right = index + 1 < stages.size() ? stages[index + 1].firstColumn : circuit.drawing.size.x;
    if (column <= left || column >= right) {
        return refusal(said("A stage cannot pass its neighbours."));
    }
    Circuit edited = circuit;
    edited.stages[index].firstColumn = column;
    return rezoned(circuit, std::move(edited));
}

EditResult frameField(const Circuit& circuit, const Field& field) {
    Field framed = field;
    framed.topLeft = {std::min(field.topLeft.x, field.bottomRight.x), std::min(field.topLeft.y, field.bottomRight.y)};
    framed.bottomRight = {std::max(field.topLeft.x, field.bottomRight.x),
                          std::max(field.topLeft.y, field.bottomRight.y)};
    if (field.name.empty()) {
        return refusal(said("A field needs a name, such as Supply."));
    }
    if (framed.topLeft.x == framed.bottomRight.x || framed.topLeft.y == framed.bottomRight.y) {
        return refusal(said("A field needs width and height: open a box first."));
    }
    if (!isOnSheet(framed.topLeft) || !isOnSheet(framed.bottomRight)) {
        return refusal(said("The frame is off the sheet: both corners must be on it."));
    }
    Circuit edited = circuit;
    edited.drawing.fields.push_back(framed);
    return rezoned(circuit, std::move(edited));
}

EditResult unframeField(const Circuit& circuit, std::size_t index) {
    if (index >= circuit.drawing.fields.size()) {
        return refusal(said("There is no field here."));
    }
    Circuit edited = circuit;
    edited.drawing.fields.erase(edited.drawing.fields.begin() + static_cast<std::ptrdiff_t>(index));
    return rezoned(circuit, std::move(edited));
}

EditResult makeRoom(const Circuit& circuit, GridPoint at, GridPoint by) {
    if (by.x < 0 || by.y < 0) {
        return refusal(said("Room is made to the right and downwards."));
    }
    if (circuit.drawing.size.x + by.x > largestGrid || circuit.drawing.size.y + by.y > largestGrid) {
        return refusal(said("The sheet is as large as it can be."));
    }
    const Circuit edited = shifted(circuit, at, by);
    Rejoined done = rejoin(edited);
    if (!done.goneInto.empty() || done.circuit != edited) {
        return refusal(
            said("Room cannot be made here without parting a part from its wires: choose a column between parts."));
    }
    return Edited{edited, {}, {}};
}

}  // namespace ohmwright
