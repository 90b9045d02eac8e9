// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/check.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/circuit/check_nets.h"
#include "core/circuit/couplings.h"
#include "core/circuit/findings.h"
#include "core/circuit/model_limits.h"
#include "core/circuit/net_groups.h"
#include "core/circuit/references.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string_view>
#include <unordered_map>
#include <utility>

namespace ohmwright {

namespace {

constexpr ValueLimits ohmLimits{0.01, 100e9, toSay("0.01 Ω to 100 GΩ")};
constexpr ValueLimits faradLimits{0.1e-12, 1.0, toSay("0.1 pF to 1 F")};
constexpr ValueLimits henryLimits{1e-9, 10e3, toSay("1 nH to 10 kH")};
constexpr ValueLimits anyOhms{1e-6, 1e18, toSay("1 µΩ to 1 EΩ")};
constexpr ValueLimits anyFarads{1e-24, 1e6, toSay("1 yF to 1 MF")};
constexpr ValueLimits anyHenries{1e-18, 1e9, toSay("1 aH to 1 GH")};
constexpr double wireOhms = 1e-3;  // a resistor from here to the lowest limit is solvable, but is a wire

/// What parts name, looked up once: of 40,000 devices each with its own type, none is searched for in a list.
struct NamedThings {
    explicit NamedThings(const Circuit& circuit) {
        for (const Model& model : circuit.models) {
            models.try_emplace(model.name, &model);
        }
        for (const Part& part : circuit.parts) {
            parts.try_emplace(part.id, &part);
        }
    }

