// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/mod.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/said_meaning.h"
#include "core/base/value_text.h"

#include <algorithm>
#include <type_traits>
#include <utility>

namespace ohmwright {

namespace {

/// The printed number of a pin, or its place from 1.
std::string legOf(const Part* part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    if (part && pin >= 0 && index < part->pins.size() && !part->pins[index].empty()) {
        return part->pins[index];
    }
    return std::to_string(pin + 1);
}

std::string whatIsFitted(const NewPart& part) {
    if (!part.model.name.empty()) {
        return part.model.name;
    }
    return part.kind == PartKind::link ? said("wire") : formatPartValue({part.value, unitOf(part.kind)});
}

/// "250k log 15 %", "22k linear".
std::string potWords(double ohms, Taper taper, double shareAtHalf) {
    const std::string track = formatPartValue({ohms, Unit::ohm});
    if (taper == Taper::linear) {
        return said("%1 linear", track);
    }
    constexpr double percent = 100.0;
    return said(taper == Taper::logarithmic ? toSay("%1 log %2 %") : toSay("%1 reverse log %2 %"), track,
                formatFixed(shareAtHalf * percent, 0));
}

std::string netWords(const NetName& net) {
    return net == groundNet ? said("ground") : net;
}

/// One sentence part a kind of change; `part` is null for a part that another mod fits.
struct ChangeDescriber {
    const Part* part;

