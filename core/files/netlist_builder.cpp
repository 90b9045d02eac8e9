// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_builder.h"

#include "core/base/said.h"
#include "core/files/netlist_cards.h"
#include "core/files/netlist_models.h"
#include "core/files/netlist_numbers.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

// Bounds of what a file may become: with them no text needs more than half a GiB or a few seconds.
constexpr std::size_t mostParts = 200'000;                           // And calls, and models.
constexpr std::size_t mostCardCharacters = std::size_t{64} << 20U;   // Read in calls, over and over.
constexpr std::size_t mostNameCharacters = std::size_t{128} << 20U;  // Of parts, nets and laws.

constexpr std::size_t mostSearched = 1000;  // Models looked through for names to propose.

bool isGround(const std::string& lowerName) {
    return lowerName == "0" || lowerName == "gnd";
}

/// Signs of calculation after something to calculate with: `2*r`, `sqrt(2)`, but not `--5`.
bool looksLikeFormula(std::string_view text) {
    const std::size_t operand = text.find_first_not_of("+-");
    return operand != std::string_view::npos && text.find_first_of("()*/^+-", operand + 1) != std::string_view::npos;
}

}  // namespace

std::string nameWithCall(const std::string& name, const std::string& call) {
    return call.empty() ? shortened(name) : said("%1 in the call %2", shortened(name), shortened(call));
}

NetlistBuilder::NetlistBuilder(const NetlistFile& file, NetlistLog& log) : m_file(file), m_log(log) {
    m_netlist.title = file.title;
    m_top.definition = &file.top;
    defineParameters(m_top);
}

void NetlistBuilder::buildAll() {
    m_top.parameters.evaluateAll(m_log);
    enterModels(m_top);
    m_called.insert(&m_file.top);
    readCards(m_top);
    if (m_netlist.circuit.parts.empty() && !m_log.hasFault()) {
        m_log.fault(m_file.lastLine, said("The file has no parts: write at least one, such as R1 in out 1k."));
    }
    if (!m_full) {
        resolveReferences();
    }
    if (!m_log.hasFault()) {
        noteSinglePins();
    }
}

void NetlistBuilder::readCards(Instance& instance) {
    for (const Card& card : instance.definition->cards) {
        if (m_full) {
            return;
        }
        readCard(instance, card);
    }
}

void NetlistBuilder::readCard(Instance& instance, const Card& card) {
    m_netsRead.clear();
    const std::optional<CardText> text = joinCard(card, m_log);
    if (text && !text->text.empty() && !readElement(*this, instance, *text)) {
        loseNames(instance, *text);
    }
}

/// What others say of a part that could not be read, or of its nets, is no fault of theirs.
void NetlistBuilder::loseNames(const Instance& instance, const CardText& text) {
    constexpr std::size_t mostLost = 100'000;
    NetlistLog silent;
    const auto words = splitWords(text, silent);
    if (!words) {
        m_lostNames.insert(inLowerCase(instance.prefix) + firstWord(text.text));
        return;
    }
    for (const Word& word : *words) {
        if (m_lostNames.size() < mostLost) {
            m_lostNames.insert(inLowerCase(instance.prefix + word.text));
        }
    }
}

void NetlistBuilder::requireRoom(int line) {
    const std::size_t parts = m_netlist.circuit.parts.size() + m_netlist.circuit.models.size() + m_calls;
    if (parts > mostParts) {
        m_log.fault(line, said("The circuit has more than 200,000 parts, counted through its subcircuit calls: leave "
                               "out what is not asked for."));
        m_full = true;
    } else if (m_cardCharacters > mostCardCharacters || m_nameCharacters > mostNameCharacters) {
        m_log.fault(line,
                    said("The subcircuit calls make the circuit too large to hold: leave out what is not asked for."));
        m_full = true;
    }
}

NetName NetlistBuilder::netOf(Instance& instance, const Word& word) {
    const Instance::Pin read = pinOf(instance, word);
    if (instance.topCall) {
        m_netsRead.push_back(read);
    }
    return read.net;
}