    std::unordered_map<std::string_view, const Model*> models;  ///< By name.
    std::unordered_map<std::string_view, const Part*> parts;    ///< By id.
};

bool needsModel(PartKind kind) {
    switch (kind) {
        case PartKind::diode:
        case PartKind::bipolar:
        case PartKind::opamp:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
        case PartKind::pentode:
            return true;
        default:
            return false;
    }
}

/// "a diode", "an op-amp".
std::string oneOf(PartKind kind) {
    return said(kindAsOne(kind));
}

// --- one part at a time ---

void checkIds(const Circuit& circuit, Findings& findings) {
    std::set<PartId> seen;
    for (const Part& part : circuit.parts) {
        if (part.id.empty()) {
            findings.addPart(Severity::wrong, part,
                             said("%1 has no id: give every part an id of its own.", displayName(part)));
        } else if (!seen.insert(part.id).second) {
            findings.addPart(
                Severity::wrong, part,
                said("%1: the id \"%2\" is used twice: give every part an id of its own.", displayName(part), part.id));
        }
    }
}

/// Steps at the bench, lists and netlists name a part by its reference; calls of a subcircuit have names of their own.
void checkReferences(const Circuit& circuit, Findings& findings) {
    std::set<std::pair<std::string_view, std::string_view>> seen;
    for (const Part& part : circuit.parts) {
        if (!part.reference.empty() && !seen.insert({part.call, part.reference}).second) {
            findings.addPart(Severity::doubtful, part,
                             said("%1: another part is called %2 too: give one of them the name %3.", displayName(part),
                                  part.reference, nextReference(circuit, part.kind)));
        }
    }
}

void checkPins(const Part& part, Findings& findings) {
    const auto pins = static_cast<std::size_t>(pinCount(part.kind));
    if (part.nets.size() != pins) {
        findings.addPart(Severity::wrong, part,
                         said("%1 has %2 connections, but %3 has %4 pins: name one net for each pin.",
                              displayName(part), part.nets.size(), oneOf(part.kind), pins));
        return;
    }
    for (std::size_t pin = 0; pin < pins; ++pin) {
        if (part.nets[pin].empty()) {
            findings.addPart(Severity::wrong, part,
                             said("%1: pin %2 is on no net: name the net it is soldered to.", displayName(part),
                                  said(pinName(part.kind, static_cast<int>(pin)))));
        }
    }
}

void checkOwnValue(const Part& part, const ValueLimits& limits, Findings& findings) {
    if (limits.hold(part.value)) {
        return;
    }
    if (part.kind == PartKind::resistor && part.value >= wireOhms && part.value < limits.lowest) {
        findings.addPart(Severity::doubtful, part,
                         said("%1 has less than 0.01 Ω: a wire does the same.", displayName(part)));
        return;
    }
    findings.addPart(Severity::wrong, part,
                     said("%1 has a value that no %2 has: choose one from %3.", displayName(part),
                          said(kindName(part.kind)), said(limits.words)));
}

void checkNumbers(const Part& part, ValueRule rule, Findings& findings) {
    if (const auto limits = valueLimits(part.kind, rule)) {
        checkOwnValue(part, *limits, findings);
        if (part.measured && !(std::isfinite(*part.measured) && *part.measured > 0.0)) {
            findings.addPart(
                Severity::wrong, part,
                said("%1: the measured value is no positive number: enter the reading again.", displayName(part)));
        }
    } else if (!std::isfinite(part.value)) {
        findings.addPart(Severity::wrong, part,
                         said("%1 has a value that is no number: enter its volts or amperes.", displayName(part)));
    }
    if (!std::isfinite(part.acAmplitude)) {
        findings.addPart(
            Severity::wrong, part,
            said("%1 has an AC amplitude that is no number: enter its volts or amperes.", displayName(part)));
    }
    if (!(part.tolerance >= 0.0 && part.tolerance < 1.0)) {
        findings.addPart(Severity::wrong, part,
                         said("%1: the tolerance is outside 0 % to 100 %: enter the printed one.", displayName(part)));
    }
    if (part.kind == PartKind::potentiometer && part.taper != Taper::linear &&
        !(part.shareAtHalf > 0.0 && part.shareAtHalf < 1.0)) {
        findings.addPart(Severity::wrong, part,
                         said("%1: the share at half travel is outside 0 % to 100 %: 15 % is usual for a log pot.",
                              displayName(part)));
    }
}

void checkModel(const NamedThings& named, const Part& part, Findings& findings) {
    if (!needsModel(part.kind)) {
        return;
    }
    const std::string kind = said(kindName(part.kind));
    if (part.model.empty()) {
        findings.addPart(Severity::wrong, part,
                         said("%1 has no type: choose which %2 it is.", displayName(part), kind));
        return;
    }
    const auto found = named.models.find(part.model);
    const Model* model = found == named.models.end() ? nullptr : found->second;
    if (!model) {
        findings.addPart(Severity::wrong, part,
                         said("%1: the type %2 is not in the circuit: choose another %3 or add the type's data.",
                              displayName(part), part.model, kind));
    } else if (model->kind != part.kind) {
        findings.addPart(Severity::wrong, part,
                         said("%1: the type %2 is %3, not %4: choose another type.", displayName(part), part.model,
                              oneOf(model->kind), oneOf(part.kind)));
    } else {
        for (const auto& [name, value] : model->parameters) {
            if (const std::string_view fault = faultOfParameter(model->kind, name, value); !fault.empty()) {
                findings.addPart(Severity::wrong, part,
                                 said("%1: %2 of type %3 %4: correct the type's data.", displayName(part), name,
                                      part.model, said(fault)));
            }
        }
    }
}

/// The parts that a part names: coils that it couples, the source whose current it follows.
void checkControls(const NamedThings& named, const Part& part, Findings& findings) {
    const bool couples = part.kind == PartKind::coupling;
    const bool follows =
        part.kind == PartKind::currentControlledCurrent || part.kind == PartKind::currentControlledVoltage;
    const std::size_t needed = couples ? 2 : follows ? 1 : 0;
    if (part.controls.size() != needed) {
        findings.addPart(Severity::wrong, part,
                         said("%1 names %2 other parts, but %3 needs %4.", displayName(part), part.controls.size(),
                              oneOf(part.kind), needed));
        return;
    }
    const PartKind wanted = couples ? PartKind::inductor : PartKind::voltageSource;
    for (const PartId& id : part.controls) {
        const auto other = named.parts.find(id);
        if (other == named.parts.end() || other->second->kind != wanted) {
            findings.addPart(Severity::wrong, part,
                             said("%1 names \"%2\", which is no %3 of the circuit: name one that is.",
                                  displayName(part), id, said(kindName(wanted))));
        }
    }
    if (couples && !(std::abs(part.value) <= 1.0 && part.value != 0.0)) {
        findings.addPart(Severity::wrong, part,
                         said("%1 couples by more than 1 or by nothing: choose a factor up to 1.", displayName(part)));
    }
}

// --- loops ---

/// The ways that carry a fixed voltage or none: sources, coils and wires.
class StiffPaths {
public:
    [[nodiscard]] bool joined(const NetName& a, const NetName& b) const { return m_groups.joined(a, b); }

