// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/rail_signs.h"

#include "core/drawing/outline.h"
#include "core/drawing/sketch.h"

#include <algorithm>

namespace ohmwright {
namespace {

bool isSigned(const Circuit& drawn, const NetName& net, GridPoint at) {
    for (const Flag& flag : drawn.drawing.flags) {
        if (flag.net == net && flag.at == at) {
            return true;
        }
    }
    for (const Wire& wire : drawn.drawing.wires) {
        if (wire.net == net && std::find(wire.corners.begin(), wire.corners.end(), at) != wire.corners.end()) {
            return true;
        }
    }
    int pins = 0;  // a pin on a pin that has its sign by a wire counts as drawn
    for (const Part& part : drawn.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            pins += pinPoint(part, pin) == at ? 1 : 0;
        }
    }
    return pins > 1;
}

/// Whether a wire will join this pin to a sign at hand: in the supply's field, or at the pot's other end.
bool hasOtherSign(const Circuit& drawn, const Part& part, const NetName& net, int pin) {
    if (part.kind != PartKind::potentiometer) {
        return true;
    }
    for (int other = 0; other < 3; ++other) {
        if (other != pin && part.nets[static_cast<std::size_t>(other)] == net &&
            isSigned(drawn, net, pinPoint(part, other))) {
            return true;
        }
    }
    return false;
}

void addSign(Circuit& drawn, const Rails& rails, const NetName& net, GridPoint pin, const GridBox& body,
             std::vector<GridPoint>& occupied) {
    const int outwards = pin.x <= body.left ? -1 : 1;
    const bool isUp = rails.isAbove(net);
    const bool looksUp = pin.y <= body.top;
    const bool looksDown = pin.y >= body.bottom;
    std::vector<GridPoint> places;
    if (isUp ? looksUp : looksDown) {
        places.push_back(pin);
    }
    for (const int dx : {outwards, -outwards}) {
        places.push_back({pin.x + dx, pin.y});
    }
    places.push_back({pin.x, pin.y + (isUp ? -1 : 1)});
    for (const GridPoint at : places) {
        const bool isFree = at == pin || std::find(occupied.begin(), occupied.end(), at) == occupied.end();
        const bool isInside = at.x > body.left && at.x < body.right && at.y > body.top && at.y < body.bottom;
        if (isFree && !isInside) {
            drawn.drawing.flags.push_back({net == groundNet ? FlagKind::ground : FlagKind::supply, net, at,
                                           net == groundNet ? "" : signText(net)});
            if (!(at == pin)) {
                drawn.drawing.wires.push_back({net, {pin, at}});
            }
            occupied.push_back(at);
            return;
        }
    }
}

}  // namespace

void addMissingSigns(Circuit& drawn, const Rails& rails, const std::vector<bool>& joinedByWires) {
    std::vector<GridPoint> occupied;
    for (const Part& part : drawn.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            occupied.push_back(pinPoint(part, pin));
        }
    }
    for (const Flag& flag : drawn.drawing.flags) {
        occupied.push_back(flag.at);
    }
    for (std::size_t i = 0; i < drawn.parts.size(); ++i) {
        const Part& part = drawn.parts[i];
        // The supply's own parts are joined by wires, and a rheostat's wiper to its end.
        const bool isJoined = joinedByWires[i] || part.kind == PartKind::potentiometer;
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            const NetName& net = part.nets[static_cast<std::size_t>(pin)];
            const bool isOpen = rails.isRail(net) && !isSigned(drawn, net, pinPoint(part, pin));
            if (isOpen && !(isJoined && hasOtherSign(drawn, part, net, pin))) {
                addSign(drawn, rails, net, pinPoint(part, pin), bodyBox(part), occupied);
            }
        }
    }
}

void keepSignTexts(const Drawing& before, Drawing& drawn) {
    for (Flag& flag : drawn.flags) {
        const auto known = std::find_if(before.flags.begin(), before.flags.end(), [&flag](const Flag& each) {
            return each.kind == FlagKind::supply && each.net == flag.net;
        });
        if (flag.kind == FlagKind::supply && known != before.flags.end()) {
            flag.text = known->text;
        }
    }
}

}  // namespace ohmwright
