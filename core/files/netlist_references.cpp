/// What parts of a netlist say of other parts and nets, looked up when all of them are there.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/circuit/couplings.h"
#include "core/files/netlist_builder.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

std::string localName(const Part& part) {
    return part.call.empty() ? part.id : part.id.substr(part.call.size() + 1);
}

}  // namespace

void NetlistBuilder::referToSource(std::size_t part, const Instance& instance, const Word& source) {
    m_sourceReferences.push_back({part, inLowerCase(instance.prefix + source.text), source, instance.call});
}

void NetlistBuilder::referToInductors(std::size_t part, const Instance& instance, const Word& one, const Word& other) {
    m_inductorReferences.push_back(
        {part,
         {inLowerCase(instance.prefix + one.text), inLowerCase(instance.prefix + other.text)},
         {one, other},
         instance.call});
}

void NetlistBuilder::referFromLaw(std::size_t part, Instance& instance, Expression law, int line) {
    std::vector<LawVariable> keys;
    for (const LawVariable& variable : law.variables()) {
        const bool current = variable.what == LawVariable::What::current;
        keys.push_back({variable.what,
                        current ? inLowerCase(instance.prefix + variable.first) : lawNetKey(instance, variable.first),
                        current ? std::string() : lawNetKey(instance, variable.second)});
    }
    m_lawReferences.push_back({part, std::move(law), line, instance.call, std::move(keys)});
}

/// The key of a net that a law names, without entering it: a law alone connects nothing.
std::string NetlistBuilder::lawNetKey(Instance& instance, const std::string& written) const {
    const std::string lower = inLowerCase(written);
    if (lower == groundNet || lower == "gnd" || lower.empty()) {
        return std::string(groundNet);
    }
    if (const auto pin = instance.pins.find(lower); pin != instance.pins.end()) {
        return inLowerCase(pin->second.net);
    }
    return m_file.globals.contains(lower) ? lower : inLowerCase(instance.prefix) + lower;
}

/// From the file's first line on, so that the first fault is the one that is kept and names are looked up for it alone.
void NetlistBuilder::resolveReferences() {
    std::stable_sort(
        m_sourceReferences.begin(), m_sourceReferences.end(),
        [](const SourceReference& one, const SourceReference& other) { return one.word.line < other.word.line; });
    std::stable_sort(m_inductorReferences.begin(), m_inductorReferences.end(),
                     [](const InductorReference& one, const InductorReference& other) {
                         return one.words[0].line < other.words[0].line;
                     });
    std::stable_sort(m_lawReferences.begin(), m_lawReferences.end(),
                     [](const LawReference& one, const LawReference& other) { return one.line < other.line; });
    for (const SourceReference& reference : m_sourceReferences) {
        resolveSource(reference);
    }
    for (const InductorReference& reference : m_inductorReferences) {
        resolveInductors(reference);
    }
    checkCouplings();
    for (LawReference& reference : m_lawReferences) {
        if (!m_full) {
            resolveLaw(reference);
        }
    }
}

const Part* NetlistBuilder::sourceUnder(const std::string& key) const {
    const auto found = m_parts.find(key);
    const auto& parts = m_netlist.circuit.parts;
    const bool isPart = found != m_parts.end() && found->second.index < parts.size() &&
                        inLowerCase(parts[found->second.index].id) == key;
    return isPart ? &parts[found->second.index] : nullptr;
}

std::vector<std::string> NetlistBuilder::partNames(const std::string& call, PartKind kind) const {
    std::vector<std::string> names;
    for (const Part& part : m_netlist.circuit.parts) {
        if (part.kind == kind && part.call == call && names.size() <= mostListed) {
            names.push_back(localName(part));
        }
    }
    return names;
}

void NetlistBuilder::resolveSource(const SourceReference& reference) {
    Part& part = m_netlist.circuit.parts[reference.part];
    const Part* source = sourceUnder(reference.key);
    if (source == nullptr || source->kind != PartKind::voltageSource) {
        if (m_lostNames.contains(reference.key) || !m_log.wantsFault(reference.word.line)) {
            return;
        }
        const char* english =
            source == nullptr
                ? toSay("%1 follows the current of %2, which is not there: name a V source; here are %3.")
                : toSay("%1 follows the current of %2, which is no voltage source: name a V source; here are %3.");
        m_log.fault(reference.word.line,
                    said(english, nameWithCall(localName(part), reference.call), inQuotes(reference.word.text),
                         listed(partNames(reference.call, PartKind::voltageSource))));
        return;
    }
    part.controls = {source->id};
}

