// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/relocate.h"

#include "core/base/said.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/zones.h"

#include <algorithm>
#include <functional>
#include <set>
#include <utility>

namespace ohmwright {
namespace {

Error refusal(std::string message, std::string where = {}) {
    return {ErrorCode::invalidInput, std::move(message), std::move(where)};
}

using Key = std::pair<int, int>;
Key keyOf(GridPoint point) {
    return {point.x, point.y};
}

template <class Entry>
bool contains(const std::vector<Entry>& entries, const Entry& entry) {
    return std::find(entries.begin(), entries.end(), entry) != entries.end();
}

/// How wires are drawn out: the two ways round a corner.
enum class Bend { keepFar, keepNear };

/// One drawing before and after its picked parts went elsewhere.
class Relocation {
public:
    /// @param placed  where a picked part goes.
    /// @param moved   where any point that goes along goes.
    Relocation(const Circuit& circuit, const Picked& picked, std::function<Placement(const Part&)> placed,
               std::function<GridPoint(GridPoint)> moved)
        : m_circuit(circuit), m_picked(picked), m_placed(std::move(placed)), m_moved(std::move(moved)) {
        goAlong();
    }

    [[nodiscard]] EditResult done(Bend bend) const;

private:
    void goAlong();
    [[nodiscard]] bool isPicked(const PartId& id) const { return contains(m_picked.parts, id); }
    [[nodiscard]] bool standsStill(GridPoint point, std::size_t exceptWire) const;
    [[nodiscard]] bool isHeldByMoved(GridPoint point) const;
    void drawOut(Circuit& after, std::size_t wire, Bend bend) const;
    [[nodiscard]] std::vector<GridPoint> wayTo(const Circuit& after, const Wire& wire, GridPoint end, Bend bend) const;
    void addLinks(Circuit& after, Bend bend) const;
    [[nodiscard]] Result<void> check(const Circuit& after) const;

    const Circuit& m_circuit;
    Picked m_picked;
    std::function<Placement(const Part&)> m_placed;
    std::function<GridPoint(GridPoint)> m_moved;
    std::map<Key, GridPoint> m_pins;  ///< Of picked parts: where each goes.
};

/// Wires between moved pins and flags that hang on them alone are picked as well.
void Relocation::goAlong() {
    for (const Part& part : m_circuit.parts) {
        if (part.placement && isPicked(part.id)) {
            Part after = part;
            after.placement = m_placed(part);
            for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
                m_pins[keyOf(pinPoint(part, pin))] = pinPoint(after, pin);
            }
        }
    }
    const std::vector<Wire>& wires = m_circuit.drawing.wires;
    const auto follows = [this](GridPoint point) {
        const auto pin = m_pins.find(keyOf(point));
        return pin != m_pins.end() && pin->second == m_moved(point);
    };
    for (std::size_t i = 0; i < wires.size(); ++i) {
        const std::vector<GridPoint>& corners = wires[i].corners;
        if (!contains(m_picked.wires, i) && corners.size() > 1 && follows(corners.front()) && follows(corners.back()) &&
            !standsStill(corners.front(), i) && !standsStill(corners.back(), i)) {
            m_picked.wires.push_back(i);
        }
    }
    for (std::size_t i = 0; i < m_circuit.drawing.flags.size(); ++i) {
        const GridPoint at = m_circuit.drawing.flags[i].at;
        if (!contains(m_picked.flags, i) && m_pins.contains(keyOf(at)) && !standsStill(at, wires.size())) {
            m_picked.flags.push_back(i);
        }
    }
}

/// Whether something that does not move holds a point: a pin, a flag that was not picked, a wire passing through or
/// ending there (but for one, which asks).
bool Relocation::standsStill(GridPoint point, std::size_t exceptWire) const {
    for (const Part& part : m_circuit.parts) {
        const int drawn = part.placement && !isPicked(part.id) ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            if (pinPoint(part, pin) == point) {
                return true;
            }
        }
    }
    const std::vector<Wire>& wires = m_circuit.drawing.wires;
    for (std::size_t i = 0; i < wires.size(); ++i) {
        const bool isEnd = wires[i].corners.front() == point || wires[i].corners.back() == point;
        if (i != exceptWire && !contains(m_picked.wires, i) && !isEnd && isOnWire(point, wires[i])) {
            return true;
        }
    }
    return false;
}

