// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correction_traces.h"

#include "core/circuit/check.h"

#include <algorithm>
#include <tuple>
#include <vector>

namespace ohmwright {
namespace {

bool isIn(const std::vector<NetName>& nets, const NetName& net) {
    return std::find(nets.begin(), nets.end(), net) != nets.end();
}

bool isOpenedBy(const std::vector<Correction>& corrections, const NetName& net) {
    return std::any_of(corrections.begin(), corrections.end(),
                       [&net](const Correction& each) { return isIn(each.opened, net); });
}

bool speaksOf(const Correction& correction, const NetName& net) {
    const auto names = [&net](const Finding& finding) {
        const auto* leg = std::get_if<LegFound>(&finding);
        const auto* presence = std::get_if<PresenceFound>(&finding);
        return (leg != nullptr && leg->net == net) ||
               (presence != nullptr && presence->part && isIn(presence->part->nets, net));
    };
    return names(correction.drawn) || names(correction.found);
}

/// Whether it comes first, whatever the order of finding.
bool isBefore(const Correction& one, const Correction& two) {
    const auto key = [](const Correction& each) {
        const auto* leg = std::get_if<LegFound>(&each.found);
        return std::tuple(each.part, each.found.index(), leg != nullptr ? leg->pin : 0, each.visit);
    };
    return key(one) < key(two);
}

Correction* sayerOf(std::vector<Correction>& corrections, const NetName& net) {
    const bool isNamed = std::any_of(corrections.begin(), corrections.end(),
                                     [&net](const Correction& each) { return speaksOf(each, net); });
    Correction* first = nullptr;
    for (Correction& each : corrections) {
        if ((!isNamed || speaksOf(each, net)) && (first == nullptr || isBefore(each, *first))) {
            first = &each;
        }
    }
    return first;
}

}  // namespace

void openWhatFloats(const Job& before, Job& edited) {
    std::vector<NetName>& open = edited.stock.openNets;
    open = before.stock.openNets;
    std::erase_if(open, [&](const NetName& net) { return isOpenedBy(before.corrections, net); });
    const std::vector<NetName> faults = netsWithoutDcPath(before.stock);
    std::vector<NetName> floating = netsWithoutDcPath(edited.stock);
    std::erase_if(floating, [&](const NetName& net) { return isIn(faults, net); });
    std::sort(floating.begin(), floating.end());
    for (Correction& each : edited.corrections) {
        each.opened.clear();
    }
    for (const NetName& net : floating) {
        open.push_back(net);
        if (Correction* sayer = sayerOf(edited.corrections, net)) {
            sayer->opened.push_back(net);
        }
    }
}

void handOnType(Job& edited, const std::string& type) {
    if (type.empty() || findModel(edited.stock, type) == nullptr) {
        return;
    }
    const auto found = [&type](const Correction& each) {
        const auto* swapped = std::get_if<TypeFound>(&each.found);
        const auto* presence = std::get_if<PresenceFound>(&each.found);
        return (swapped != nullptr && swapped->model.name == type) ||
               (presence != nullptr && presence->part && presence->part->model == type);
    };
    const auto next = std::find_if(edited.corrections.begin(), edited.corrections.end(), found);
    if (next != edited.corrections.end()) {
        next->broughtType = type;
    }
}

}  // namespace ohmwright
