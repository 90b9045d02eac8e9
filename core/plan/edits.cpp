// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/edits.h"

#include "core/base/said.h"
#include "core/base/same_figure.h"
#include "core/base/text.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double knobTravel = 10.0;

bool swapsValueOf(const Mod& mod, const PartId& part) {
    const auto* swap = std::get_if<SwapValue>(&mod.change);
    return swap && swap->part == part;
}

Mod* modById(Plan& plan, const std::string& id) {
    const auto found = std::find_if(plan.begin(), plan.end(), [&id](const Mod& mod) { return mod.id == id; });
    return found == plan.end() ? nullptr : &*found;
}

/// REQUIRES: `mod` is one of `plan`.
std::size_t placeOf(const Mod& mod, const Plan& plan) {
    return static_cast<std::size_t>(&mod - plan.data());
}

Error noSuchMod(const std::string& id) {
    return {ErrorCode::invalidInput, said("There is no mod \"%1\" in the plan. Choose one of the list.", id), id};
}

/// A part that a mod of the plan fits, to be changed in place, and that mod.
struct FittedPart {
    Mod* mod = nullptr;
    NewPart* part = nullptr;
};

FittedPart fittedBy(Plan& plan, const PartId& part) {
    for (Mod& mod : plan) {
        for (NewPart* fitted : newPartsOf(mod.change)) {
            if (idOf(mod, *fitted) == part) {
                return {&mod, fitted};
            }
        }
    }
    return {};
}

/// Why the mod at `index` cannot be made: without its letter, which the list may not show yet.
Error reasonAgainst(const Job& edited, std::size_t index, const Error& ofWholePlan) {
    const auto mod = edited.plan.begin() + static_cast<std::ptrdiff_t>(index);
    const Result<Circuit> host = applyPlan(edited.stock, Plan(edited.plan.begin(), mod), edited.setting.throws);
    if (!host || !findPart(*host, targetOf(mod->change))) {
        return ofWholePlan;
    }
    const Result<Circuit> fitted = applyMod(*host, *mod);
    return fitted ? ofWholePlan : fitted.error();
}

/// `edited`, if its plan can be fitted or the plan before could not be either; `index` is the mod that was edited.
Result<Job> ifFittable(const Job& before, Job edited, std::size_t index) {
    const Result<Circuit> now = applyPlan(edited.stock, edited.plan, edited.setting.throws);
    if (now) {
        return edited;
    }
    if (applyPlan(before.stock, before.plan, before.setting.throws)) {
        return reasonAgainst(edited, index, now.error());
    }
    // Something else in the plan is at fault and shown as such; this change is judged on stock.
    const Result<Circuit> alone = applyAlone(edited.stock, edited.plan[index], edited.setting.throws);
    if (!alone) {
        return alone.error();
    }
    return edited;
}

std::string capitalised(std::string text) {
    if (!text.empty()) {
        text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    }
    return text;
}

std::string nameFor(const Job& job, const Change& change) {
    const Part* part = findPart(job.stock, targetOf(change));
    if (!part) {
        return capitalised(said(changeKind(change)));
    }
    if (!part->role.empty()) {
        return capitalised(part->role);
    }
    return part->function.empty() ? displayName(*part) : part->function;
}

std::string freeModId(const Job& job, const std::string& letter) {
    std::string lower;
    for (const char c : letter) {
        lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    const auto isTaken = [&job](const std::string& id) {
        return findPart(job.stock, id) || std::any_of(job.plan.begin(), job.plan.end(), [&id](const Mod& mod) {
                   return mod.id == id || targetOf(mod.change) == id;
               });
    };
    std::string id = "mod-" + lower;
    for (int i = 2; isTaken(id); ++i) {
        id = "mod-" + lower + "-" + std::to_string(i);
    }
    return id;
}

/// The value is back: no mod may hold the part at another one.
void removeValueMods(Plan& plan, const PartId& part) {
    const Mod* effective = valueModOf(plan, part);
    const std::string last = effective ? effective->id : std::string();
    std::erase_if(plan, [&](const Mod& mod) { return swapsValueOf(mod, part) && (mod.on || mod.id == last); });
}

}  // namespace

