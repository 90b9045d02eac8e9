// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/check_nets.h"

#include "core/base/said.h"
#include "core/circuit/net_groups.h"

#include <algorithm>
#include <set>
#include <string>

namespace ohmwright {
namespace {

/// Joins the nets that a part lets direct current flow between.
void joinByDirectCurrent(const Part& part, NetGroups& groups) {
    switch (part.kind) {
        case PartKind::capacitor:
        case PartKind::currentSource:
        case PartKind::coupling:
            break;
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:  // may act as a resistance, as in a gyrator: the solve decides
            groups.join(part.nets[0], part.nets[1]);
            break;
        case PartKind::mosfet:
            groups.join(part.nets[0], part.nets[2]);
            groups.join(part.nets[0], part.nets[3]);
            break;
        case PartKind::opamp:
            for (const std::size_t pin : {output, positiveSupply, negativeSupply}) {
                groups.join(part.nets[pin], NetName(groundNet));
            }
            break;
        default:
            for (std::size_t pin = 1; pin < part.nets.size(); ++pin) {
                groups.join(part.nets[0], part.nets[pin]);
            }
    }
}

/// Whether a part gives its nets direct voltage or current of its own; the pickup gives a signal only.
bool givesSupply(const Circuit& circuit, const Part& part) {
    switch (part.kind) {
        case PartKind::voltageSource:
        case PartKind::currentSource:
            return part.id == circuit.ports.battery || part.acAmplitude == 0.0 || part.value != 0.0;
        case PartKind::behaviouralVoltage:
        case PartKind::behaviouralCurrent:
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:
        case PartKind::currentControlledCurrent:
        case PartKind::currentControlledVoltage:
            return true;
        default:
            return false;
    }
}

/// Nets that a part joins to one that it is on, for what feeds a supply: an op-amp's output is fed by its supplies, but
/// feeds none of them.
std::vector<NetName> fedFrom(const Part& part, const NetName& net) {
    switch (part.kind) {
        case PartKind::capacitor:
        case PartKind::coupling:
            return {};
        case PartKind::opamp:
            return part.nets[output] == net ? std::vector<NetName>{part.nets[positiveSupply], part.nets[negativeSupply]}
                                            : std::vector<NetName>();
        default:
            return part.nets;
    }
}

bool isFed(const Circuit& circuit, const std::multimap<NetName, const Part*>& partsAt, const NetName& supply) {
    std::set<NetName> passed{NetName(groundNet), supply};
    std::vector<NetName> open{supply};
    while (!open.empty()) {
        const NetName here = open.back();
        open.pop_back();
        const auto [first, last] = partsAt.equal_range(here);
        for (auto at = first; at != last; ++at) {
            if (givesSupply(circuit, *at->second)) {
                return true;
            }
            for (const NetName& net : fedFrom(*at->second, here)) {
                if (passed.insert(net).second) {
                    open.push_back(net);
                }
            }
        }
    }
    return false;
}

}  // namespace

std::map<NetName, NetUse> usesOfNets(const Circuit& circuit) {
    std::map<NetName, NetUse> uses;
    for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
        for (const NetName& net : circuit.parts[index].nets) {
            if (!net.empty()) {
                NetUse& use = uses.try_emplace(net, NetUse{index, 0, &circuit.parts[index]}).first->second;
                ++use.pins;
            }
        }
    }
    return uses;
}

FloatingNets floatingNets(const Circuit& circuit, const std::map<NetName, NetUse>& uses) {
    NetGroups groups;
    for (const Part& part : circuit.parts) {
        if (isWired(part)) {
            joinByDirectCurrent(part, groups);
        }
    }
    for (const NetName& net : circuit.openNets) {
        groups.join(net, NetName(groundNet));
    }
    std::map<NetName, std::vector<std::pair<std::size_t, NetName>>> byGroup;
    for (const auto& [net, use] : uses) {
        if (!groups.joined(net, NetName(groundNet))) {
            byGroup[groups.groupOf(net)].emplace_back(use.firstPart, net);
        }
    }
    FloatingNets floating;
    for (auto& [group, members] : byGroup) {
        std::sort(members.begin(), members.end());
        floating.push_back(std::move(members));
    }
    std::sort(floating.begin(), floating.end());
    return floating;
}

/// Nets that float together are one fault, marked at the one that comes first in the order of the parts.
void checkDirectCurrentPaths(const Circuit& circuit, const std::map<NetName, NetUse>& uses, Findings& findings) {
    for (const auto& members : floatingNets(circuit, uses)) {
        std::vector<std::string> names;
        names.reserve(members.size());
        for (const auto& member : members) {
            names.push_back(member.second);
        }
        findings.addNet(
            Severity::wrong, members.front().first, names.front(),
            names.size() == 1
                ? said("Net %1 has no DC path to ground: lead it there by a wire or a resistor.", names.front())
                : said("The nets %1 float together and have no DC path to ground: lead one of them there by a wire "
                       "or a resistor.",
                       inWords(names)));
    }
}

void checkLonelyNets(const Circuit& circuit, const std::map<NetName, NetUse>& uses, Findings& findings) {
    std::set<NetName> connected(circuit.openNets.begin(), circuit.openNets.end());
    connected.insert(NetName(groundNet));
    for (const Flag& flag : circuit.drawing.flags) {
        if (flag.kind != FlagKind::note) {
            connected.insert(flag.net);
        }
    }
    for (const auto& [net, use] : uses) {
        if (use.pins == 1 && !connected.contains(net)) {
            findings.addNet(Severity::doubtful, use.firstPart, net,
                            said("Net %1 has one pin only, of %2: connect it.", net, displayName(*use.part)));
        }
    }
}

void checkSupplySigns(const Circuit& circuit, Findings& findings) {
    std::multimap<NetName, const Part*> partsAt;
    for (const Part& part : circuit.parts) {
        for (const NetName& net : isWired(part) ? part.nets : std::vector<NetName>()) {
            partsAt.emplace(net, &part);
        }
    }
    std::set<NetName> asked{NetName(groundNet)};
    const auto ask = [&](const NetName& net, const Part* part, const std::string& name) {
        if (part && asked.insert(net).second && !isFed(circuit, partsAt, net)) {
            findings.addNetAtPart(Severity::doubtful, *part, net,
                                  said("%1 is fed by nothing: put a battery from it to ground.", name));
        }
    };
    for (const Flag& flag : circuit.drawing.flags) {
        if (flag.kind == FlagKind::supply) {
            const auto firstOn = partsAt.find(flag.net);
            ask(flag.net, firstOn == partsAt.end() ? nullptr : firstOn->second,
                flag.text.empty() ? flag.net : flag.text);
        }
    }
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::opamp && part.placement && isWired(part)) {
            ask(part.nets[positiveSupply], &part, said("The positive supply of %1", displayName(part)));
        }
    }
}

}  // namespace ohmwright
