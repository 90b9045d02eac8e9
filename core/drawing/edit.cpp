// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/edit.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/circuit/check.h"
#include "core/circuit/net_names.h"
#include "core/circuit/references.h"
#include "core/drawing/opamp_supply.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/zones.h"

#include <algorithm>
#include <set>
#include <utility>

namespace ohmwright {
namespace {

Error refusal(std::string message, std::string where = {}) {
    return {ErrorCode::invalidInput, std::move(message), std::move(where)};
}

Error offSheet() {
    return refusal(said("That is off the sheet: make room first, or choose a place further right and down."));
}

bool overlap(const GridBox& a, const GridBox& b) {
    constexpr double touching = 1e-9;
    return a.left < b.right - touching && b.left < a.right - touching && a.top < b.bottom - touching &&
           b.top < a.bottom - touching;
}

/// A wire along the edge of a body is clear of it.
bool crosses(GridPoint from, GridPoint to, const GridBox& body) {
    return overlap(
        {static_cast<double>(std::min(from.x, to.x)) - 1e-3, static_cast<double>(std::min(from.y, to.y)) - 1e-3,
         static_cast<double>(std::max(from.x, to.x)) + 1e-3, static_cast<double>(std::max(from.y, to.y)) + 1e-3},
        body);
}

bool crosses(const std::vector<GridPoint>& corners, const GridBox& body) {
    for (std::size_t i = 1; i < corners.size(); ++i) {
        if (crosses(corners[i - 1], corners[i], body)) {
            return true;
        }
    }
    return false;
}

/// Whether a pin of one part stands on the other's body or on the lead between its pins, where nothing joins it.
bool reachesInto(const Part& part, const Part& other) {
    const GridBox body = bodyBox(other);
    const bool hasAxis = drawnPinCount(other.kind) == 2;
    const Wire axis{{}, {pinPoint(other, 0), pinPoint(other, 1)}};
    for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
        const GridPoint at = pinPoint(part, pin);
        const bool isOnBody = at.x >= body.left && at.x <= body.right && at.y >= body.top && at.y <= body.bottom;
        const bool isOnAxis = hasAxis && isOnWire(at, axis) && at != axis.corners[0] && at != axis.corners[1];
        if (isOnBody || isOnAxis) {
            return true;
        }
    }
    return false;
}

std::string newPartId(const Circuit& circuit, const std::string& reference) {
    std::string id = inLowerCase(reference);
    for (int number = 2; findPart(circuit, id); ++number) {
        id = inLowerCase(reference);
        id.append("-").append(std::to_string(number));
    }
    return id;
}

std::string newKnobId(const Circuit& circuit, const std::string& wanted) {
    std::string id = wanted;
    for (int number = 2; findKnob(circuit, id); ++number) {
        id = wanted;
        id.append("-").append(std::to_string(number));
    }
    return id;
}

/// A wire on which both pins stand is cut between them: the part is set into it.
void cutUnder(Circuit& circuit, GridPoint first, GridPoint second) {
    std::vector<Wire>& wires = circuit.drawing.wires;
    for (std::size_t i = 0; i < wires.size(); ++i) {
        const std::vector<GridPoint> corners = wires[i].corners;
        for (std::size_t j = 1; j < corners.size(); ++j) {
            const Wire piece{wires[i].net, {corners[j - 1], corners[j]}};
            if (!isOnWire(first, piece) || !isOnWire(second, piece)) {
                continue;
            }
            const auto away = [&corners, j](GridPoint point) {
                return std::abs(point.x - corners[j - 1].x) + std::abs(point.y - corners[j - 1].y);
            };
            const bool inOrder = away(first) <= away(second);
            std::vector<GridPoint> before(corners.begin(), corners.begin() + static_cast<std::ptrdiff_t>(j));
            before.push_back(inOrder ? first : second);
            std::vector<GridPoint> after{inOrder ? second : first};
            after.insert(after.end(), corners.begin() + static_cast<std::ptrdiff_t>(j), corners.end());
            const NetName net = wires[i].net;
            wires.erase(wires.begin() + static_cast<std::ptrdiff_t>(i));
            for (const std::vector<GridPoint>& rest : {rightAngled(after), rightAngled(before)}) {
                if (rest.size() > 1) {
                    wires.insert(wires.begin() + static_cast<std::ptrdiff_t>(i), {net, rest});
                }
            }
            return;
        }
    }
}

/// What a new part means to the circuit as a whole.
void takeUpRole(Circuit& circuit, const Part& part) {
    if (part.kind == PartKind::potentiometer && !knobOf(circuit, part.id)) {
        const std::string name = part.function.empty() ? part.reference : part.function;
        circuit.knobs.push_back({newKnobId(circuit, inLowerCase(name)), name, part.id});
    }
    if (part.kind == PartKind::voltageSource && part.acAmplitude != 0.0 && !findPart(circuit, circuit.ports.source)) {
        circuit.ports.source = part.id;
    }
    if (part.kind == PartKind::voltageSource && part.acAmplitude == 0.0 && !findPart(circuit, circuit.ports.battery)) {
        circuit.ports.battery = part.id;
    }
}

bool isGroundName(const NetName& name) {
    const std::string lower = inLowerCase(name);
    return name == groundNet || lower == "gnd" || lower == "ground" || lower == inLowerCase(said("ground"));
}

/// A pin or a wire's end of a net, where a sign for it can stand; absent where nothing of it is drawn.
std::optional<GridPoint> placeOnNet(const Circuit& circuit, const NetName& net) {
    for (const Part& part : circuit.parts) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            if (part.nets[static_cast<std::size_t>(pin)] == net) {
                return pinPoint(part, pin);
            }
        }
    }
    for (const Wire& wire : circuit.drawing.wires) {
        if (wire.net == net) {
            return wire.corners.front();
        }
    }
    return std::nullopt;
}