    void add(const Part& part) {
        m_groups.join(part.nets[0], part.nets[1]);
        m_ways.emplace(part.nets[0], std::pair(part.nets[1], &part));
        m_ways.emplace(part.nets[1], std::pair(part.nets[0], &part));
    }

    /// Names of the parts on a shortest way from `a` to `b`.  REQUIRES: joined(a, b).
    [[nodiscard]] std::vector<std::string> namesBetween(const NetName& a, const NetName& b) const {
        std::map<NetName, std::pair<NetName, const Part*>> cameFrom{{a, {a, nullptr}}};
        std::vector<NetName> queue{a};
        for (std::size_t next = 0; next < queue.size() && !cameFrom.contains(b); ++next) {
            const NetName here = queue[next];
            const auto [first, last] = m_ways.equal_range(here);
            for (auto way = first; way != last; ++way) {
                if (cameFrom.try_emplace(way->second.first, here, way->second.second).second) {
                    queue.push_back(way->second.first);
                }
            }
        }
        std::vector<std::string> names;
        for (NetName here = b; here != a; here = cameFrom.at(here).first) {
            names.push_back(displayName(*cameFrom.at(here).second));
        }
        return names;
    }

private:
    NetGroups m_groups;
    std::multimap<NetName, std::pair<NetName, const Part*>> m_ways;
};

void addLoop(const Part& part, const std::vector<std::string>& others, Findings& findings) {
    if (others.empty()) {
        findings.addPart(
            Severity::wrong, part,
            said("%1 is shorted: both its pins are on net %2: move one of them.", displayName(part), part.nets[0]),
            part.nets[0]);
        return;
    }
    findings.addPart(Severity::wrong, part,
                     said("%1 forms a loop without resistance with %2: put a resistor in the loop, or open it.",
                          displayName(part), inWords(others)),
                     part.nets[0]);
}

/// A loop of sources and coils has no answer; a source with a wire across it is shorted. Wires among
/// themselves and wires across coils are sound, since a wire has 1 mΩ.
void checkLoops(const Circuit& circuit, Findings& findings) {
    StiffPaths withoutWires;
    StiffPaths wiresAndCoils;
    std::set<const Part*> told;
    for (const Part& part : circuit.parts) {
        const bool stiff = fixesVoltage(part.kind);
        if (!isWired(part) || !(stiff || part.kind == PartKind::link)) {
            continue;
        }
        if (stiff && withoutWires.joined(part.nets[0], part.nets[1])) {
            told.insert(&part);
            addLoop(part, withoutWires.namesBetween(part.nets[0], part.nets[1]), findings);
            continue;
        }
        if (stiff) {
            withoutWires.add(part);
        }
        if (part.kind == PartKind::inductor || part.kind == PartKind::link) {
            wiresAndCoils.add(part);
        }
    }
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::voltageSource || !isWired(part) || told.contains(&part)) {
            continue;
        }
        if (!wiresAndCoils.joined(part.nets[0], part.nets[1])) {
            wiresAndCoils.add(part);  // so that two sources in series with one wire across both are seen
            continue;
        }
        findings.addPart(Severity::wrong, part,
                         said("%1 is shorted by %2: remove the short before anything is switched on.",
                              displayName(part), inWords(wiresAndCoils.namesBetween(part.nets[0], part.nets[1]))),
                         part.nets[0]);
    }
}

// --- op-amps ---

/// Nets that cannot carry a signal from one part to another: ground and the pins of voltage sources.
std::set<NetName> fixedNets(const Circuit& circuit) {
    std::set<NetName> fixed{NetName(groundNet)};
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::voltageSource) {
            fixed.insert(part.nets.begin(), part.nets.end());
        }
    }
    return fixed;
}

