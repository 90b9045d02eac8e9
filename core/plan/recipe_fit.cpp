// A recipe's mods in the words of another unit: parts, legs, nets and trims found there.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/apply.h"
#include "core/plan/device_pick.h"
#include "core/plan/edits.h"
#include "core/plan/recipe.h"
#include "core/plan/recipe_differences.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace ohmwright {

namespace {

/// A part that behaves the same whichever way round it sits.
bool hasNoSense(const NewPart& part) {
    return part.kind == PartKind::resistor || part.kind == PartKind::inductor || part.kind == PartKind::link;
}

/// Every part that a change names, once: its targets, in their order.
std::vector<PartId> partsNamed(const Mod& mod) {
    std::vector<PartId> parts;
    const auto name = [&parts](const PartId& part) {
        if (std::find(parts.begin(), parts.end(), part) == parts.end()) {
            parts.push_back(part);
        }
    };
    if (const auto* fitted = std::get_if<FitSwitch>(&mod.change)) {
        name(fitted->part);
        for (const SwitchThrow& position : fitted->throws) {
            for (const SingleChange& change : position.changes) {
                name(targetOf(change));
            }
        }
        return parts;
    }
    for (const SingleChange& change : singleChanges(mod.change)) {
        name(targetOf(change));
    }
    return parts;
}

std::vector<NetName> netsNamed(const SingleChange& change) {
    if (const auto* moved = std::get_if<MoveLeg>(&change)) {
        return {moved->net};
    }
    if (const auto* added = std::get_if<AddPart>(&change)) {
        return added->nets;
    }
    return {};
}

/// Carries a recipe's changes over to the unit. The first thing that has no counterpart ends a mod.
class Translation {
public:
    Translation(const Recipe& recipe, const CircuitMatch& match, const Job& unit)
        : m_recipe(recipe), m_match(match), m_unit(unit) {
        for (const Part& part : unit.stock.parts) {
            m_netsInUse.insert(part.nets.begin(), part.nets.end());
        }
    }

    /// Why the mod has no counterpart here; empty when it has one.
    [[nodiscard]] std::string reasonAgainst(const Mod& mod) const;
    [[nodiscard]] MatchCertainty certaintyOf(const Mod& mod) const;
    /// What the mod would fit is not here.
    void leaveOut(const Mod& mod) {
        for (const NewPart* fitted : newPartsOf(mod.change)) {
            m_missing.insert(idOf(mod, *fitted));
        }
    }
    /// REQUIRES: no reason against it.
    Mod carriedOver(const Mod& mod, const Job& job);

private:
    [[nodiscard]] std::string reasonAgainst(const std::vector<SingleChange>& changes) const;
    [[nodiscard]] PartId partOf(const PartId& known) const;
    [[nodiscard]] int pinOf(const PartId& known, int pin) const;
    [[nodiscard]] bool isTurned(const PartId& known) const;
    NetName netOf(const NetName& known);
    NewPart newPart(const NewPart& fitted, const Mod& mod, const Job& job);
    SingleChange carriedOver(const SingleChange& change, const Mod& mod, const Job& job);
    std::vector<SingleChange> carriedOver(const std::vector<SingleChange>& changes, const Mod& mod, const Job& job);