Result<Job> setPartValue(const Job& job, const PartId& part, double value) {
    Job edited = job;
    const FittedPart fitted = fittedBy(edited.plan, part);
    if (fitted.part && hasValue(fitted.part->kind) && !valueModOf(edited.plan, part)) {
        fitted.part->value = value;
        fitted.mod->on = true;
        return ifFittable(job, edited, placeOf(*fitted.mod, edited.plan));
    }
    const Part* stock = findPart(job.stock, part);
    if (stock && hasValue(stock->kind) && isSameFigure(stock->value, value)) {
        removeValueMods(edited.plan, part);
        return edited;
    }
    const Mod* existing = valueModOf(edited.plan, part);
    if (!existing) {
        return addMod(job, SwapValue{part, value});
    }
    const std::size_t index = placeOf(*existing, edited.plan);
    edited.plan[index].change = SwapValue{part, value};
    edited.plan[index].on = true;
    return ifFittable(job, edited, index);
}

Result<Job> setPartMeasured(const Job& job, const PartId& part, std::optional<double> value) {
    Job edited = job;
    Part* stock = findPart(edited.stock, part);
    if (stock == nullptr || !hasValue(stock->kind)) {
        return Error{
            ErrorCode::invalidInput,
            stock == nullptr
                ? said("“%1” is no part of the unit as found: choose a resistor, capacitor, coil or pot of it.", part)
                : said("%1 has no value that a meter reads: choose a resistor, capacitor, coil or pot of it.",
                       displayName(*stock)),
            part};
    }
    if (value && !(std::isfinite(*value) && *value > 0.0)) {
        return Error{ErrorCode::invalidInput, said("A measured value is above 0: type what the meter read."), part};
    }
    stock->measured = value;
    stock->knowledge = value ? Knowledge::measured : Knowledge::seen;
    return edited;
}

Result<Job> planChanges(const Job& job, const std::vector<Change>& changes) {
    Job planned = job;
    for (const Change& change : changes) {
        const auto* swap = std::get_if<SwapValue>(&change);
        Result<Job> next = swap != nullptr ? setPartValue(planned, swap->part, swap->value) : addMod(planned, change);
        if (!next) {
            return next.error();
        }
        planned = *std::move(next);
    }
    return planned;
}

Change asOneChange(const std::vector<Change>& changes) {
    Combined together;
    for (const Change& change : changes) {
        for (SingleChange& single : singleChanges(change)) {
            together.changes.push_back(std::move(single));
        }
    }
    Change one = std::move(together);
    for (NewPart* fitted : newPartsOf(one)) {
        fitted->id = fitted->id.empty() ? fitted->reference : fitted->id;
    }
    return one;
}

Result<Job> setPartType(const Job& job, const PartId& part, const Model& model) {
    Job edited = job;
    const auto swapsTypeOfPart = [&part](const Mod& mod) {
        const auto* swap = std::get_if<SwapType>(&mod.change);
        return swap && swap->part == part;
    };
    const Part* stock = findPart(job.stock, part);
    if (stock && stock->model == model.name) {
        std::erase_if(edited.plan, swapsTypeOfPart);
        return edited;
    }
    const auto existing = std::find_if(edited.plan.begin(), edited.plan.end(), swapsTypeOfPart);
    const FittedPart fitted = fittedBy(edited.plan, part);
    if (existing == edited.plan.end() && !fitted.part) {
        return addMod(job, SwapType{part, model});
    }
    Mod* mod = existing != edited.plan.end() ? &*existing : fitted.mod;
    if (existing != edited.plan.end()) {
        mod->change = SwapType{part, model};
    } else {
        fitted.part->model = model;
    }
    mod->on = true;
    return ifFittable(job, edited, placeOf(*mod, edited.plan));
}

Result<Job> addMod(const Job& job, const Change& change, const std::string& name) {
    Job edited = job;
    Mod mod;
    mod.letter = nextFreeLetter(job.plan);
    mod.id = freeModId(job, mod.letter);
    mod.name = name.empty() ? nameFor(job, change) : name;
    mod.change = change;
    edited.plan.push_back(mod);
    return ifFittable(job, std::move(edited), job.plan.size());
}

Result<Job> setModOn(const Job& job, const std::string& modId, bool on) {
    Job edited = job;
    Mod* mod = modById(edited.plan, modId);
    if (!mod) {
        return noSuchMod(modId);
    }
    mod->on = on;
    return edited;
}

Result<Job> removeMod(const Job& job, const std::string& modId) {
    Job edited = job;
    if (std::erase_if(edited.plan, [&modId](const Mod& mod) { return mod.id == modId; }) == 0) {
        return noSuchMod(modId);
    }
    return edited;
}