bool Relocation::isHeldByMoved(GridPoint point) const {
    if (m_pins.contains(keyOf(point))) {
        return true;
    }
    const Drawing& drawing = m_circuit.drawing;
    return std::any_of(m_picked.wires.begin(), m_picked.wires.end(),
                       [&](std::size_t wire) { return isOnWire(point, drawing.wires[wire]); }) ||
           std::any_of(m_picked.flags.begin(), m_picked.flags.end(),
                       [&](std::size_t flag) { return drawing.flags[flag].at == point; });
}

/// The ends of a wire that stays follow what they stood on, unless something else holds them.
void Relocation::drawOut(Circuit& after, std::size_t wire, Bend bend) const {
    Wire drawn = m_circuit.drawing.wires[wire];
    for (const bool atFront : {true, false}) {
        const GridPoint old = atFront ? drawn.corners.front() : drawn.corners.back();
        if (!isHeldByMoved(old) || standsStill(old, wire)) {
            continue;
        }
        const auto pin = m_pins.find(keyOf(old));
        if (atFront) {
            std::reverse(drawn.corners.begin(), drawn.corners.end());
        }
        drawn.corners = wayTo(after, drawn, pin != m_pins.end() ? pin->second : m_moved(old), bend);
        if (drawn.corners.size() == 1) {
            drawn.corners.push_back(drawn.corners.front());
        }
        if (atFront) {
            std::reverse(drawn.corners.begin(), drawn.corners.end());
        }
    }
    after.drawing.wires[wire] = drawn;
}

/// The wire with its last corner elsewhere: from the corner before it on in the old direction or first across, else on
/// a way of its own from the first corner; the first way that runs under no body and touches no pin of another net.
std::vector<GridPoint> Relocation::wayTo(const Circuit& after, const Wire& wire, GridPoint end, Bend bend) const {
    std::vector<GridPoint> kept = wire.corners;
    const bool wasLevel = kept[kept.size() - 2].y == kept.back().y;
    kept.back() = end;
    const bool levelFirst = (bend == Bend::keepFar) == wasLevel;
    const std::vector<GridPoint> anew{wire.corners.front(), end};
    const std::vector<std::vector<GridPoint>> ways{rightAngled(kept, levelFirst), rightAngled(kept, !levelFirst),
                                                   rightAngled(anew, levelFirst), rightAngled(anew, !levelFirst)};
    const auto clear = [&after, &wire](const std::vector<GridPoint>& corners) {
        if (partUnder(after, corners)) {
            return false;
        }
        const Wire way{wire.net, corners};
        return std::none_of(after.parts.begin(), after.parts.end(), [&way](const Part& part) {
            const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
            for (int pin = 0; pin < drawn; ++pin) {
                if (part.nets[static_cast<std::size_t>(pin)] != way.net && isOnWire(pinPoint(part, pin), way)) {
                    return true;
                }
            }
            return false;
        });
    };
    const auto found = std::find_if(ways.begin(), ways.end(), clear);
    return found == ways.end() ? ways.front() : *found;
}