/// True when some way through parts leads from the op-amp's output to its inverting pin.
bool hasFeedback(const std::multimap<NetName, const Part*>& partsAt, const Part& opamp, std::set<NetName> passed) {
    passed.insert({opamp.nets[nonInverting], opamp.nets[positiveSupply], opamp.nets[negativeSupply]});
    passed.erase(opamp.nets[inverting]);
    std::vector<NetName> open{opamp.nets[output]};
    while (!open.empty()) {
        const NetName here = open.back();
        open.pop_back();
        if (here == opamp.nets[inverting]) {
            return true;
        }
        const auto [first, last] = partsAt.equal_range(here);
        for (auto at = first; at != last; ++at) {
            if (at->second == &opamp) {
                continue;
            }
            for (const NetName& net : at->second->nets) {
                if (passed.insert(net).second) {
                    open.push_back(net);
                }
            }
        }
    }
    return false;
}

void checkOpamps(const Circuit& circuit, Findings& findings) {
    std::multimap<NetName, const Part*> partsAt;
    for (const Part& part : circuit.parts) {
        for (const NetName& net : part.nets) {
            partsAt.emplace(net, &part);
        }
    }
    const std::set<NetName> fixed = fixedNets(circuit);
    const NetGroups wires = groupsByLinks(circuit);
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::opamp || !isWired(part)) {
            continue;
        }
        const auto bridgedTo = [&](const NetName& net) { return wires.joined(part.nets[output], net); };
        if (bridgedTo(NetName(groundNet)) || bridgedTo(part.nets[positiveSupply]) ||
            bridgedTo(part.nets[negativeSupply])) {
            findings.addPart(
                Severity::doubtful, part,
                said("%1: the output is bridged to ground or a supply: open the bridge before power is applied.",
                     displayName(part)),
                part.nets[output]);
        } else if (!hasFeedback(partsAt, part, fixed)) {
            findings.addPart(
                Severity::doubtful, part,
                said("%1 has no feedback: nothing leads from its output to its inverting input.", displayName(part)),
                part.nets[inverting]);
        }
    }
}

// --- what the circuit names ---

void checkNamedPart(const Circuit& circuit, const std::string& who, const PartId& id, Findings& findings) {
    if (!id.empty() && !findPart(circuit, id)) {
        findings.addGeneral(
            said("%1 names the part \"%2\", which is not in the circuit: choose another part.", who, id), id);
    }
}

void checkNamedNet(const std::map<NetName, NetUse>& uses, const std::string& who, const NetName& net,
                   Findings& findings) {
    if (!net.empty() && net != groundNet && !uses.contains(net)) {
        findings.addGeneral(said("%1 names the net \"%2\", which no part is on: choose another net.", who, net), {},
                            net);
    }
}

/// A part that stands for something must be there and of the kind that can.
void checkRole(const Circuit& circuit, const std::string& role, const PartId& id, PartKind kind, Findings& findings) {
    if (id.empty()) {
        return;
    }
    const Part* part = findPart(circuit, id);
    if (!part) {
        findings.addGeneral(said("The part \"%1\" is to be %2, but is not in the circuit: choose another.", id, role),
                            id);
    } else if (part->kind != kind) {
        findings.addPart(
            Severity::wrong, *part,
            said("%1 cannot be %2: that is %3, not %4.", displayName(*part), role, oneOf(kind), oneOf(part->kind)));
    }
}

void checkNames(const Circuit& circuit, const std::map<NetName, NetUse>& uses, Findings& findings) {
    const Part* source = findPart(circuit, circuit.ports.source);
    const bool currentDriven = source != nullptr && source->kind == PartKind::currentSource;
    checkRole(circuit, said("the source"), circuit.ports.source,
              currentDriven ? PartKind::currentSource : PartKind::voltageSource, findings);
    checkRole(circuit, said("the battery"), circuit.ports.battery, PartKind::voltageSource, findings);
    checkRole(circuit, said("the load"), circuit.ports.load, PartKind::resistor, findings);
    checkNamedNet(uses, said("The output"), circuit.ports.output, findings);
    checkNamedNet(uses, said("The input jack"), circuit.ports.jack, findings);
    checkNamedNet(uses, said("The clip node"), circuit.ports.clipNode, findings);
    std::set<std::string> knobIds;
    for (const Knob& knob : circuit.knobs) {
        const std::string& name = knob.name.empty() ? knob.id : knob.name;
        if (!knobIds.insert(knob.id).second) {
            findings.addGeneral(
                said("Knob \"%1\": the id \"%2\" is used twice: give every knob an id of its own.", name, knob.id));
        }
        if (knob.part.empty()) {
            findings.addGeneral(said("Knob \"%1\" turns no part: name the pot it turns.", name));
        }
        checkRole(circuit, said("turned by knob \"%1\"", name), knob.part, PartKind::potentiometer, findings);
    }
    for (const Stage& stage : circuit.stages) {
        const std::string who = said("Stage \"%1\"", stage.name);
        checkNamedNet(uses, who, stage.input, findings);
        checkNamedNet(uses, who, stage.output, findings);
        for (const PartId& id : stage.parts) {
            checkNamedPart(circuit, who, id, findings);
        }
    }
}

}  // namespace