/// A new supply sign goes to the net that signs of its name stand on; else to the net of that name, which gets a sign.
void nameSign(Circuit& circuit, Flag& flag) {
    const NetName name = signName(flag);
    for (const Flag& other : circuit.drawing.flags) {
        if (other.kind == FlagKind::supply && signName(other) == name) {
            flag.net = other.net;
            return;
        }
    }
    const bool isThere = std::any_of(circuit.parts.begin(), circuit.parts.end(), [&name](const Part& part) {
        return std::find(part.nets.begin(), part.nets.end(), name) != part.nets.end();
    });
    const std::optional<GridPoint> there = placeOnNet(circuit, name);
    flag.net = isThere || there ? name : NetName();
    if (there && netAt(circuit, flag.at) != name) {
        circuit.drawing.flags.push_back({FlagKind::supply, name, *there, flag.text});
    }
}

Edited rejoined(const Circuit& circuit, Picked picked) {
    Rejoined done = rejoin(circuit);
    supplyWaitingOpamps(done.circuit);
    growSheet(done.circuit);
    return {std::move(done.circuit), std::move(done.goneInto), std::move(picked)};
}

template <class Entry>
std::vector<Entry> without(const std::vector<Entry>& entries, const std::vector<std::size_t>& gone) {
    std::vector<Entry> rest;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (std::find(gone.begin(), gone.end(), i) == gone.end()) {
            rest.push_back(entries[i]);
        }
    }
    return rest;
}

void forgetPart(Circuit& circuit, const PartId& id) {
    std::erase_if(circuit.knobs, [&id](const Knob& knob) { return knob.part == id; });
    for (Stage& stage : circuit.stages) {
        std::erase(stage.parts, id);
    }
    for (PartId* port : {&circuit.ports.source, &circuit.ports.battery, &circuit.ports.load}) {
        if (*port == id) {
            port->clear();
        }
    }
}

