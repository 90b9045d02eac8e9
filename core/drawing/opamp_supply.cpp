// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/opamp_supply.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"

#include <algorithm>
#include <utility>

namespace ohmwright {
namespace {

Error refusal(std::string message, std::string where = {}) {
    return {ErrorCode::invalidInput, std::move(message), std::move(where)};
}

/// Whether something drawn, or a part that is not on the drawing at all, stands on a net.
bool isHeld(const Circuit& circuit, const NetName& net) {
    const auto& flags = circuit.drawing.flags;
    return std::any_of(circuit.parts.begin(), circuit.parts.end(),
                       [&net](const Part& part) {
                           const auto pins =
                               part.placement ? static_cast<std::size_t>(drawnPinCount(part.kind)) : part.nets.size();
                           const auto end =
                               part.nets.begin() + static_cast<std::ptrdiff_t>(std::min(pins, part.nets.size()));
                           return std::find(part.nets.begin(), end, net) != end;
                       }) ||
           std::any_of(flags.begin(), flags.end(), [&net](const Flag& flag) { return flag.net == net; });
}

/// What the supply of an op-amp is called until there is one.
constexpr std::string_view supplyToCome = "supply";

/// The supply that op-amps share when nothing else is said: the battery's plus, else the first supply sign's net.
NetName sharedSupply(const Circuit& circuit) {
    const Part* battery = findPart(circuit, circuit.ports.battery);
    if (battery && !battery->nets.front().empty()) {
        return battery->nets.front();
    }
    const auto& flags = circuit.drawing.flags;
    const auto sign =
        std::find_if(flags.begin(), flags.end(), [](const Flag& flag) { return flag.kind == FlagKind::supply; });
    return sign == flags.end() ? NetName(supplyToCome) : sign->net;
}

/// The net of what was typed: ground by its names, a supply sign's, or a net by its own name; empty when there is none.
NetName netCalled(const Circuit& circuit, const std::string& typed) {
    NetName wanted = typed;
    std::erase(wanted, ' ');
    const std::string lower = inLowerCase(wanted);
    if (wanted == groundNet || lower == "ground" || lower == "gnd" || lower == inLowerCase(said("ground"))) {
        return NetName(groundNet);
    }
    for (const Flag& flag : circuit.drawing.flags) {
        if (flag.kind == FlagKind::supply && signName(flag) == wanted) {
            return flag.net;
        }
    }
    return isHeld(circuit, wanted) ? wanted : NetName();
}

}  // namespace

EditResult supplyOpamp(const Circuit& circuit, const PartId& part, const std::string& plus, const std::string& minus) {
    Circuit edited = circuit;
    Part* opamp = findPart(edited, part);
    if (!opamp || opamp->kind != PartKind::opamp) {
        return refusal(opamp ? said("%1 is no op-amp: its pins are on the drawing.", displayName(*opamp))
                             : said("There is no part %1 in the circuit.", part),
                       part);
    }
    const auto chosen = [&circuit](const std::string& typed, const NetName& usual) {
        return typed.find_first_not_of(' ') == std::string::npos ? usual : netCalled(circuit, typed);
    };
    const NetName plusNet = chosen(plus, sharedSupply(circuit));
    const NetName minusNet = chosen(minus, NetName(groundNet));
    if (plusNet.empty() || minusNet.empty()) {
        const std::string& unknown = plusNet.empty() ? plus : minus;
        return refusal(said("There is no net or supply sign %1: put a supply sign of that name down first.", unknown),
                       opamp->reference);
    }
    if (plusNet == minusNet) {
        return refusal(said("%1 would have both supplies on net %2.", displayName(*opamp), plusNet), opamp->reference);
    }
    opamp->nets[3] = plusNet;
    opamp->nets[4] = minusNet;
    return Edited{std::move(edited), {}, {{part}, {}, {}}};
}

void supplyWaitingOpamps(Circuit& circuit) {
    for (Part& part : circuit.parts) {
        const bool isWaiting = part.kind == PartKind::opamp && (part.nets[3].empty() || part.nets[3] == supplyToCome);
        if (isWaiting && part.placement && !isHeld(circuit, part.nets[3])) {
            part.nets[3] = sharedSupply(circuit);
        }
        if (part.kind == PartKind::opamp && part.placement && part.nets[4].empty()) {
            part.nets[4] = groundNet;
        }
    }
}

}  // namespace ohmwright
