// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/joint_coupling.h"

#include "core/drawing/stage_piece.h"

#include <algorithm>
#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

/// Columns that the capacitor takes: its three steps, and one of wire.
constexpr int capacitorColumns = 4;

bool passesDirectCurrent(PartKind kind) {
    switch (kind) {
        case PartKind::resistor:
        case PartKind::potentiometer:
        case PartKind::inductor:
        case PartKind::link:
        case PartKind::diode:
        case PartKind::switchContact:
        case PartKind::voltageSource:
            return true;
        default:
            return false;
    }
}

/// Whether a pin takes its net to a voltage of the device's own: outputs do, bases, gates and inputs of op-amps do not.
bool holdsByDevice(const Part& part, std::size_t pin) {
    switch (part.kind) {
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::triode:
            return pin != 1;
        case PartKind::mosfet:
            return pin == 0 || pin == 2;
        case PartKind::pentode:
            return pin != 2;
        case PartKind::opamp:
            return pin == 2;
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:
            return pin < 2;
        case PartKind::behaviouralVoltage:
        case PartKind::behaviouralCurrent:
        case PartKind::currentControlledCurrent:
        case PartKind::currentControlledVoltage:
        case PartKind::currentSource:
            return true;
        default:
            return false;
    }
}

/// A large resistor to ground before a capacitor drains it and holds nothing: with volts on it some microamperes flow.
/// From 470 kΩ on (our choice). At a base or a gate it is that one's bias, and holds it.
bool isPullDown(const Circuit& piece, const Part& part, const NetName& net) {
    constexpr double leastOhms = 470e3;
    const bool isToGround = part.nets.front() == groundNet || part.nets.back() == groundNet;
    return part.kind == PartKind::resistor && part.value >= leastOhms && isToGround &&
           std::all_of(piece.parts.begin(), piece.parts.end(), [&net](const Part& other) {
               const bool isThere = std::find(other.nets.begin(), other.nets.end(), net) != other.nets.end();
               return !isThere || other.kind == PartKind::resistor || other.kind == PartKind::capacitor;
           });
}

bool isRail(const NetName& net) {
    return net == groundNet || std::find(rails.begin(), rails.end(), net) != rails.end();
}

NetName freeNet(const Circuit& piece, NetName wanted) {
    std::set<NetName> taken;
    for (const Part& part : piece.parts) {
        taken.insert(part.nets.begin(), part.nets.end());
    }
    while (taken.contains(wanted)) {
        wanted.append("_");
    }
    return wanted;
}

PartId freeId(const Circuit& piece, PartId wanted) {
    while (findPart(piece, wanted)) {
        wanted.append("_");
    }
    return wanted;
}

void shiftRight(Circuit& piece, int columns) {
    for (Part& part : piece.parts) {
        if (part.placement) {
            part.placement->at.x += columns;
        }
    }
    for (Wire& wire : piece.drawing.wires) {
        for (GridPoint& corner : wire.corners) {
            corner.x += columns;
        }
    }
    for (Flag& flag : piece.drawing.flags) {
        flag.at.x += columns;
    }
    for (Field& field : piece.drawing.fields) {
        field.topLeft.x += columns;
        field.bottomRight.x += columns;
    }
    for (std::size_t i = 1; i < piece.stages.size(); ++i) {
        piece.stages[i].firstColumn += columns;
    }
    piece.drawing.size.x += columns;
}

bool holdsByDeviceAt(const Part& part, const NetName& net) {
    for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
        if (part.nets[pin] == net && holdsByDevice(part, pin)) {
            return true;
        }
    }
    return false;
}

/// Where a direct current goes to from a net through a part; none where it does not.
std::vector<NetName> netsBehind(const Circuit& piece, const Part& part, const NetName& net) {
    const bool isAt = std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
    return isAt && passesDirectCurrent(part.kind) && !isPullDown(piece, part, net) ? part.nets : std::vector<NetName>();
}

}  // namespace

DcHold dcHoldAt(const Circuit& piece, const NetName& net, DcHold atInput) {
    std::set<NetName> reached{net};
    std::vector<NetName> open{net};
    std::set<NetName> holds;
    bool isByDevice = false;
    while (!open.empty()) {
        const NetName here = open.back();
        open.pop_back();
        if (isRail(here)) {
            holds.insert(here);
            continue;
        }
        for (const Part& part : piece.parts) {
            isByDevice = isByDevice || holdsByDeviceAt(part, here);
            for (const NetName& other : netsBehind(piece, part, here)) {
                if (reached.insert(other).second) {
                    open.push_back(other);
                }
            }
        }
    }
    if (isByDevice || holds.size() > 1) {
        return DcHold::unknown;
    }
    const bool goesOn = atInput != DcHold::nothing && reached.contains(inputOf(piece));
    if (holds.empty()) {
        return goesOn ? atInput : DcHold::nothing;
    }
    const DcHold own = *holds.begin() == groundNet  ? DcHold::ground
                       : *holds.begin() == halfRail ? DcHold::half
                                                    : DcHold::unknown;
    return goesOn && atInput != own ? DcHold::unknown : own;
}

bool needsCoupling(DcHold before, DcHold after) {
    if (before == DcHold::nothing || after == DcHold::nothing) {
        return false;
    }
    return before != after || before == DcHold::unknown;
}

Circuit coupled(const Circuit& piece, const Circuit& from, bool isHighVoltage) {
    const NetName behind = inputOf(piece);
    const GridPoint at = *inputPoint(piece);
    Circuit made = piece;
    shiftRight(made, capacitorColumns);
    Part capacitor;
    capacitor.id = freeId(piece, "cjoint");
    capacitor.reference = "C1";
    capacitor.role = "coupling capacitor, put in at joining: " + pieceName(from) + " and " + pieceName(piece) +
                     " stand at different DC voltages";
    capacitor.kind = PartKind::capacitor;
    capacitor.value = isHighVoltage ? 100e-9 : 1e-6;
    capacitor.tolerance = 0.1;
    capacitor.build = isHighVoltage ? "film, 400 V" : "film, 5 mm, 63 V";
    capacitor.nets = {freeNet(piece, "joint"), behind};
    capacitor.placement = Placement{{0, at.y}, 0, false, capacitorColumns - 1, LabelSide::above};
    made.drawing.wires.push_back({behind, {{capacitorColumns - 1, at.y}, {capacitorColumns, at.y}}});
    Stage& first = made.stages.front();
    first.input = capacitor.nets.front();
    first.parts.insert(first.parts.begin(), capacitor.id);
    made.parts.insert(made.parts.begin(), std::move(capacitor));
    return made;
}

}  // namespace ohmwright