/// v(old) in a law, whatever the case and blanks stay.
void renameInLaw(std::string& law, const NetName& net, const NetName& name) {
    constexpr std::string_view before = "(, ";
    constexpr std::string_view after = "), ";
    for (std::size_t at = law.find(net); at != std::string::npos; at = law.find(net, at + name.size())) {
        const bool begins = at > 0 && before.find(law[at - 1]) != std::string_view::npos;
        const std::size_t end = at + net.size();
        if (begins && end < law.size() && after.find(law[end]) != std::string_view::npos) {
            law.replace(at, net.size(), name);
        } else {
            at = end - name.size();
        }
    }
}

}  // namespace

bool isOnSheet(GridPoint point) {
    return point.x >= 0 && point.y >= 0 && point.x <= largestGrid && point.y <= largestGrid;
}

std::vector<GridPoint> rightAngled(const std::vector<GridPoint>& points, bool horizontalFirst) {
    std::vector<GridPoint> corners;
    for (const GridPoint point : points) {
        if (!corners.empty() && corners.back().x != point.x && corners.back().y != point.y) {
            const GridPoint last = corners.back();
            corners.push_back(horizontalFirst ? GridPoint{point.x, last.y} : GridPoint{last.x, point.y});
        }
        corners.push_back(point);
    }
    std::vector<GridPoint> bent;
    for (const GridPoint corner : corners) {
        if (!bent.empty() && bent.back() == corner) {
            continue;
        }
        const std::size_t count = bent.size();
        const bool isStraight =
            count > 1 && ((bent[count - 2].x == bent[count - 1].x && corner.x == bent[count - 1].x) ||
                          (bent[count - 2].y == bent[count - 1].y && corner.y == bent[count - 1].y));
        if (isStraight) {
            bent.pop_back();
        }
        if (bent.empty() || bent.back() != corner) {
            bent.push_back(corner);
        }
    }
    return bent;
}

const Part* partUnder(const Circuit& circuit, const std::vector<GridPoint>& corners) {
    const auto found = std::find_if(circuit.parts.begin(), circuit.parts.end(), [&corners](const Part& part) {
        return part.placement && crosses(corners, bodyBox(part));
    });
    return found == circuit.parts.end() ? nullptr : &*found;
}

std::string placeFault(const Circuit& circuit, const Part& part) {
    for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
        if (!isOnSheet(pinPoint(part, pin))) {
            return offSheet().message;
        }
    }
    const GridBox body = bodyBox(part);
    for (const Part& other : circuit.parts) {
        const bool isOther = other.placement && other.id != part.id;
        if (isOther && (overlap(body, bodyBox(other)) || reachesInto(part, other) || reachesInto(other, part))) {
            return said("%1 stands there already: choose a free place.", displayName(other));
        }
    }
    for (const Wire& wire : circuit.drawing.wires) {
        if (crosses(wire.corners, body)) {
            return said("A wire of net %1 runs there: choose a free place.", wire.net);
        }
    }
    return {};
}

EditResult placePart(const Circuit& circuit, const Part& wanted, const Placement& placement,
                     const std::optional<Model>& type) {
    Circuit edited = circuit;
    Part part = wanted;
    part.placement = placement;
    part.nets.resize(static_cast<std::size_t>(pinCount(part.kind)));
    part.reference = part.reference.empty() ? nextReference(circuit, part.kind) : part.reference;
    part.id = part.id.empty() ? newPartId(circuit, part.reference) : part.id;
    if (drawnPinCount(part.kind) == 2 && isOnSheet(pinPoint(part, 0)) && isOnSheet(pinPoint(part, 1))) {
        cutUnder(edited, pinPoint(part, 0), pinPoint(part, 1));
    }
    if (const std::string fault = placeFault(edited, part); !fault.empty()) {
        return refusal(fault, part.reference);
    }
    if (Part* known = findPart(edited, part.id)) {
        if (known->placement) {
            return refusal(said("%1 has a place already: move it instead.", displayName(*known)), part.reference);
        }
        *known = part;
    } else {
        edited.parts.push_back(part);
    }
    if (type && type->name == part.model && !findModel(edited, type->name)) {
        edited.models.push_back(*type);
    }
    takeUpRole(edited, part);
    settleInZones(edited, {part.id});
    return rejoined(edited, {{part.id}, {}, {}});
}

