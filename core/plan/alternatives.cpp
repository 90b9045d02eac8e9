// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/alternatives.h"

#include <algorithm>
#include <set>

namespace ohmwright {

namespace {

/// Parts that a change puts another value, type or law in the place of, or takes away; a switch in any of its throws.
std::set<PartId> replacedParts(const Change& change) {
    std::vector<SingleChange> singles;
    if (const auto* fitted = std::get_if<FitSwitch>(&change)) {
        for (const SwitchThrow& one : fitted->throws) {
            singles.insert(singles.end(), one.changes.begin(), one.changes.end());
        }
    } else {
        singles = singleChanges(change);
    }
    std::set<PartId> parts;
    for (const SingleChange& single : singles) {
        const bool replaces = std::holds_alternative<SwapValue>(single) || std::holds_alternative<SwapType>(single) ||
                              std::holds_alternative<RemovePart>(single) || std::holds_alternative<ChangePot>(single);
        if (replaces) {
            parts.insert(targetOf(single));
        }
    }
    return parts;
}

}  // namespace

bool areAlternatives(const Mod& a, const Mod& b) {
    const std::set<PartId> replaced = replacedParts(a.change);
    const std::set<PartId> others = replacedParts(b.change);
    return std::any_of(replaced.begin(), replaced.end(), [&others](const PartId& id) { return others.contains(id); });
}

}  // namespace ohmwright