    const Recipe& m_recipe;
    const CircuitMatch& m_match;
    const Job& m_unit;
    std::map<PartId, PartId> m_fitted;   ///< Parts that the recipe's mods fit, by their ids there and here.
    std::set<PartId> m_missing;          ///< Such parts of mods that are not applied.
    std::map<NetName, NetName> m_begun;  ///< Nets that begin with the recipe's mods.
    std::set<NetName> m_netsInUse;
    std::string m_id;                          ///< Of the mod that is being carried over, here.
    std::vector<std::string> m_newReferences;  ///< Of the parts that it fits.
};

std::string Translation::reasonAgainst(const Mod& mod) const {
    for (const PartId& part : partsNamed(mod)) {
        if (fitsPart(mod, part)) {
            continue;
        }
        if (m_missing.contains(part)) {
            return said("it works on a part that a mod fits which is not applied here");
        }
        const PartMatch* match = m_match.find(part);
        if (!m_fitted.contains(part) && (match == nullptr || match->certainty == MatchCertainty::none)) {
            return match != nullptr ? match->sentence
                                    : said("the recipe names a part \"%1\" that it does not have", part);
        }
    }
    if (const auto* fitted = std::get_if<FitSwitch>(&mod.change)) {
        for (const SwitchThrow& position : fitted->throws) {
            if (std::string reason = reasonAgainst(position.changes); !reason.empty()) {
                return reason;
            }
        }
        return {};
    }
    return reasonAgainst(singleChanges(mod.change));
}

std::string Translation::reasonAgainst(const std::vector<SingleChange>& changes) const {
    const auto isKnown = [this](const NetName& net) {
        return std::any_of(m_recipe.circuit.parts.begin(), m_recipe.circuit.parts.end(), [&net](const Part& part) {
            return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
        });
    };
    for (const SingleChange& change : changes) {
        for (const NetName& net : netsNamed(change)) {
            if (net != groundNet && isKnown(net) && !m_match.nets.contains(net)) {
                return said("nothing here answers to the net \"%1\" that it connects to", net);
            }
        }
    }
    return {};
}

MatchCertainty Translation::certaintyOf(const Mod& mod) const {
    MatchCertainty least = MatchCertainty::sure;
    for (const PartId& part : partsNamed(mod)) {
        const PartMatch* match = m_match.find(part);
        least = std::max(least, match != nullptr ? match->certainty : MatchCertainty::sure);
    }
    return least;
}

PartId Translation::partOf(const PartId& known) const {
    if (const auto fitted = m_fitted.find(known); fitted != m_fitted.end()) {
        return fitted->second;
    }
    return m_match.find(known)->other;
}

int Translation::pinOf(const PartId& known, int pin) const {
    const PartMatch* match = m_match.find(known);
    const bool isThere = match != nullptr && pin >= 0 && static_cast<std::size_t>(pin) < match->pins.size();
    return isThere ? match->pins[static_cast<std::size_t>(pin)] : pin;
}

bool Translation::isTurned(const PartId& known) const {
    return pinOf(known, 0) == 1;
}

NetName Translation::netOf(const NetName& known) {
    if (known == groundNet) {
        return known;
    }
    if (const auto here = m_match.nets.find(known); here != m_match.nets.end()) {
        return here->second;
    }
    const auto [begun, isNew] = m_begun.emplace(known, known);
    for (int number = 2; isNew && m_netsInUse.contains(begun->second); ++number) {
        begun->second = known + "-" + std::to_string(number);
    }
    m_netsInUse.insert(begun->second);
    return begun->second;
}

NewPart Translation::newPart(const NewPart& fitted, const Mod& mod, const Job& job) {
    NewPart part = fitted;
    // With what this mod has fitted so far.
    Job withThis = job;
    for (const std::string& reference : m_newReferences) {
        withThis.stock.parts.emplace_back().reference = reference;
    }
    const auto isFittedBy = [&](const Mod& other) {
        const auto parts = newPartsOf(other.change);
        return std::any_of(parts.begin(), parts.end(),
                           [&](const NewPart* each) { return each->reference == part.reference; });
    };
    if (findPartByReference(withThis.stock, part.reference) != nullptr ||
        std::any_of(withThis.plan.begin(), withThis.plan.end(), isFittedBy)) {
        part.reference = nextFreeReference(withThis, part.kind);
    }
    m_newReferences.push_back(part.reference);
    if (!part.id.empty()) {
        part.id = m_id + "-" + fitted.id;
    }
    m_fitted[idOf(mod, fitted)] = part.id.empty() ? m_id : part.id;
    return part;
}

SingleChange Translation::carriedOver(const SingleChange& change, const Mod& mod, const Job& job) {
    SingleChange carried = change;
    const PartId known = targetOf(change);
    std::visit([&](auto& kind) { kind.part = partOf(known); }, carried);
    if (auto* series = std::get_if<AddInSeries>(&carried)) {
        series->pin = pinOf(known, series->pin);
        series->fitted = newPart(series->fitted, mod, job);
        // The way round goes by the part's own legs, and this one has them the other way.
        series->reversed = series->reversed != (isTurned(known) && !hasNoSense(series->fitted));
    } else if (auto* across = std::get_if<AddAcross>(&carried)) {
        across->pinA = pinOf(known, across->pinA);
        across->pinB = pinOf(known, across->pinB);
        across->fitted = newPart(across->fitted, mod, job);
    } else if (auto* lift = std::get_if<Lift>(&carried)) {
        lift->pin = pinOf(known, lift->pin);
    } else if (auto* bridge = std::get_if<Bridge>(&carried)) {
        bridge->pinA = pinOf(known, bridge->pinA);
        bridge->pinB = pinOf(known, bridge->pinB);
    } else if (auto* moved = std::get_if<MoveLeg>(&carried)) {
        moved->pin = pinOf(known, moved->pin);
        moved->net = netOf(moved->net);
    } else if (auto* added = std::get_if<AddPart>(&carried)) {
        added->fitted = newPart(added->fitted, mod, job);
        for (NetName& net : added->nets) {
            net = netOf(net);
        }
    }
    return carried;
}

std::vector<SingleChange> Translation::carriedOver(const std::vector<SingleChange>& changes, const Mod& mod,
                                                   const Job& job) {
    std::vector<SingleChange> carried;
    carried.reserve(changes.size());
    for (const SingleChange& change : changes) {
        carried.push_back(carriedOver(change, mod, job));
    }
    return carried;
}

Mod Translation::carriedOver(const Mod& mod, const Job& job) {
    Mod carried = mod;
    carried.letter = nextFreeLetter(job.plan);
    m_id = "recipe-" + mod.id;
    m_newReferences.clear();
    const auto isTaken = [&job](const std::string& id) {
        return findPart(job.stock, id) != nullptr ||
               std::any_of(job.plan.begin(), job.plan.end(), [&id](const Mod& other) { return other.id == id; });
    };
    for (int number = 2; isTaken(m_id); ++number) {
        m_id = "recipe-" + mod.id + "-" + std::to_string(number);
    }
    carried.id = m_id;
    if (const auto* combined = std::get_if<Combined>(&mod.change)) {
        carried.change = Combined{carriedOver(combined->changes, mod, job)};
    } else if (const auto* fitted = std::get_if<FitSwitch>(&mod.change)) {
        FitSwitch here{partOf(fitted->part), {}};
        for (const SwitchThrow& position : fitted->throws) {
            here.throws.push_back({position.name, carriedOver(position.changes, mod, job)});
        }
        carried.change = std::move(here);
    } else {
        SingleChange single = carriedOver(singleChanges(mod.change).front(), mod, job);
        carried.change = std::visit([](auto& kind) -> Change { return std::move(kind); }, single);
    }
    return carried;
}

std::vector<RecipePart> partsNeeded(const Recipe& recipe, const CircuitMatch& match, const Circuit& here) {
    std::vector<RecipePart> needed;
    for (const PartMatch& each : match.parts) {
        const bool isNamed = std::any_of(recipe.plan.begin(), recipe.plan.end(), [&each](const Mod& mod) {
            const auto parts = partsNamed(mod);
            return std::find(parts.begin(), parts.end(), each.part) != parts.end();
        });
        if (!isNamed) {
            continue;
        }
        const Part& known = *findPart(recipe.circuit, each.part);
        const Part* other = findPart(here, each.other);
        needed.push_back({each, displayName(known), other != nullptr ? displayName(*other) : std::string(),
                          roleWords(recipe.circuit, known)});
    }
    return needed;
}

/// Puts the mods into the unit's plan that can be; tells what became of each.
void carryOver(const Recipe& recipe, RecipeFit& fit) {
    Translation translation(recipe, fit.match, fit.job);
    for (const Mod& mod : recipe.plan) {
        RecipeMod told{mod.letter, {}, MatchCertainty::none, {}};
        const auto refuse = [&](const std::string& reason) {
            translation.leaveOut(mod);
            told.sentence = said("Mod %1 is not applied: %2.", mod.letter, reason);
        };
        if (const std::string reason = translation.reasonAgainst(mod); !reason.empty()) {
            refuse(reason);
        } else {
            Job tried = fit.job;
            tried.plan.push_back(translation.carriedOver(mod, fit.job));
            const Mod& carried = tried.plan.back();
            if (const std::string position = throwOf(recipe.setting.throws, mod.id); !position.empty()) {
                tried.setting.throws[carried.id] = position;
            }
            if (const Result<Circuit> now = nowCircuit(tried); !now) {
                refuse(now.error().message.substr(0, now.error().message.find_last_not_of('.') + 1));
            } else {
                told.applied = carried.letter;
                told.certainty = translation.certaintyOf(mod);
                fit.job = std::move(tried);
            }
        }
        fit.mods.push_back(std::move(told));
    }
}

/// A part that is only likely the one meant has been looked at as another so far: no paper is made before somebody
/// looked again, with the reading that settles it.
void askToLookAgain(RecipeFit& fit) {
    for (const RecipePart& needed : fit.parts) {
        Part* part = findPart(fit.job.stock, needed.match.other);
        const bool isWorkedOn = std::any_of(fit.job.plan.begin(), fit.job.plan.end(), [&](const Mod& mod) {
            const std::vector<SingleChange> changes = everySingleChange(mod.change);
            return std::any_of(changes.begin(), changes.end(),
                               [&](const SingleChange& change) { return targetOf(change) == needed.match.other; });
        });
        if (needed.match.certainty == MatchCertainty::likely && part != nullptr && isWorkedOn) {
            part->knowledge = Knowledge::drawn;
        }
    }
}

void describeApplied(RecipeFit& fit) {
    for (RecipeMod& told : fit.mods) {
        for (const Mod& mod : fit.job.plan) {
            if (mod.letter == told.applied) {
                told.sentence = describeChange(fit.job.stock, mod.change);
            }
        }
    }
}

}  // namespace