    std::string operator()(const SwapValue& change) const {
        if (!part) {
            return said("new value");
        }
        const Unit unit = unitOf(part->kind);
        return formatPartValue({part->value, unit}) + " → " + formatPartValue({change.value, unit});
    }
    std::string operator()(const SwapType& change) const {
        return (part ? part->model + " → " : std::string()) + change.model.name;
    }
    std::string operator()(const AddInSeries& change) const {
        return said(change.reversed ? toSay("%1 in series, reversed") : toSay("%1 in series"),
                    whatIsFitted(change.fitted));
    }
    std::string operator()(const AddAcross& change) const {
        return said(change.reversed ? toSay("%1 across, reversed") : toSay("%1 across"), whatIsFitted(change.fitted));
    }
    std::string operator()(const Lift& change) const { return said("leg %1 lifted", legOf(part, change.pin)); }
    std::string operator()(const Bridge& change) const {
        return said("legs %1 and %2 bridged", legOf(part, change.pinA), legOf(part, change.pinB));
    }
    std::string operator()(const RemovePart&) const { return said("removed"); }
    std::string operator()(const ChangePot& change) const {
        const std::string now = potWords(change.ohms, change.taper, change.shareAtHalf);
        return part ? potWords(part->value, part->taper, part->shareAtHalf) + " → " + now : now;
    }
    std::string operator()(const MoveLeg& change) const {
        return said("leg %1 to %2", legOf(part, change.pin), change.net);
    }
    std::string operator()(const AddPart& change) const {
        const std::string first = change.nets.empty() ? std::string() : netWords(change.nets.front());
        if (change.nets.size() < 2) {
            return saidMeaning("a part to a net", "%1 to %2", {whatIsFitted(change.fitted), first});
        }
        std::string others;
        for (std::size_t leg = 1; leg < change.nets.size(); ++leg) {
            others.append(leg > 1 ? ", " : "").append(netWords(change.nets[leg]));
        }
        return said("%1 to %2, %3", whatIsFitted(change.fitted), first, others);
    }
};

template <class AnyChange, class NewPartPointer>
void gatherNewParts(AnyChange& change, std::vector<NewPartPointer>& parts) {
    std::visit(
        [&parts](auto& kind) {
            using Kind = std::decay_t<decltype(kind)>;
            if constexpr (requires { kind.fitted; }) {
                parts.push_back(&kind.fitted);
            } else if constexpr (std::is_same_v<Kind, Combined>) {
                for (auto& single : kind.changes) {
                    gatherNewParts(single, parts);
                }
            } else if constexpr (std::is_same_v<Kind, FitSwitch>) {
                for (auto& position : kind.throws) {
                    for (auto& single : position.changes) {
                        gatherNewParts(single, parts);
                    }
                }
            }
        },
        change);
}

/// The reference of the part that is changed, or of the one that comes; `whole` may have fitted the one before.
std::string whomItConcerns(const Circuit& stock, const Change& whole, const SingleChange& change) {
    if (const auto* added = std::get_if<AddPart>(&change)) {
        return added->fitted.reference;
    }
    if (const Part* part = findPart(stock, targetOf(change))) {
        return part->reference;
    }
    for (const NewPart* fitted : newPartsOf(whole)) {
        if (fitted->id == targetOf(change)) {
            return fitted->reference;
        }
    }
    return targetOf(change);
}

std::string describeSingle(const Circuit& stock, const SingleChange& change) {
    return std::visit(ChangeDescriber{findPart(stock, targetOf(change))}, change);
}

}  // namespace

const PartId& targetOf(const Change& change) {
    return std::visit(
        [](const auto& kind) -> const PartId& {
            if constexpr (std::is_same_v<std::decay_t<decltype(kind)>, Combined>) {
                static const PartId none;
                return kind.changes.empty() ? none : targetOf(kind.changes.front());
            } else {
                return kind.part;
            }
        },
        change);
}

const PartId& targetOf(const SingleChange& change) {
    return std::visit([](const auto& kind) -> const PartId& { return kind.part; }, change);
}

std::vector<SingleChange> singleChanges(const Change& change, const std::string& throwName) {
    return std::visit(
        [&throwName](const auto& kind) -> std::vector<SingleChange> {
            using Kind = std::decay_t<decltype(kind)>;
            if constexpr (std::is_same_v<Kind, Combined>) {
                return kind.changes;
            } else if constexpr (std::is_same_v<Kind, FitSwitch>) {
                const auto named =
                    std::find_if(kind.throws.begin(), kind.throws.end(),
                                 [&](const SwitchThrow& position) { return position.name == throwName; });
                if (kind.throws.empty()) {
                    return {};
                }
                return named == kind.throws.end() ? kind.throws.front().changes : named->changes;
            } else {
                return {kind};
            }
        },
        change);
}

std::vector<SingleChange> everySingleChange(const Change& change) {
    const auto* fitted = std::get_if<FitSwitch>(&change);
    if (fitted == nullptr) {
        return singleChanges(change);
    }
    std::vector<SingleChange> changes;
    for (const SwitchThrow& position : fitted->throws) {
        changes.insert(changes.end(), position.changes.begin(), position.changes.end());
    }
    return changes;
}

std::string nameOfMod(const Mod& mod) {
    const std::string& letter = mod.letter.empty() ? mod.id : mod.letter;
    return mod.name.empty() ? said("Mod %1", letter) : said("Mod %1 (%2)", letter, mod.name);
}

std::vector<NewPart*> newPartsOf(Change& change) {
    std::vector<NewPart*> parts;
    gatherNewParts(change, parts);
    return parts;
}

std::vector<const NewPart*> newPartsOf(const Change& change) {
    std::vector<const NewPart*> parts;
    gatherNewParts(change, parts);
    return parts;
}

const PartId& idOf(const Mod& mod, const NewPart& fitted) {
    return fitted.id.empty() ? mod.id : fitted.id;
}

bool fitsPart(const Mod& mod, const PartId& part) {
    if (std::holds_alternative<Bridge>(mod.change)) {
        return mod.id == part;
    }
    const std::vector<const NewPart*> fitted = newPartsOf(mod.change);
    return std::any_of(fitted.begin(), fitted.end(), [&](const NewPart* one) { return idOf(mod, *one) == part; });
}

std::vector<Mod> asSingleMods(const Mod& mod, const std::string& throwName) {
    std::vector<Mod> mods;
    for (const SingleChange& single : singleChanges(mod.change, throwName)) {
        Mod one = mod;
        one.change = std::visit([](const auto& kind) -> Change { return kind; }, single);
        mods.push_back(std::move(one));
    }
    return mods;
}

std::string describeChange(const Circuit& stock, const Change& change) {
    if (const auto* fitted = std::get_if<FitSwitch>(&change)) {
        std::string names;
        for (const SwitchThrow& position : fitted->throws) {
            names += (names.empty() ? "" : " / ") + position.name;
        }
        return said("switch: %1", names);
    }
    const std::vector<SingleChange> singles = singleChanges(change);
    if (!std::holds_alternative<Combined>(change)) {
        return describeSingle(stock, singles.front());
    }
    // "D1, D2 1N4148 → BAT41": parts to which the same is done stand together.
    std::vector<std::pair<std::string, std::string>> done;
    for (const SingleChange& single : singles) {
        const std::string what = describeSingle(stock, single);
        const std::string whom = whomItConcerns(stock, change, single);
        if (!done.empty() && done.back().second == what) {
            done.back().first += ", " + whom;
        } else {
            done.emplace_back(whom, what);
        }
    }
    std::string words;
    for (const auto& [whom, what] : done) {
        words += words.empty() ? "" : "; ";
        words.append(whom).append(" ").append(what);
    }
    return words;
}

std::string_view changeKind(const Change& change) {
    struct Namer {
        std::string_view operator()(const SwapValue&) const { return toSay("swap value"); }
        std::string_view operator()(const SwapType&) const { return toSay("swap type"); }
        std::string_view operator()(const AddInSeries&) const { return toSay("add in series"); }
        std::string_view operator()(const AddAcross&) const { return toSay("add across"); }
        std::string_view operator()(const Lift&) const { return toSay("lift"); }
        std::string_view operator()(const Bridge&) const { return toSay("bridge"); }
        std::string_view operator()(const RemovePart&) const { return toSay("remove"); }
        std::string_view operator()(const ChangePot&) const { return toSay("change pot"); }
        std::string_view operator()(const MoveLeg&) const { return toSay("move leg"); }
        std::string_view operator()(const AddPart&) const { return toSay("add part"); }
        std::string_view operator()(const Combined&) const { return toSay("combined"); }
        std::string_view operator()(const FitSwitch&) const { return toSay("fit switch"); }
    };
    return std::visit(Namer{}, change);
}

}  // namespace ohmwright