void NetlistBuilder::resolveInductors(const InductorReference& reference) {
    Part& part = m_netlist.circuit.parts[reference.part];
    const std::string who = nameWithCall(localName(part), reference.call);
    for (std::size_t side = 0; side < 2; ++side) {
        const Part* inductor = sourceUnder(reference.keys[side]);
        if (inductor == nullptr || inductor->kind != PartKind::inductor) {
            if (m_lostNames.contains(reference.keys[side]) || !m_log.wantsFault(reference.words[side].line)) {
                part.controls.clear();
                return;
            }
            const char* english = inductor == nullptr
                                      ? toSay("%1 couples %2, which is not there: name two L; here are %3.")
                                      : toSay("%1 couples %2, which is no inductor: name two L; here are %3.");
            m_log.fault(reference.words[side].line, said(english, who, inQuotes(reference.words[side].text),
                                                         listed(partNames(reference.call, PartKind::inductor))));
            part.controls.clear();
            return;
        }
        part.controls.push_back(inductor->id);
    }
    if (part.controls[0] == part.controls[1]) {
        m_log.fault(reference.words[1].line, said("%1 couples %2 to itself: name two different inductors.", who,
                                                  inQuotes(reference.words[1].text)));
        part.controls.clear();
    }
}

void NetlistBuilder::resolveLaw(LawReference& reference) {
    Part& part = m_netlist.circuit.parts[reference.part];
    const std::string who = nameWithCall(localName(part), reference.call);
    const std::vector<LawVariable>& written = reference.law.variables();
    std::vector<LawVariable> names;
    for (std::size_t index = 0; index < written.size(); ++index) {
        LawVariable name = reference.keys[index];
        if (name.what == LawVariable::What::current) {
            const Part* source = sourceUnder(name.first);
            if (source == nullptr || source->kind != PartKind::voltageSource) {
                if (m_lostNames.contains(name.first) || !m_log.wantsFault(reference.line)) {
                    return;
                }
                m_log.fault(reference.line, said("%1 reads the current of %2, which is no V source: put a V source of "
                                                 "0 V in series and name it; here are %3.",
                                                 who, inQuotes(written[index].first),
                                                 listed(partNames(reference.call, PartKind::voltageSource))));
                return;
            }
            name.first = source->id;
        } else {
            const auto first = netOfLaw(reference, name.first, written[index].first);
            const auto second = netOfLaw(reference, name.second, written[index].second);
            if (!first || !second) {
                return;
            }
            name.first = *first;
            name.second = *second;
        }
        names.push_back(name);
    }
    if (written.empty() && !std::isfinite(reference.law.value({}))) {
        m_log.fault(reference.line,
                    said("%1 has a formula without a value, such as a division by 0: correct it.", who));
        return;
    }
    part.law = reference.law.text([&](const LawVariable& variable) {
        const auto found = std::find(written.begin(), written.end(), variable);
        return found == written.end() ? variable : names[static_cast<std::size_t>(found - written.begin())];
    });
    m_nameCharacters += part.law.size();
    requireRoom(reference.line);
}

std::optional<NetName> NetlistBuilder::netOfLaw(const LawReference& reference, const std::string& key,
                                                const std::string& written) {
    if (key == groundNet) {
        return NetName(groundNet);
    }
    const auto found = m_nets.find(key);
    if (found == m_nets.end()) {
        if (m_lostNames.contains(key)) {
            return std::nullopt;
        }
        const Part& part = m_netlist.circuit.parts[reference.part];
        const char* english =
            reference.call.empty()
                ? toSay("%1 reads the voltage of the net %2, which no part is connected to: correct the net's name.")
                : toSay(
                      "%1 reads the voltage of the net %2, which no part is connected to in this subcircuit: correct "
                      "the net's name.");
        m_log.fault(reference.line, said(english, nameWithCall(localName(part), reference.call), inQuotes(written)));
        return std::nullopt;
    }
    countConnection(key);
    return m_netEntries[found->second].name;
}

void NetlistBuilder::checkCouplings() {
    std::unordered_map<std::size_t, const InductorReference*> byPart;
    for (const InductorReference& reference : m_inductorReferences) {
        byPart.emplace(reference.part, &reference);
    }
    for (const CouplingFault& fault : faultsOfCouplings(m_netlist.circuit)) {
        const InductorReference& reference = *byPart.at(fault.part);
        const Part& part = m_netlist.circuit.parts[fault.part];
        m_log.fault(reference.words[0].line, fault.sentence(nameWithCall(localName(part), reference.call)));
    }
}

}  // namespace ohmwright