/// Where a moved pin stood on something that stays, a wire leads back there.
void Relocation::addLinks(Circuit& after, Bend bend) const {
    std::set<Key> linked;
    const auto link = [&](GridPoint old, GridPoint now) {
        if (old != now && linked.insert(keyOf(old)).second) {
            after.drawing.wires.push_back({{}, rightAngled({old, now}, bend == Bend::keepFar)});
        }
    };
    const std::size_t noWire = m_circuit.drawing.wires.size();
    for (const auto& [old, now] : m_pins) {
        const GridPoint point{old.first, old.second};
        if (standsStill(point, noWire)) {
            link(point, now);
        }
    }
    // Unmoved pins and wire ends on a wire that moved: the wire's own ends are among them.
    for (const std::size_t i : m_picked.wires) {
        for (const Part& part : m_circuit.parts) {
            const int drawn = part.placement && !isPicked(part.id) ? drawnPinCount(part.kind) : 0;
            for (int pin = 0; pin < drawn; ++pin) {
                const GridPoint at = pinPoint(part, pin);
                if (isOnWire(at, m_circuit.drawing.wires[i])) {
                    link(at, m_moved(at));
                }
            }
        }
        for (const GridPoint end : m_circuit.drawing.wires[i].corners) {
            if (standsStill(end, i)) {
                link(end, m_moved(end));
            }
        }
    }
}

/// "R5 would touch net out there": nets are as they were, and bodies are clear.
Result<void> Relocation::check(const Circuit& after) const {
    for (const PartId& id : m_picked.parts) {
        const Part* part = findPart(after, id);
        Circuit bodies = after;
        bodies.drawing.wires.clear();
        if (part && part->placement) {
            if (const std::string fault = placeFault(bodies, *part); !fault.empty()) {
                return refusal(fault, part->reference);
            }
        }
    }
    const auto crossed = [](const Circuit& circuit) {
        return std::count_if(circuit.drawing.wires.begin(), circuit.drawing.wires.end(),
                             [&circuit](const Wire& wire) { return partUnder(circuit, wire.corners) != nullptr; });
    };
    if (crossed(after) > crossed(m_circuit)) {
        return refusal(said("A wire would run under a part there: choose another place."));
    }
    for (const Wire& wire : after.drawing.wires) {
        for (const GridPoint corner : wire.corners) {
            if (corner.x < 0 || corner.y < 0 || corner.x > largestGrid || corner.y > largestGrid) {
                return refusal(said("That is off the sheet: make room first."));
            }
        }
    }
    return {};
}

EditResult Relocation::done(Bend bend) const {
    Circuit after = m_circuit;
    for (Part& part : after.parts) {
        if (part.placement && isPicked(part.id)) {
            part.placement = m_placed(part);
        }
    }
    Drawing& drawing = after.drawing;
    for (std::size_t i = 0; i < drawing.wires.size(); ++i) {
        if (contains(m_picked.wires, i)) {
            std::vector<GridPoint>& corners = drawing.wires[i].corners;
            std::transform(corners.begin(), corners.end(), corners.begin(), m_moved);
        } else {
            drawOut(after, i, bend);
        }
    }
    for (const std::size_t flag : m_picked.flags) {
        const auto pin = m_pins.find(keyOf(drawing.flags[flag].at));
        drawing.flags[flag].at = pin != m_pins.end() ? pin->second : m_moved(drawing.flags[flag].at);
    }
    addLinks(after, bend);
    std::erase_if(drawing.wires, [](const Wire& wire) {
        return wire.corners.size() == 2 && wire.corners.front() == wire.corners.back();
    });
    if (const Result<void> sound = check(after); !sound) {
        return sound.error();
    }
    Rejoined joined = rejoin(after);
    if (!joined.goneInto.empty()) {
        const auto& [one, other] = *joined.goneInto.begin();
        return refusal(said("Net %1 would touch net %2 there: choose another place.", one, other));
    }
    for (std::size_t i = 0; i < after.parts.size(); ++i) {
        if (joined.circuit.parts[i].nets != m_circuit.parts[i].nets) {
            return refusal(said("%1 would come off its net there: choose another place.", displayName(after.parts[i])),
                           after.parts[i].reference);
        }
    }
    for (const Flag& flag : drawing.flags) {
        if (flag.at.x < 0 || flag.at.y < 0) {
            return refusal(said("That is off the sheet: make room first."));
        }
    }
    settleInZones(joined.circuit, m_picked.parts);
    growSheet(joined.circuit);
    return Edited{std::move(joined.circuit), {}, m_picked};
}

