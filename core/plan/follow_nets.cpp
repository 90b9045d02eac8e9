// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/follow_nets.h"

#include <type_traits>
#include <variant>

namespace ohmwright {
namespace {

using GoneInto = std::map<NetName, NetName>;

void follow(NetName& net, const GoneInto& goneInto) {
    net = followed(net, goneInto);
}

void follow(std::vector<NetName>& nets, const GoneInto& goneInto) {
    for (NetName& net : nets) {
        follow(net, goneInto);
    }
}

template <class SomeChange>
void followIn(SomeChange& change, const GoneInto& goneInto) {
    std::visit(
        [&goneInto](auto& one) {
            using One = std::remove_cvref_t<decltype(one)>;
            if constexpr (std::is_same_v<One, MoveLeg>) {
                follow(one.net, goneInto);
            } else if constexpr (std::is_same_v<One, AddPart>) {
                for (NetName& net : one.nets) {
                    follow(net, goneInto);
                }
            } else if constexpr (std::is_same_v<One, Combined>) {
                for (SingleChange& single : one.changes) {
                    followIn(single, goneInto);
                }
            } else if constexpr (std::is_same_v<One, FitSwitch>) {
                for (SwitchThrow& position : one.throws) {
                    for (auto& single : position.changes) {
                        followIn(single, goneInto);
                    }
                }
            }
        },
        change);
}

void followIn(Finding& finding, const GoneInto& goneInto) {
    if (auto* leg = std::get_if<LegFound>(&finding)) {
        follow(leg->net, goneInto);
    }
    if (auto* presence = std::get_if<PresenceFound>(&finding); presence != nullptr && presence->part) {
        follow(presence->part->nets, goneInto);
    }
}

}  // namespace

NetName followed(const NetName& net, const std::map<NetName, NetName>& goneInto) {
    const auto gone = goneInto.find(net);
    return gone != goneInto.end() ? gone->second : net;
}

void followNets(Job& job, const std::map<NetName, NetName>& goneInto) {
    for (Mod& mod : job.plan) {
        followIn(mod.change, goneInto);
    }
    for (PinnedState& pinned : job.pinned) {
        for (Mod& mod : pinned.plan) {
            followIn(mod.change, goneInto);
        }
    }
    for (UnitReading& reading : job.visit.readings) {
        follow(reading.net, goneInto);
    }
    for (Correction& correction : job.corrections) {
        followIn(correction.drawn, goneInto);
        followIn(correction.found, goneInto);
        follow(correction.opened, goneInto);
    }
}

}  // namespace ohmwright
