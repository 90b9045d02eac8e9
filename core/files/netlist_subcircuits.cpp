/// Subcircuit calls: their parts put in the place of the call, each with the call's name before its own.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/circuit/model_limits.h"
#include "core/files/netlist_builder.h"
#include "core/files/netlist_models.h"
#include "core/files/netlist_numbers.h"

#include <algorithm>

namespace ohmwright {

namespace {

constexpr int deepestCall = 50;

bool isParametersWord(const Word& word) {
    const std::string key = inLowerCase(word.text);
    return !word.assigns && (key == "params:" || key == "param:");
}

/// The word that names the subcircuit: the last one before the parameters. 0 when there is none.
std::size_t subcircuitWord(const std::vector<Word>& words) {
    std::size_t at = 0;
    while (at + 1 < words.size() && !words[at + 1].assigns && !isParametersWord(words[at + 1])) {
        ++at;
    }
    return at;
}

std::string netsCounted(std::size_t count) {
    return count == 1 ? said("1 net") : said("%1 nets", count);
}

std::string pinsCounted(std::size_t count) {
    return count == 1 ? said("1 pin") : said("%1 pins", count);
}

/// Names of subcircuits that a body sees, enough of them for a sentence.
std::vector<std::string> definedNames(const Definition& scope) {
    std::vector<std::string> names;
    for (const Definition* place = &scope; place != nullptr; place = place->outer) {
        for (const Definition* inner : place->innerOrder) {
            if (names.size() > mostListed) {
                return names;
            }
            names.push_back(inner->name);
        }
    }
    return names;
}

std::vector<std::string> namesOf(const std::vector<ParameterText>& parameters) {
    std::vector<std::string> names;
    names.reserve(parameters.size());
    for (const ParameterText& one : parameters) {
        names.push_back(one.name);
    }
    return names;
}

std::vector<std::string> pinNames(PartKind kind) {
    std::vector<std::string> names;
    names.reserve(static_cast<std::size_t>(pinCount(kind)));
    for (int pin = 0; pin < pinCount(kind); ++pin) {
        names.push_back(said(pinName(kind, pin)));
    }
    return names;
}

std::string wrongNetCount(const std::string& who, const Word& subcircuit, std::size_t nets,
                          const std::vector<std::string>& pins) {
    return said("%1 gives %2, but %3 has %4: %5.", who, netsCounted(nets), inQuotes(subcircuit.text),
                pinsCounted(pins.size()), listed(pins));
}

}  // namespace

void NetlistBuilder::dissolve(Instance& caller, const std::vector<Word>& words) {
    const Word& name = words.front();
    const std::string who = nameWithCall(name.text, caller.call);
    const std::size_t nameAt = subcircuitWord(words);
    if (nameAt == 0) {
        m_log.fault(name.line,
                    said("%1 names no subcircuit: write %2 NET NET ... SUBCIRCUIT.", who, shortened(name.text)));
        return;
    }
    if (!requireName(name, NameOf::part, m_log)) {
        return;
    }
    const std::string wanted = inLowerCase(words[nameAt].text);
    const Definition* definition = findDefinition(*caller.definition, wanted);
    if (definition == nullptr) {
        if (const auto valve = valveKind(wanted)) {
            enterValve(caller, words, nameAt, *valve);
            return;
        }
        m_log.fault(
            words[nameAt].line,
            said("%1 calls the subcircuit %2, which is not in the file: put its .subckt in; subcircuits here: %3.", who,
                 inQuotes(words[nameAt].text), listed(definedNames(*caller.definition))));
        return;
    }
    Instance call;
    if (openCall(caller, words, nameAt, *definition, call)) {
        m_active.push_back(definition);
        call.parameters.evaluateAll(m_log);
        readCards(call);
        enterModels(call);
        m_active.pop_back();
    }
}

bool NetlistBuilder::openCall(Instance& caller, const std::vector<Word>& words, std::size_t nameAt,
                              const Definition& definition, Instance& call) {
    const Word& name = words.front();
    const std::string who = nameWithCall(name.text, caller.call);
    if (std::find(m_active.begin(), m_active.end(), &definition) != m_active.end()) {
        m_log.fault(name.line, said("%1 calls the subcircuit %2, inside which it stands itself: a subcircuit cannot "
                                    "contain itself; call another one or put parts in its place.",
                                    who, inQuotes(definition.name)));
        return false;
    }
    call.depth = caller.depth + 1;
    if (call.depth > deepestCall) {
        m_log.fault(name.line, said("%1 is a call more than 50 deep: flatten the subcircuits.", who));
        return false;
    }
    call.definition = &definition;
    call.outer = placeOf(caller, definition.outer);
    call.call = caller.prefix + name.text;
    call.prefix = call.call + ".";
    m_called.insert(&definition);
    ++m_calls;
    m_cardCharacters += definition.characters;
    requireRoom(name.line);
    const auto [place, isNew] = m_parts.try_emplace(inLowerCase(call.call), PartEntry{0, name.line});
    if (!isNew) {
        m_log.fault(name.line, said("%1 is there twice, in line %2 and here: give each part its own name.", who,
                                    place->second.line));
        return false;
    }
    if (nameAt - 1 != definition.pins.size()) {
        m_log.fault(words[nameAt].line, wrongNetCount(who, words[nameAt], nameAt - 1, definition.pins));
        return false;
    }
    if (m_full) {
        return false;
    }
    call.parameters = ParameterScope(call.outer == nullptr ? nullptr : &call.outer->parameters);
    defineParameters(call);
    passParameters(caller, words, nameAt, call);
    connectPins(caller, words, nameAt, call);
    return true;
}

/// The use of the definition around the called one, from where the caller stands.
Instance* NetlistBuilder::placeOf(Instance& caller, const Definition* outer) const {
    for (Instance* place = &caller; place != nullptr; place = place->outer) {
        if (place->definition == outer) {
            return place;
        }
    }
    return nullptr;
}

void NetlistBuilder::connectPins(Instance& caller, const std::vector<Word>& words, std::size_t nameAt, Instance& call) {
    SubcircuitCall record;
    for (std::size_t index = 1; index < nameAt; ++index) {
        const Instance::Pin outside = pinOf(caller, words[index]);
        const std::string& pin = call.definition->pins[index - 1];
        const auto topPin = &caller == &m_top ? std::optional(index - 1) : outside.topPin;
        call.pins.emplace(inLowerCase(pin), Instance::Pin{outside.net, topPin});
        record.nets.push_back(outside.net);
        record.pins.push_back(pin);
    }
    call.topCall = caller.topCall;
    if (&caller == &m_top) {
        call.topCall = m_netlist.calls.size();
        record.name = words.front().text;
        record.subcircuit = call.definition->name;
        m_netlist.calls.push_back(std::move(record));
    }
}

void NetlistBuilder::passParameters(Instance& caller, const std::vector<Word>& words, std::size_t nameAt,
                                    Instance& call) {
    const std::string who = nameWithCall(words.front().text, caller.call);
    const std::vector<ParameterText>& known = call.definition->callParameters;
    std::unordered_set<std::string> seen;
    for (std::size_t index = nameAt + 1; index < words.size(); ++index) {
        const Word& word = words[index];
        if (isParametersWord(word)) {
            continue;
        }
        if (!word.assigns) {
            m_log.fault(word.line, said("%1 has %2 after the subcircuit's name: write parameters as NAME=VALUE.", who,
                                        inQuotes(word.text)));
            continue;
        }
        const std::string key = inLowerCase(word.text);
        const bool exists = std::any_of(known.begin(), known.end(),
                                        [&key](const ParameterText& one) { return inLowerCase(one.name) == key; });
        if (!exists) {
            m_log.fault(word.line,
                        said("%1 gives the parameter %2, which the subcircuit %3 does not have: its parameters are %4.",
                             who, inQuotes(word.text), inQuotes(call.definition->name), listed(namesOf(known))));
        } else if (!seen.insert(key).second) {
            m_log.fault(word.line,
                        said("%1 gives the parameter %2 twice: delete one of them.", who, inQuotes(word.text)));
        } else {
            const auto value = valueOf(caller, word.value, word.line, who + ": " + shortened(word.text), true);
            call.parameters.define(word.text, value.value_or(0.0));
        }
    }
}

/// A valve of the program's own: a part with a model of its own.
void NetlistBuilder::enterValve(Instance& caller, const std::vector<Word>& words, std::size_t nameAt, PartKind kind) {
    const Word& name = words.front();
    const std::string who = nameWithCall(name.text, caller.call);
    const std::vector<std::string> pins = pinNames(kind);
    if (nameAt - 1 != pins.size()) {
        m_log.fault(words[nameAt].line, wrongNetCount(who, words[nameAt], nameAt - 1, pins));
        return;
    }
    Part part;
    part.kind = kind;
    for (std::size_t pin = 0; pin < pins.size(); ++pin) {
        part.nets.push_back(netOf(caller, words[pin + 1]));
    }
    Model model = readValveModel(caller, words, nameAt, kind);
    model.name = caller.prefix + name.text;
    while (!m_modelNames.insert(inLowerCase(model.name)).second) {
        model.name += "'";
    }
    part.model = model.name;
    if (addPart(caller, name, std::move(part))) {
        m_netlist.circuit.models.push_back(std::move(model));
    }
}

Model NetlistBuilder::readValveModel(Instance& caller, const std::vector<Word>& words, std::size_t nameAt,
                                     PartKind kind) {
    const std::string who = nameWithCall(words.front().text, caller.call);
    const auto known = valveParameters(kind);
    Model model;
    model.kind = kind;
    model.source = "netlist, line " + std::to_string(words.front().line);
    for (std::size_t index = nameAt + 1; index < words.size(); ++index) {
        const Word& word = words[index];
        const std::string key = valveParameterName(kind, word.text);
        if (isParametersWord(word)) {
            continue;
        }
        if (!word.assigns || std::find(known.begin(), known.end(), key) == known.end()) {
            const std::vector<std::string> names(known.begin(), known.end());
            m_log.fault(word.line, said("%1 has %2, which %3 does not take: it takes NAME=VALUE of %4.", who,
                                        inQuotes(word.text), inQuotes(words[nameAt].text), listed(names)));
            continue;
        }
        const auto value = valueOf(caller, word.value, word.line, who + ": " + word.text, true);
        const std::string_view wrong = value ? faultOfParameter(kind, key, *value) : std::string_view();
        if (!wrong.empty()) {
            m_log.fault(word.line,
                        said("%1 has %2=%3: %4 %5.", who, word.text, shortened(word.value), key, said(wrong)));
        } else if (value && !model.parameters.emplace(key, *value).second) {
            m_log.fault(word.line, said("%1 has %2 twice: delete one of them.", who, key));
        }
    }
    return model;
}

void NetlistBuilder::buildUncalled(const std::unordered_set<const Definition*>& called) {
    for (const Definition* definition : m_file.top.innerOrder) {
        if (called.contains(definition) || m_full) {
            continue;
        }
        std::vector<Word> words{{"X_" + definition->name, false, {}, definition->line}};
        for (const std::string& pin : definition->pins) {
            words.push_back({words.front().text + "." + pin, false, {}, definition->line});
        }
        words.push_back({definition->name, false, {}, definition->line});
        dissolve(m_top, words);
    }
    resolveReferences();
}

}  // namespace ohmwright