Instance::Pin NetlistBuilder::pinOf(Instance& instance, const Word& word) {
    const std::string lower = inLowerCase(word.text);
    if (isGround(lower)) {
        return {NetName(groundNet), std::nullopt};
    }
    if (!requireName(word, NameOf::net, m_log)) {
        return {NetName(groundNet), std::nullopt};
    }
    if (const auto pin = instance.pins.find(lower); pin != instance.pins.end()) {
        return pin->second;
    }
    const bool global = m_file.globals.contains(lower);
    const std::string& prefix = global ? m_top.prefix : instance.prefix;
    const NetName& net = enterNet(prefix, word);
    if (&instance == &m_top && m_topNets.insert(lower).second) {
        m_netlist.topNets.push_back(net);
    }
    return {net, std::nullopt};
}

/// Fault: a net written "X1.m" beside the net m inside the call X1, which goes by that name.
const NetName& NetlistBuilder::enterNet(const std::string& prefix, const Word& word) {
    const NetName name = prefix + word.text;
    const auto [place, isNew] = m_nets.try_emplace(inLowerCase(name), m_netEntries.size());
    if (isNew) {
        m_netEntries.push_back({name, prefix.size(), word.line, 0});
    }
    const NetEntry& net = m_netEntries[place->second];
    if (net.prefix != prefix.size()) {
        m_log.fault(word.line, said("The net %1 would be two: one written so, and %2 inside the call %3: give the "
                                    "outer one (see line %4) another name.",
                                    inQuotes(name), inQuotes(name.substr(std::max(net.prefix, prefix.size()))),
                                    shortened(name.substr(0, std::max(net.prefix, prefix.size()) - 1)), net.line));
    }
    return net.name;
}

std::optional<double> NetlistBuilder::valueOf(Instance& instance, std::string_view text, int line,
                                              const std::string& who, bool bare) {
    const Result<NetlistNumber> number = readDoubtfulNumber(text);
    if (number) {
        noteDoubt(m_log, line, who, number->doubt);
        return number->value;
    }
    const bool braced = text.find('{') != std::string_view::npos;
    const bool known = instance.parameters.knows(text);
    if (braced || (bare && (known || looksLikeFormula(text)))) {
        return instance.parameters.evaluate(withoutBraces(text), line, who, m_log);
    }
    if (known || looksLikeFormula(text)) {
        m_log.fault(
            line,
            known ? said("%1 has the parameter %2 without braces: write {%3}.", who, inQuotes(text), shortened(text))
                  : said("%1 has the formula %2 without braces: write {%3}.", who, inQuotes(text), shortened(text)));
    } else {
        m_log.fault(line, who + ": " + number.error().message);
    }
    return std::nullopt;
}

ModelPlace NetlistBuilder::findModel(Instance& instance, std::string_view name) const {
    const std::string key = inLowerCase(name);
    for (Instance* place = &instance; place != nullptr; place = place->outer) {
        const auto found = place->definition->models.find(key);
        if (found != place->definition->models.end()) {
            return {&found->second, place};
        }
    }
    return {};
}

bool NetlistBuilder::lostModel(const Instance& instance, std::string_view name) {
    const std::string key = inLowerCase(name);
    for (const Instance* place = &instance; place != nullptr; place = place->outer) {
        if (place->definition->lostModels.contains(key)) {
            return true;
        }
    }
    return false;
}

std::vector<std::string> NetlistBuilder::modelNames(const Instance& instance, PartKind kind) const {
    std::vector<std::string> names;
    for (const Instance* place = &instance; place != nullptr; place = place->outer) {
        const std::vector<std::string>& order = place->definition->modelOrder;
        for (std::size_t index = 0; index < std::min(order.size(), mostSearched); ++index) {
            const ModelText& text = place->definition->models.at(order[index]);
            if (text.kind == kind && names.size() <= mostListed) {
                names.push_back(text.name);
            }
        }
    }
    return names;
}