Result<Job> renameMod(const Job& job, const std::string& modId, const std::string& name) {
    Job edited = job;
    Mod* mod = modById(edited.plan, modId);
    if (!mod) {
        return noSuchMod(modId);
    }
    mod->name = name;
    return edited;
}

Result<Job> moveMod(const Job& job, const std::string& modId, int toIndex) {
    Job edited = job;
    Mod* found = modById(edited.plan, modId);
    if (!found) {
        return noSuchMod(modId);
    }
    const Mod mod = *found;
    edited.plan.erase(edited.plan.begin() + (found - edited.plan.data()));
    const int last = static_cast<int>(edited.plan.size());
    edited.plan.insert(edited.plan.begin() + std::clamp(toIndex, 0, last), mod);
    return edited;
}

Result<Job> addWord(const Job& job, const std::string& word) {
    const auto from = word.find_first_not_of(' ');
    const std::string held =
        from == std::string::npos ? "" : inLowerCase(word.substr(from, word.find_last_not_of(' ') - from + 1));
    if (held.empty()) {
        return Error{ErrorCode::invalidInput, said("There is no word to hold against the figures. Choose one."), ""};
    }
    const std::vector<std::string>& words = job.visit.words;
    if (std::find(words.begin(), words.end(), held) != words.end()) {
        return Error{ErrorCode::invalidInput, said("“%1” is held against the figures already.", said(held)), held};
    }
    Job edited = job;
    edited.visit.words.push_back(held);
    return edited;
}

Result<Job> removeWord(const Job& job, const std::string& word) {
    Job edited = job;
    if (std::erase(edited.visit.words, word) == 0) {
        return Error{ErrorCode::invalidInput, said("“%1” is not among the words of this visit.", said(word)), word};
    }
    return edited;
}

Result<Job> setKnob(const Job& job, const std::string& knobId, double position) {
    if (!findKnob(job.stock, knobId)) {
        return Error{ErrorCode::invalidInput, said("There is no knob \"%1\" in this circuit. Choose another.", knobId),
                     knobId};
    }
    if (std::isnan(position)) {
        return Error{ErrorCode::invalidInput,
                     said("The position of \"%1\" is no number. Choose one from 0 to 10.", knobId), knobId};
    }
    Job edited = job;
    edited.setting.knobs[knobId] = std::clamp(position, 0.0, knobTravel);
    return edited;
}

Result<Job> setThrow(const Job& job, const std::string& modId, const std::string& throwName) {
    const auto mod = std::find_if(job.plan.begin(), job.plan.end(), [&](const Mod& one) { return one.id == modId; });
    const auto* fitted = mod == job.plan.end() ? nullptr : std::get_if<FitSwitch>(&mod->change);
    if (!fitted) {
        return Error{ErrorCode::invalidInput,
                     said("The plan fits no switch \"%1\". Choose a mod that fits one, or plan it first.", modId),
                     modId};
    }
    std::string names;
    for (const SwitchThrow& one : fitted->throws) {
        if (one.name == throwName) {
            Job edited = job;
            edited.setting.throws[modId] = throwName;
            return edited;
        }
        names += (names.empty() ? "" : ", ") + one.name;
    }
    return Error{ErrorCode::invalidInput,
                 said("Switch %1 has no throw \"%2\". Choose one of: %3.", mod->letter, throwName, names), modId};
}

Result<Job> setSetting(const Job& job, const Setting& setting) {
    const Result<void> checked = checkSetting(job.stock, setting);
    if (!checked) {
        return checked.error();
    }
    Job edited = job;
    edited.setting = setting;
    return edited;
}

std::string nextFreeLetter(const Plan& plan) {
    constexpr int letters = 26;
    for (int number = 1;; ++number) {
        std::string letter;
        for (int rest = number; rest > 0; rest = (rest - 1) / letters) {
            letter.insert(letter.begin(), static_cast<char>('A' + (rest - 1) % letters));
        }
        if (std::none_of(plan.begin(), plan.end(), [&letter](const Mod& mod) { return mod.letter == letter; })) {
            return letter;
        }
    }
}

const Mod* valueModOf(const Plan& plan, const PartId& part) {
    const Mod* found = nullptr;
    for (const Mod& mod : plan) {
        const bool counts = swapsValueOf(mod, part);
        found = counts && (mod.on || !found || !found->on) ? &mod : found;
    }
    return found;
}

}  // namespace ohmwright