std::optional<ValueLimits> valueLimits(PartKind kind, ValueRule rule) {
    const bool bench = rule == ValueRule::bench;
    switch (kind) {
        case PartKind::resistor:
        case PartKind::potentiometer:
            return bench ? ohmLimits : anyOhms;
        case PartKind::capacitor:
            return bench ? faradLimits : anyFarads;
        case PartKind::inductor:
            return bench ? henryLimits : anyHenries;
        default:
            return std::nullopt;
    }
}

std::vector<Fault> checkCircuit(const Circuit& circuit, ValueRule values) {
    Findings findings(circuit);
    checkIds(circuit, findings);
    checkReferences(circuit, findings);
    const NamedThings named(circuit);
    for (const Part& part : circuit.parts) {
        checkPins(part, findings);
        checkNumbers(part, values, findings);
        checkModel(named, part, findings);
        checkControls(named, part, findings);
    }
    const std::map<NetName, NetUse> uses = usesOfNets(circuit);
    checkDirectCurrentPaths(circuit, uses, findings);
    checkLonelyNets(circuit, uses, findings);
    checkSupplySigns(circuit, findings);
    checkLoops(circuit, findings);
    for (const CouplingFault& fault : faultsOfCouplings(circuit)) {
        const Part& part = circuit.parts[fault.part];
        findings.addPart(Severity::wrong, part, fault.sentence(displayName(part)));
    }
    checkOpamps(circuit, findings);
    checkNames(circuit, uses, findings);
    return std::move(findings).inOrder();
}

std::vector<Fault> polarityFaults(const Circuit& circuit, const std::vector<std::pair<NetName, double>>& biasVolts) {
    constexpr double felt = 0.1;  // what an electrolytic bears backwards for good (common practice, no source)
    const std::map<NetName, double> volts(biasVolts.begin(), biasVolts.end());
    std::vector<Fault> faults;
    for (const Part& part : circuit.parts) {
        if (!isPolarised(part) || !isWired(part) || !volts.contains(part.nets[0]) || !volts.contains(part.nets[1])) {
            continue;
        }
        const double across = volts.at(part.nets[0]) - volts.at(part.nets[1]);
        if (across < -felt) {
            faults.push_back({Severity::doubtful,
                              said("%1 has %2 V the wrong way round: turn it, so that its plus is at net %3.",
                                   displayName(part), formatFigure(-across), part.nets[1]),
                              part.id,
                              {}});
        }
    }
    return faults;
}

std::vector<NetName> netsWithoutDcPath(const Circuit& circuit) {
    std::vector<NetName> nets;
    for (const auto& members : floatingNets(circuit, usesOfNets(circuit))) {
        nets.push_back(members.front().second);
    }
    return nets;
}

Result<void> requireSolvableValue(const Part& part) {
    const auto limits = valueLimits(part.kind, ValueRule::solver);
    const bool sound = limits ? limits->hold(part.value) : std::isfinite(part.value);
    if (sound) {
        return {};
    }
    return Error{ErrorCode::unsolvable,
                 limits ? said("%1 has a value that cannot be solved: choose one from %2.", displayName(part),
                               said(limits->words))
                        : said("%1 has a value that cannot be solved: choose one from the numbers.", displayName(part)),
                 displayName(part)};
}

Result<void> requireSolvable(const Circuit& circuit) {
    for (const Fault& fault : checkCircuit(circuit, ValueRule::solver)) {
        if (fault.severity == Severity::wrong) {
            const Part* part = findPart(circuit, fault.part);
            return Error{ErrorCode::unsolvable, fault.message, part ? displayName(*part) : fault.net};
        }
    }
    return {};
}

}  // namespace ohmwright