/// Tries one way round the corners, then the other; the first reason is told.
EditResult relocated(const Relocation& relocation) {
    EditResult first = relocation.done(Bend::keepFar);
    if (first) {
        return first;
    }
    EditResult second = relocation.done(Bend::keepNear);
    return second ? second : first;
}

/// The point about which a part turns: it stays, so that four turns are none.
GridPoint middleOf(const Part& part) {
    switch (part.kind) {
        case PartKind::opamp:
            return onDrawing(*part.placement, {2, 1});
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
            return onDrawing(*part.placement, {1, 0});
        case PartKind::triode:
        case PartKind::pentode:
            return onDrawing(*part.placement, {2, 0});
        default:
            return onDrawing(*part.placement, {part.placement->span / 2, 0});
    }
}

/// Middle of what the picked parts cover, on the grid.
GridPoint middleOf(const Circuit& circuit, const Picked& picked) {
    GridPoint least{largestGrid, largestGrid};
    GridPoint most{0, 0};
    const auto hold = [&](GridPoint point) {
        least = {std::min(least.x, point.x), std::min(least.y, point.y)};
        most = {std::max(most.x, point.x), std::max(most.y, point.y)};
    };
    for (const PartId& id : picked.parts) {
        const Part* part = findPart(circuit, id);
        for (int pin = 0; part && part->placement && pin < drawnPinCount(part->kind); ++pin) {
            hold(pinPoint(*part, pin));
        }
    }
    return {(least.x + most.x) / 2, (least.y + most.y) / 2};
}

}  // namespace

EditResult move(const Circuit& circuit, const Picked& picked, GridPoint by) {
    const auto moved = [by](GridPoint point) { return GridPoint{point.x + by.x, point.y + by.y}; };
    const auto placed = [&moved](const Part& part) {
        Placement placement = *part.placement;
        placement.at = moved(placement.at);
        return placement;
    };
    return relocated(Relocation(circuit, picked, placed, moved));
}

EditResult turn(const Circuit& circuit, const Picked& picked) {
    const Part* only = picked.parts.size() == 1 ? findPart(circuit, picked.parts.front()) : nullptr;
    const GridPoint pivot = only && only->placement ? middleOf(*only) : middleOf(circuit, picked);
    const auto moved = [pivot](GridPoint point) {
        return GridPoint{pivot.x - (point.y - pivot.y), pivot.y + (point.x - pivot.x)};
    };
    const auto placed = [&moved](const Part& part) {
        Placement placement = *part.placement;
        placement.at = moved(placement.at);
        placement.quarterTurns = (placement.quarterTurns + 1) & 3;
        placement.label = LabelSide::automatic;
        return placement;
    };
    return relocated(Relocation(circuit, picked, placed, moved));
}

EditResult mirror(const Circuit& circuit, const Picked& picked) {
    const Part* only = picked.parts.size() == 1 ? findPart(circuit, picked.parts.front()) : nullptr;
    if (only && only->placement) {
        const Placement own = *only->placement;
        Part after = *only;
        after.placement->mirrored = !own.mirrored;
        const bool upright = isUpright(own);
        const auto moved = [own, upright](GridPoint point) {
            return upright ? GridPoint{2 * own.at.x - point.x, point.y} : GridPoint{point.x, 2 * own.at.y - point.y};
        };
        const auto placed = [&after](const Part&) { return *after.placement; };
        return relocated(Relocation(circuit, picked, placed, moved));
    }
    const GridPoint pivot = middleOf(circuit, picked);
    const auto moved = [pivot](GridPoint point) { return GridPoint{2 * pivot.x - point.x, point.y}; };
    const auto placed = [&moved](const Part& part) {
        // Left to right: a level part is turned half and mirrored, an upright one mirrored across its own axis.
        Placement placement = *part.placement;
        placement.at = moved(placement.at);
        placement.mirrored = !placement.mirrored;
        placement.quarterTurns = isUpright(placement) ? placement.quarterTurns : (placement.quarterTurns + 2) & 3;
        placement.label = LabelSide::automatic;
        return placement;
    };
    return relocated(Relocation(circuit, picked, placed, moved));
}

}  // namespace ohmwright