EditResult placeFlag(const Circuit& circuit, Flag flag) {
    if (!isOnSheet(flag.at)) {
        return offSheet();
    }
    if (flag.kind == FlagKind::supply && signName(flag).empty()) {
        return refusal(said("A supply sign needs a name, such as 9 V or Vb."));
    }
    if (flag.kind == FlagKind::supply && isGroundName(signName(flag))) {
        return refusal(said("That is ground's name: put a ground sign down instead."));
    }
    if (flag.kind == FlagKind::supply && !netNameFault(signName(flag)).empty()) {
        return refusal(netNameFault(signName(flag)));
    }
    const std::vector<Flag>& flags = circuit.drawing.flags;
    if (std::any_of(flags.begin(), flags.end(),
                    [&flag](const Flag& other) { return other.kind == flag.kind && other.at == flag.at; })) {
        return refusal(said("Such a sign stands there already."));
    }
    Circuit edited = circuit;
    const bool isInput = flag.kind == FlagKind::terminal && flag.text == "in";
    const bool isOutput = flag.kind == FlagKind::terminal && flag.text == "out";
    if (flag.kind == FlagKind::supply && flag.net.empty()) {
        nameSign(edited, flag);
    }
    flag.text = isInput || isOutput ? std::string() : flag.text;
    edited.drawing.flags.push_back(flag);
    Edited done = rejoined(edited, {{}, {}, {edited.drawing.flags.size() - 1}});
    const NetName net = done.circuit.drawing.flags.back().net;
    Ports& ports = done.circuit.ports;
    if (isInput) {
        ports.jack = net;
    }
    if (isOutput) {
        ports.output = net;
        ports.clipNode = ports.clipNode.empty() ? net : ports.clipNode;
    }
    return done;
}

EditResult drawWire(const Circuit& circuit, const std::vector<GridPoint>& points) {
    if (!std::all_of(points.begin(), points.end(), isOnSheet)) {
        return offSheet();
    }
    std::vector<GridPoint> corners = rightAngled(points);
    if (partUnder(circuit, corners)) {
        const std::vector<GridPoint> otherWay = rightAngled(points, false);
        corners = partUnder(circuit, otherWay) ? corners : otherWay;
    }
    if (corners.size() < 2) {
        return refusal(said("A wire needs two points."));
    }
    if (const Part* part = partUnder(circuit, corners)) {
        return refusal(said("The wire would run under %1: go round it.", displayName(*part)), part->reference);
    }
    Circuit edited = circuit;
    edited.drawing.wires.push_back({{}, corners});
    return rejoined(edited, {{}, {circuit.drawing.wires.size()}, {}});
}

EditResult nameNet(const Circuit& circuit, const NetName& net, const NetName& name) {
    if (net.empty() || net == groundNet) {
        return refusal(net.empty() ? said("There is no net here: point at a pin or a wire.")
                                   : said("Ground keeps its name: it is 0 V for every meter reading."));
    }
    if (const std::string fault = netNameFault(name); !fault.empty()) {
        return refusal(fault);
    }
    Circuit edited = circuit;
    bool isTaken = name == groundNet;
    const auto rename = [&](NetName& other) {
        isTaken = isTaken || (other == name && name != net);
        other = other == net ? name : other;
    };
    for (Part& part : edited.parts) {
        std::for_each(part.nets.begin(), part.nets.end(), rename);
        renameInLaw(part.law, net, name);
    }
    for (Wire& wire : edited.drawing.wires) {
        rename(wire.net);
    }
    for (Flag& flag : edited.drawing.flags) {
        // A sign without text is called by its net: both change together.
        rename(flag.net);
    }
    if (isTaken) {
        return refusal(said("Net %1 is another one: join the two with a wire or with supply signs of one name.", name));
    }
    for (Stage& stage : edited.stages) {
        rename(stage.input);
        rename(stage.output);
    }
    Ports& ports = edited.ports;
    for (NetName* port : {&ports.output, &ports.jack, &ports.clipNode}) {
        rename(*port);
    }
    std::for_each(edited.openNets.begin(), edited.openNets.end(), rename);
    return Edited{std::move(edited), net == name ? std::map<NetName, NetName>() : std::map{std::pair(net, name)}, {}};
}