Setting settingOfRecipe(const Recipe& recipe, const RecipeFit& fit) {
    Setting setting = recipe.setting;
    setting.throws = fit.job.setting.throws;
    setting.knobs.clear();
    for (const Knob& knob : recipe.circuit.knobs) {
        const PartMatch* pot = fit.match.find(knob.part);
        const Knob* here = pot != nullptr ? knobOf(fit.job.stock, pot->other) : nullptr;
        if (here != nullptr) {
            setting.knobs[here->id] = knobPosition(recipe.setting, knob.id);
        }
    }
    // What the recipe does not know stands as it does here.
    for (const auto& [id, position] : fit.job.setting.knobs) {
        setting.knobs.emplace(id, position);
    }
    return setting;
}

Result<RecipeFit> fitRecipe(const Recipe& recipe, const Job& unit, const RecipeFitOptions& options,
                            const std::stop_token& stop) {
    if (unit.visit.state == VisitState::gone) {
        return Error{ErrorCode::invalidInput,
                     said("Visit %1 has ended: begin the next one before a recipe is applied.", unit.visit.number)};
    }
    RecipeFit fit;
    fit.match = matchCircuits(recipe.circuit, unit.stock);
    fit.job = unit;
    fit.parts = partsNeeded(recipe, fit.match, unit.stock);
    carryOver(recipe, fit);
    if (const Result<void> trimmed = solveTrims(recipe, options, fit, stop); !trimmed) {
        return trimmed.error();
    }
    askToLookAgain(fit);
    describeApplied(fit);
    if (fit.job.visit.words.empty()) {
        fit.job.visit.words = recipe.words;
    }
    if (const Result<void> compared = findDifferences(recipe, fit, stop); !compared) {
        return compared.error();
    }
    return fit;
}

}  // namespace ohmwright