/// A model whose figures are the same in every call is entered once, under its definition's name; others once a call.
std::string NetlistBuilder::enterModel(const ModelPlace& place) {
    Instance& instance = *place.instance;
    const std::string key = inLowerCase(place.text->name);
    if (const auto found = instance.models.find(key); found != instance.models.end()) {
        return found->second;
    }
    if (const auto found = m_constantModels.find(place.text); found != m_constantModels.end()) {
        return found->second;
    }
    bool constant = true;
    std::optional<Model> model = readModel(*place.text, instance.parameters, m_log, constant);
    const bool top = instance.outer == nullptr;
    std::string name = place.text->name;
    if (!top) {
        name = (constant ? instance.definition->name + "." : instance.prefix) + name;
    }
    while (!m_modelNames.insert(inLowerCase(name)).second) {
        name += "'";  // A call and a definition of one name.
    }
    if (constant) {
        m_constantModels.emplace(place.text, name);
    } else {
        instance.models.emplace(key, name);
    }
    if (model) {
        model->name = name;
        m_netlist.circuit.models.push_back(std::move(*model));
        requireRoom(place.text->line);
    }
    return name;
}

void NetlistBuilder::enterModels(Instance& instance) {
    for (const std::string& key : instance.definition->modelOrder) {
        if (m_full) {
            return;
        }
        enterModel({&instance.definition->models.at(key), &instance});
    }
}

std::optional<std::size_t> NetlistBuilder::addPart(const Instance& instance, const Word& name, Part part) {
    if (!requireName(name, NameOf::part, m_log)) {
        return std::nullopt;
    }
    part.id = instance.prefix + name.text;
    const std::size_t index = m_netlist.circuit.parts.size();
    const auto [place, isNew] = m_parts.try_emplace(inLowerCase(part.id), PartEntry{index, name.line});
    if (!isNew) {
        m_log.fault(name.line, said("%1 is there twice, in line %2 and here: give each part its own name.",
                                    nameWithCall(name.text, instance.call), place->second.line));
        return std::nullopt;
    }
    part.reference = part.id;
    part.call = instance.call;
    m_nameCharacters += 2 * part.id.size() + part.call.size() + part.model.size();
    for (const NetName& net : part.nets) {
        m_nameCharacters += net.size();
        countConnection(inLowerCase(net));
    }
    m_netlist.circuit.parts.push_back(std::move(part));
    noteCallTerminals(instance, index);
    requireRoom(name.line);
    return index;
}

/// Two pins of a call may share a net, so that a part's nets alone do not tell on which of them it stands: the words
/// do.
void NetlistBuilder::noteCallTerminals(const Instance& instance, std::size_t part) {
    if (!instance.topCall) {
        return;
    }
    const std::vector<NetName>& nets = m_netlist.circuit.parts[part].nets;
    auto read = m_netsRead.begin();
    for (std::size_t terminal = 0; terminal < nets.size(); ++terminal) {
        const auto found =
            std::find_if(read, m_netsRead.end(), [&](const Instance::Pin& pin) { return pin.net == nets[terminal]; });
        if (found == m_netsRead.end()) {
            continue;
        }
        if (found->topPin) {
            m_netlist.calls[*instance.topCall].terminals.push_back({part, terminal, *found->topPin});
        }
        read = found + 1;
    }
}

void NetlistBuilder::countConnection(const std::string& key) {
    const auto net = m_nets.find(key);
    if (net != m_nets.end()) {
        ++m_netEntries[net->second].connections;
    }
}

void NetlistBuilder::noteSinglePins() {
    for (const NetEntry& net : m_netEntries) {
        if (net.connections == 1) {
            m_log.note(net.line, said("The net %1 is connected to one part only.", inQuotes(net.name)));
        }
    }
}

void NetlistBuilder::defineParameters(Instance& instance) {
    for (const ParameterText& parameter : instance.definition->callParameters) {
        instance.parameters.define(parameter);
    }
    for (const ParameterText& parameter : instance.definition->parameters) {
        instance.parameters.define(parameter);
    }
}

}  // namespace ohmwright