EditResult erase(const Circuit& circuit, const Picked& picked) {
    const auto isGone = [&picked](const PartId& id) {
        return std::find(picked.parts.begin(), picked.parts.end(), id) != picked.parts.end();
    };
    Circuit edited = circuit;
    for (const Part& part : circuit.parts) {
        for (const PartId& named : part.controls) {
            if (!isGone(part.id) && isGone(named)) {
                const Part* other = findPart(circuit, named);
                return refusal(said("%1 names %2: take off %1 first, or both.", displayName(part),
                                    other ? displayName(*other) : named),
                               part.reference);
            }
        }
    }
    std::erase_if(edited.parts, [&isGone](const Part& part) { return isGone(part.id); });
    for (const PartId& id : picked.parts) {
        forgetPart(edited, id);
    }
    std::set<std::string> used;
    for (const Part& part : edited.parts) {
        used.insert(part.model);
    }
    std::set<std::string> goneTypes;
    for (const Part& part : circuit.parts) {
        if (isGone(part.id)) {
            goneTypes.insert(part.model);
        }
    }
    std::erase_if(edited.models,
                  [&](const Model& model) { return goneTypes.contains(model.name) && !used.contains(model.name); });
    edited.drawing.wires = without(circuit.drawing.wires, picked.wires);
    edited.drawing.flags = without(circuit.drawing.flags, picked.flags);
    return rejoined(edited, {});
}

Result<Circuit> describePart(const Circuit& circuit, const Part& part, const std::optional<Model>& type) {
    Circuit edited = circuit;
    Part* known = findPart(edited, part.id);
    if (!known) {
        return refusal(said("There is no part %1 in the circuit.", displayName(part)), part.reference);
    }
    Part described = part;
    described.kind = known->kind;
    described.nets = known->nets;
    described.placement = known->placement;
    described.controls = known->controls;
    if (described.reference.empty()) {
        return refusal(said("A part needs a reference, such as %1.", nextReference(circuit, part.kind)));
    }
    for (const Part& other : circuit.parts) {
        const bool isTaken = other.id != part.id && other.call == known->call &&
                             other.reference == described.reference && known->reference != described.reference;
        if (isTaken) {
            return refusal(said("%1 has that reference already: choose another, such as %2.", displayName(other),
                                nextReference(circuit, part.kind)),
                           known->reference);
        }
    }
    const std::optional<ValueLimits> limits = valueLimits(part.kind);
    if (limits && !limits->hold(described.value)) {
        return refusal(said("%1 must be %2.", displayName(described), said(limits->words)), part.reference);
    }
    if (type && type->name == described.model && !findModel(edited, type->name)) {
        edited.models.push_back(*type);
    }
    if (hasModel(part.kind) && !findModel(edited, described.model)) {
        return refusal(said("The type %1 is not known: choose one of the list.", described.model), part.reference);
    }
    *known = described;
    return edited;
}

void growSheet(Circuit& circuit) {
    constexpr int margin = 2;
    constexpr GridPoint smallest{26, 13};
    GridPoint& size = circuit.drawing.size;
    size.x = std::max(size.x, smallest.x);
    size.y = std::max(size.y, smallest.y);
    const auto hold = [&size](GridPoint point) {
        size.x = point.x > size.x ? point.x + margin : size.x;
        size.y = point.y > size.y ? point.y + margin : size.y;
    };
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            hold(pinPoint(part, pin));
        }
    }
    for (const Wire& wire : circuit.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), hold);
    }
    for (const Flag& flag : circuit.drawing.flags) {
        hold(flag.at);
    }
}

}  // namespace ohmwright
