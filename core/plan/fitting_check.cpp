// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/fitting_check.h"

#include "core/plan/apply.h"

#include <set>
#include <utility>
#include <vector>

namespace ohmwright {
namespace {

/// How the switches can stand: as set, and each of them at each of its throws.
std::vector<Throws> standsOfSwitches(const Plan& plan, const Throws& throws) {
    std::vector<Throws> stands{throws};
    for (const Mod& mod : plan) {
        const auto* fitted = mod.on ? std::get_if<FitSwitch>(&mod.change) : nullptr;
        for (std::size_t k = 0; fitted != nullptr && k < fitted->throws.size(); ++k) {
            Throws stand = throws;
            stand[mod.id] = fitted->throws[k].name;
            stands.push_back(std::move(stand));
        }
    }
    return stands;
}

/// The mods that are on and cannot be fitted; those after them are fitted without them.
std::vector<UnfittableMod> unfittable(const Circuit& stock, const Plan& plan, const Throws& throws) {
    std::vector<UnfittableMod> found;
    Plan fitted;
    for (const Mod& mod : plan) {
        fitted.push_back(mod);
        const Result<Circuit> now = mod.on ? applyPlan(stock, fitted, throws) : Result<Circuit>(Circuit());
        if (!now) {
            found.push_back({mod, now.error()});
            fitted.pop_back();
        }
    }
    return found;
}

}  // namespace

std::optional<UnfittableMod> newlyUnfittable(const Circuit& before, const Circuit& after, const Plan& plan,
                                             const Throws& throws) {
    for (const Throws& stand : standsOfSwitches(plan, throws)) {
        std::set<std::string> known;
        for (const UnfittableMod& each : unfittable(before, plan, stand)) {
            known.insert(each.mod.id);
        }
        for (UnfittableMod& each : unfittable(after, plan, stand)) {
            if (!known.contains(each.mod.id)) {
                return std::move(each);
            }
        }
    }
    return std::nullopt;
}

std::string letterOf(const Mod& mod) {
    return mod.letter.empty() ? mod.id : mod.letter;
}

}  // namespace ohmwright
