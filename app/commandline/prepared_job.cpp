// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/prepared_job.h"

#include "core/plan/apply.h"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

namespace ohmwright {

namespace {

/// "Pick level" and "pick_level" are "pick-level".
std::string plainName(std::string_view text) {
    std::string name;
    for (char c : text) {
        if (c == ' ' || c == '_') c = '-';
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        name += c;
    }
    return name;
}

std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

Result<void> setSource(Circuit& circuit, const std::string& value) {
    const std::string kind = plainName(value);
    if (kind == "pickup") return {};
    if (kind != "jack") return refuseOption("--set source", "choose pickup or jack.");
    Part* source = findPart(circuit, circuit.ports.source);
    if (source == nullptr || source->nets.empty() || circuit.ports.jack.empty())
        return refuseOption("--set source", "this job names no source or no jack, so the jack cannot be driven.");
    // An ideal source at the jack: whatever the pickup, volume and cable still load it with changes nothing.
    source->nets.front() = circuit.ports.jack;
    return {};
}

Result<void> setFigure(Setting& setting, const std::string& name, const std::string& value) {
    struct Figure {
        double Setting::*place;
        Unit unit;
    };
    static const std::map<std::string, Figure> figures = {{"pick-level", {&Setting::pickVoltsPeak, Unit::volt}},
                                                          {"pick", {&Setting::pickVoltsPeak, Unit::volt}},
                                                          {"tone", {&Setting::toneHz, Unit::hertz}},
                                                          {"battery", {&Setting::batteryVolts, Unit::volt}},
                                                          {"load", {&Setting::loadOhms, Unit::ohm}}};
    const Result<double> figure = readFigure("--set " + name, value, figures.at(name).unit);
    if (!figure) return figure.error();
    setting.*(figures.at(name).place) = *figure;
    return {};
}

bool isFigureName(const std::string& name) {
    constexpr std::string_view names[] = {"pick-level", "pick", "tone", "battery", "load"};
    return std::find(std::begin(names), std::end(names), name) != std::end(names);
}

/// The knob of that id, or whose name reads the same.
const Knob* knobNamed(const Circuit& circuit, const std::string& text) {
    if (const Knob* knob = findKnob(circuit, text)) return knob;
    for (const Knob& knob : circuit.knobs)
        if (plainName(knob.id) == plainName(text) || plainName(knob.name) == plainName(text)) return &knob;
    return nullptr;
}

/// The mod of the plan that fits a switch with that letter or name.
const Mod* switchNamed(const Plan& plan, const std::string& text) {
    for (const Mod& mod : plan)
        if (std::holds_alternative<FitSwitch>(mod.change) &&
            (mod.id == text || plainName(mod.letter) == plainName(text) || plainName(mod.name) == plainName(text)))
            return &mod;
    return nullptr;
}

Result<void> setThrow(Job& job, const Mod& mod, const std::string& value) {
    std::vector<std::string> names;
    for (const SwitchThrow& position : std::get<FitSwitch>(mod.change).throws) {
        if (plainName(position.name) == plainName(value)) {
            job.setting.throws[mod.id] = position.name;
            return {};
        }
        names.push_back(position.name);
    }
    return refuseOption(
        "--set", "the switch “" + mod.name + "” has no throw “" + value + "”: choose from " + listed(names) + ".");
}

Result<void> setOne(Job& job, const std::string& pair) {
    const std::size_t equals = pair.find('=');
    if (equals == std::string::npos || equals == 0)
        return refuseOption("--set", "write NAME=VALUE, as in drive=3 or battery=7.2.");
    const std::string name = pair.substr(0, equals);
    const std::string value = pair.substr(equals + 1);
    if (const Knob* knob = knobNamed(job.stock, name)) {
        const Result<double> position = readFigure("--set " + name, value, Unit::none);
        if (!position) return position.error();
        job.setting.knobs[knob->id] = *position;
        return {};
    }
    if (const Mod* fitted = switchNamed(job.plan, name)) return setThrow(job, *fitted, value);
    if (plainName(name) == "source") return setSource(job.stock, value);
    if (isFigureName(plainName(name))) return setFigure(job.setting, plainName(name), value);
    std::vector<std::string> known;
    for (const Knob& knob : job.stock.knobs) known.push_back(knob.id);
    for (const Mod& mod : job.plan)
        if (std::holds_alternative<FitSwitch>(mod.change)) known.push_back(mod.name.empty() ? mod.letter : mod.name);
    for (const char* figure : {"source", "load", "battery", "pick-level", "tone"}) known.emplace_back(figure);
    return refuseOption("--set", "“" + name + "” is nothing that can be set here: choose from " + listed(known) + ".");
}

Result<void> setInput(Circuit& circuit, const std::string& name) {
    const Part* source = findPart(circuit, name);
    if (source == nullptr) source = findPartByReference(circuit, name);
    if (source == nullptr || source->kind != PartKind::voltageSource)
        return refuseOption("--input", "“" + name + "” is no voltage source of this circuit.");
    const PartId id = source->id;
    circuit.ports.source = id;
    Part* chosen = findPart(circuit, id);
    if (chosen->acAmplitude == 0.0) chosen->acAmplitude = 1.0;
    return {};
}

Result<void> setOutput(PreparedCircuit& prepared, const std::string& net) {
    const auto touches = [&net](const Part& part) {
        return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
    };
    const std::vector<Part>& parts = prepared.circuit.parts;
    if (net == groundNet || std::none_of(parts.begin(), parts.end(), touches))
        return refuseOption("--output",
                            "“" + net + "” is no net of this circuit other than ground; bias lists them all.");
    prepared.circuit.ports.output = net;
    prepared.job->stock.ports.output = net;
    return {};
}

/// In the order of the parts, without ground.
std::vector<NetName> netsOf(const Circuit& circuit) {
    std::vector<NetName> nets;
    std::set<NetName> seen{NetName(groundNet)};
    for (const Part& part : circuit.parts)
        for (const NetName& net : part.nets)
            if (seen.insert(net).second) nets.push_back(net);
    return nets;
}

const Mod* modLettered(const Plan& plan, std::string_view letter) {
    const auto found =
        std::find_if(plan.begin(), plan.end(), [letter](const Mod& mod) { return mod.letter == letter; });
    return found == plan.end() ? nullptr : &*found;
}

/// "A+B" and "AB" name the same mods; a letter pair that is a mod of its own ("AA") is that mod.
std::vector<std::string> lettersOf(const Plan& plan, std::string_view variant) {
    std::vector<std::string> letters;
    std::string word;
    const auto take = [&] {
        if (word.empty()) return;
        if (modLettered(plan, word) != nullptr)
            letters.push_back(word);
        else
            for (char c : word) letters.emplace_back(1, c);
        word.clear();
    };
    for (char c : variant) {
        if (c == '+' || c == ',' || c == ' ')
            take();
        else
            word += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    take();
    return letters;
}

}  // namespace

Result<Job> withSettings(const Job& job, const Request& request) {
    Job result = job;
    if (!request.input.empty()) {
        const Result<void> input = setInput(result.stock, request.input);
        if (!input) return input.error();
    }
    for (const std::string& pair : request.settings) {
        const Result<void> set = setOne(result, pair);
        if (!set) return set.error();
    }
    Result<Setting> setting = withTemperature(result.setting, request);
    if (!setting) return setting.error();
    result.setting = *std::move(setting);
    const Result<void> sound = checkSetting(result.stock, result.setting);
    if (!sound) return sound.error();
    return result;
}

Result<Plan> planOfVariant(const Plan& plan, std::string_view variant) {
    if (variant == "now") return plan;
    Plan result = plan;
    for (Mod& mod : result) mod.on = false;
    if (variant == "stock") return result;
    const std::vector<std::string> letters = lettersOf(plan, variant);
    std::vector<std::string> known;
    for (const Mod& mod : plan) known.push_back(mod.letter);
    if (letters.empty()) return refuseOption("--variant", "choose stock, now or letters of the plan, as in A+B.");
    for (const std::string& letter : letters) {
        const Mod* mod = modLettered(plan, letter);
        if (mod == nullptr)
            return refuseOption("--variant", "“" + std::string(variant) +
                                                 "” names a mod that the plan does not have: choose "
                                                 "stock, now or from " +
                                                 (known.empty() ? "no mods, the plan is empty" : listed(known)) + ".");
        result[static_cast<std::size_t>(mod - plan.data())].on = true;
    }
    return result;
}

Result<PreparedCircuit> prepareJob(const Job& job, const Request& request, std::string_view defaultVariant) {
    Result<Job> set = withSettings(job, request);
    if (!set) return set.error();
    Result<Plan> plan = planOfVariant(job.plan, request.variant.empty() ? defaultVariant : request.variant);
    if (!plan) return plan.error();
    set->plan = *std::move(plan);
    Result<Circuit> circuit = nowCircuit(*set);
    if (!circuit) {
        Error error = circuit.error();
        // The plan as it stands in the file; a variant of the caller's own choosing is the call's fault.
        if (request.variant.empty() || request.variant == "now") error.code = ErrorCode::fileDamaged;
        return error;
    }
    PreparedCircuit prepared;
    prepared.circuit = *std::move(circuit);
    prepared.setting = set->setting;
    prepared.nets = netsOf(prepared.circuit);
    prepared.title = set->unit.name;
    prepared.job = *std::move(set);
    if (!request.output.empty()) {
        const Result<void> output = setOutput(prepared, request.output);
        if (!output) return output.error();
    }
    return prepared;
}

}  // namespace ohmwright
