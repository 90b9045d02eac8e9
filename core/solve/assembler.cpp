// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/assembler.h"

#include "core/base/said.h"
#include "core/devices/bipolar.h"
#include "core/devices/diode.h"
#include "core/devices/jfet.h"
#include "core/devices/mosfet.h"
#include "core/devices/opamp.h"
#include "core/devices/pentode.h"
#include "core/devices/triode.h"
#include "core/expression/expression.h"
#include "core/solve/behavioural_group.h"
#include "core/solve/pivot_orders.h"

#include <cassert>
#include <cmath>
#include <map>
#include <numbers>
#include <type_traits>
#include <utility>

namespace ohmwright {

namespace {

constexpr double evaluatedByDevice = std::numeric_limits<double>::quiet_NaN();

/// Calls `visit` with the law class of a device's kind; false for parts that are no devices.
template <class Visit>
bool visitLaw(PartKind kind, Visit visit) {
    switch (kind) {
        case PartKind::diode:
            visit(std::type_identity<DiodeLaw>{});
            return true;
        case PartKind::bipolar:
            visit(std::type_identity<BipolarLaw>{});
            return true;
        case PartKind::opamp:
            visit(std::type_identity<OpampLaw>{});
            return true;
        case PartKind::jfet:
            visit(std::type_identity<JfetLaw>{});
            return true;
        case PartKind::mosfet:
            visit(std::type_identity<MosfetLaw>{});
            return true;
        case PartKind::triode:
            visit(std::type_identity<TriodeLaw>{});
            return true;
        case PartKind::pentode:
            visit(std::type_identity<PentodeLaw>{});
            return true;
        default:
            return false;
    }
}

/// The two stages of an op-amp are one node unless its second pole keeps them apart.
template <class Law>
bool isAlias(const Law& law, std::size_t innerNode) {
    if constexpr (std::is_same_v<Law, OpampLaw>) {
        return innerNode == 1 && !(law.secondPoleHertz() > 0.0);
    } else {
        return false;
    }
}

}  // namespace

Result<Equations> Assembler::assemble() {
    for (const Model& model : m_circuit.models) {
        m_models.try_emplace(model.name, &model);
    }
    auto layout = std::make_shared<Layout>();
    m_new = layout.get();
    m_layout = layout.get();
    m_equations.m_kelvin = m_setting.temperatureKelvin;
    m_equations.m_models = m_circuit.models;
    number();
    addLinearParts();
    m_equations.m_linearStampCount = m_equations.m_stampValues.size();
    m_equations.m_linearResistanceCount = m_equations.m_resistances.size();
    m_equations.m_linearSlopeCount = m_equations.m_linearSlopes.size();
    m_equations.m_deviceSources.assign(std::size_t(ground()) + 1, 0.0);
    if (auto added = addDevices(); !added) {
        return added.error();
    }
    for (int unknown = 0; unknown < ground(); ++unknown) {
        if (m_new->isNode[std::size_t(unknown)] != 0) {
            m_new->diagonalSlots.push_back(m_new->pattern.slot(unknown, unknown));
        }
    }
    for (std::size_t slot = 0; slot < m_new->pattern.valueCount(); ++slot) {
        m_new->rows.push_back(m_new->pattern.rowOf(slot));
        m_new->columns.push_back(m_new->pattern.columnOf(slot));
    }
    m_new->orders = std::make_shared<Equations::Orders>();
    m_equations.m_layout = std::move(layout);
    sumStamps();
    return std::move(m_equations);
}

bool Assembler::hasTopologyOf(const Equations& like, const Circuit& circuit, const Setting& setting) {
    const Layout& layout = *like.m_layout;
    if (circuit.parts.size() != layout.parts.size() || setting.temperatureKelvin != like.m_kelvin ||
        circuit.models != like.m_models || !circuit.openNets.empty() || layout.hasOpenNets ||
        circuit.ports.source != layout.source) {
        return false;
    }
    for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
        const Part& part = circuit.parts[k];
        const Equations::PartShape& shape = layout.shapes[k];
        if (part.kind != shape.kind || part.id != layout.parts[k] || part.model != shape.model ||
            part.nets != shape.nets || part.law != shape.law || part.controls != shape.controls ||
            part.parameters != shape.parameters ||
            (part.kind == PartKind::switchContact && part.value != shape.value)) {
            return false;
        }
    }
    return true;
}

Equations Assembler::refill(const Equations& like) {
    m_equations = like;
    m_layout = like.m_layout.get();
    m_equations.m_sources.clear();
    m_equations.m_sourceStamps.clear();
    m_equations.m_transconductances.clear();
    m_equations.m_moving.clear();
    std::vector<double> deviceStamps(like.m_stampValues.begin() + std::ptrdiff_t(like.m_linearStampCount),
                                     like.m_stampValues.end());
    m_equations.m_stampValues.clear();
    addLinearParts();
    m_equations.m_stampValues.insert(m_equations.m_stampValues.end(), deviceStamps.begin(), deviceStamps.end());
    sumStamps();
    return std::move(m_equations);
}

// --- numbering ---

int Assembler::addUnknown(UnknownName name, bool isNode) {
    m_new->names.push_back(std::move(name));
    m_new->isNode.push_back(isNode ? 1 : 0);
    return int(m_new->names.size()) - 1;
}

/// Numbers nets in the parts' order, then inner nodes of devices and branch currents.
void Assembler::number() {
    for (const Part& part : m_circuit.parts) {
        for (const NetName& net : part.nets) {
            if (net != groundNet && m_new->indexOfNet.emplace(net, int(m_new->nets.size())).second) {
                m_new->nets.push_back(net);
                addUnknown({toSay("net %1"), net, {}}, true);
            }
        }
    }
    m_inner.resize(m_circuit.parts.size());
    for (std::size_t k = 0; k < m_circuit.parts.size(); ++k) {
        const Part& part = m_circuit.parts[k];
        m_new->parts.push_back(part.id);
        m_new->indexOfPart.emplace(part.id, int(k));
        m_new->shapes.push_back(
            {part.kind, part.model, part.nets, part.law, part.controls, part.parameters, part.value});
        m_new->branches.push_back(
            fixesVoltage(part.kind) ? addUnknown({toSay("the current of %1"), displayName(part), {}}, false) : -1);
        visitLaw(part.kind, [&]<class Law>(std::type_identity<Law>) { numberDevice<Law>(part); });
    }
    m_new->pattern = SparsePattern(ground());
    for (const Part& part : m_circuit.parts) {
        std::vector<int>& pins = m_new->pins.emplace_back();
        for (const NetName& net : part.nets) {
            pins.push_back(net == groundNet ? ground() : m_new->indexOfNet.at(net));
        }
    }
    m_new->source = m_circuit.ports.source;
    m_new->hasOpenNets = !m_circuit.openNets.empty();
    m_new->drive = {ground(), ground()};
    m_new->resistancesOf.resize(m_circuit.parts.size());
    m_new->currentsOf.resize(m_circuit.parts.size());
    m_chargeOfPart.assign(m_circuit.parts.size(), -1);
}

template <class Law>
Law Assembler::lawOf(const Part& part) const {
    const auto model = m_models.find(part.model);
    assert(model != m_models.end());  // circuit/check.h has seen to it
    return Law(*model->second, DeviceInstance{part.parameters, m_setting.temperatureKelvin, junctionGmin});
}

template <class Law>
void Assembler::numberDevice(const Part& part) {
    std::vector<int>& inner = m_inner[std::size_t(m_new->indexOfPart.at(part.id))];
    const Law law = lawOf<Law>(part);
    const auto ohms = law.seriesOhms();
    const auto name = [&](std::string_view place) {
        return UnknownName{toSay("the inner %2 of %1"), displayName(part), place};
    };
    for (std::size_t pin = 0; pin < ohms.size(); ++pin) {
        if (ohms[pin] > 0.0) {
            inner.push_back(addUnknown(name(pinName(part.kind, int(pin))), true));
        }
    }
    for (std::size_t node = 0; node < Law::innerNodes.size(); ++node) {
        if (!isAlias(law, node)) {
            inner.push_back(addUnknown(name(Law::innerNodes[node]), true));
        }
    }
}

// --- linear parts ---

double Assembler::valueOf(const Part& part) const {
    if (part.id == m_circuit.ports.battery && !part.id.empty()) {
        return m_setting.batteryVolts;
    }
    if (part.id == m_circuit.ports.load && !part.id.empty()) {
        return m_setting.loadOhms;
    }
    return part.value;
}

void Assembler::addLinearParts() {
    m_equations.m_sources.assign(std::size_t(ground()) + 1, 0.0);
    for (std::size_t k = 0; k < m_circuit.parts.size(); ++k) {
        addLinearPart(int(k));
    }
    // Couplings come last: they join the fluxes of coils that may stand after them.
    for (std::size_t k = 0; k < m_circuit.parts.size(); ++k) {
        if (m_circuit.parts[k].kind == PartKind::coupling) {
            addCoupling(int(k));
        }
    }
    for (const NetName& net : m_circuit.openNets) {
        if (const auto found = m_layout->indexOfNet.find(net); found != m_layout->indexOfNet.end()) {
            addConductance(-1, found->second, ground(), -1, -1, 1.0 / openLegOhms, 0.0, false);
        }
    }
}

void Assembler::addLinearPart(int index) {
    const Part& part = m_circuit.parts[std::size_t(index)];
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];
    const int branch = m_layout->branches[std::size_t(index)];
    const auto otherBranch = [&] {
        return m_layout->branches[std::size_t(m_layout->indexOfPart.at(part.controls.front()))];
    };
    switch (part.kind) {
        case PartKind::resistor:
            addResistance(index, 0, 1, valueOf(part), -1.0, true);
            break;
        case PartKind::link:
            addResistance(index, 0, 1, linkOhms, 0.0, true);
            break;
        case PartKind::switchContact:
            addResistance(index, 0, 1, part.value != 0.0 ? linkOhms : openLegOhms, 0.0, part.value != 0.0);
            break;
        case PartKind::potentiometer: {
            const Knob* knob = knobOf(m_circuit, part.id);
            const PotHalves halves = potHalves(part, knob == nullptr ? 5.0 : knobPosition(m_setting, knob->id));
            addResistance(index, 0, 1, halves.topToWiper, -1.0, true);
            addResistance(index, 1, 2, halves.wiperToBottom, -1.0, true);
            break;
        }
        case PartKind::capacitor: {
            const int charge = addCharge(pins[0], pins[1]);
            const int slope = addChargeSlope(charge, pins[0], pins[1], part.value);
            if (isNew()) {
                m_new->slopeOf.emplace_back(slope, Dependence{index, 1.0});
            }
            break;
        }
        case PartKind::inductor: {
            // v+ - v- - L di/dt = 0: the flux -L i is a charge that leaves the branch's own row.
            addVoltageBranch(index);
            const int charge = addCharge(branch, ground());
            const int slope = addChargeSlope(charge, branch, ground(), -part.value);
            if (isNew()) {
                m_chargeOfPart[std::size_t(index)] = charge;
                m_new->slopeOf.emplace_back(slope, Dependence{index, 1.0});
            }
            break;
        }
        case PartKind::voltageSource:
            addVoltageBranch(index);
            addSource(index);
            break;
        case PartKind::currentSource:
            addSource(index);
            break;
        case PartKind::voltageControlledVoltage:
            addVoltageBranch(index);
            addStamp(branch, pins[2], -part.value, {index, 1.0});
            addStamp(branch, pins[3], part.value, {index, 1.0});
            break;
        case PartKind::currentControlledVoltage:
            addVoltageBranch(index);
            addStamp(branch, otherBranch(), -part.value, {index, 1.0});
            break;
        case PartKind::voltageControlledCurrent:
            addStamp(pins[0], pins[2], part.value, {index, 1.0});
            addStamp(pins[0], pins[3], -part.value, {index, 1.0});
            addStamp(pins[1], pins[2], -part.value, {index, 1.0});
            addStamp(pins[1], pins[3], part.value, {index, 1.0});
            m_equations.m_transconductances.push_back({index, pins[2], pins[3], part.value});
            break;
        case PartKind::currentControlledCurrent:
            addStamp(pins[0], otherBranch(), part.value, {index, 1.0});
            addStamp(pins[1], otherBranch(), -part.value, {index, 1.0});
            m_equations.m_transconductances.push_back({index, otherBranch(), ground(), part.value});
            break;
        case PartKind::behaviouralVoltage:
            addVoltageBranch(index);
            break;
        case PartKind::diode:
        case PartKind::bipolar:
        case PartKind::opamp:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
        case PartKind::pentode:
        case PartKind::behaviouralCurrent:
        case PartKind::coupling:
            break;
    }
}

void Assembler::addResistance(int index, int pinA, int pinB, double ohms, double exponent, bool noisy) {
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];
    const int a = pins[std::size_t(pinA)];
    const int b = pins[std::size_t(pinB)];
    if (a != b) {
        addConductance(index, a, b, pinA, pinB, 1.0 / ohms, exponent, noisy);
    }
}

/// Current out of the first pin's node and into the second's; the branch's own row asks for the voltage between them.
void Assembler::addVoltageBranch(int index) {
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];
    const int branch = m_layout->branches[std::size_t(index)];
    addStamp(pins[0], branch, 1.0, structure);
    addStamp(pins[1], branch, -1.0, structure);
    addStamp(branch, pins[0], 1.0, structure);
    addStamp(branch, pins[1], -1.0, structure);
}

/// The mutual flux is k sqrt(L1 L2) times the other coil's current.
void Assembler::addCoupling(int index) {
    const Part& part = m_circuit.parts[std::size_t(index)];
    const int first = m_layout->indexOfPart.at(part.controls[0]);
    const int second = m_layout->indexOfPart.at(part.controls[1]);
    const double henries =
        part.value * std::sqrt(m_circuit.parts[std::size_t(first)].value * m_circuit.parts[std::size_t(second)].value);
    const auto join = [&](int from, int to) {
        const int charge = isNew() ? m_chargeOfPart[std::size_t(to)] : -1;
        const int slope = addChargeSlope(charge, m_layout->branches[std::size_t(from)], ground(), -henries);
        if (isNew()) {
            m_new->slopeOf.emplace_back(slope, Dependence{index, 1.0});
            m_new->slopeOf.emplace_back(slope, Dependence{first, 0.5});
            m_new->slopeOf.emplace_back(slope, Dependence{second, 0.5});
        }
    };
    join(first, second);
    join(second, first);
}

void Assembler::addSource(int index) {
    const Part& part = m_circuit.parts[std::size_t(index)];
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];
    const bool isVoltage = part.kind == PartKind::voltageSource;
    // As of a current that leaves `from`: a voltage is what its branch's row lacks.
    const int from = isVoltage ? ground() : pins[0];
    const int to = isVoltage ? m_layout->branches[std::size_t(index)] : pins[1];
    const double value = valueOf(part);
    m_equations.m_sources[std::size_t(to)] += value;
    m_equations.m_sources[std::size_t(from)] -= value;
    m_equations.m_sourceStamps.push_back({index, to, value});
    m_equations.m_sourceStamps.push_back({index, from, -value});
    const bool isInput = !part.id.empty() && part.id == m_circuit.ports.source;
    if (isInput && isNew()) {
        m_new->drive = {from, to};
    }
    if (part.wave && !isInput) {
        m_equations.m_moving.push_back({displayName(part), *part.wave, part.value, from, to});
    }
}

void Assembler::sumStamps() {
    Equations& out = m_equations;
    const Layout& layout = *out.m_layout;
    out.m_linearValues.assign(layout.pattern.valueCount(), 0.0);
    for (std::size_t k = 0; k < layout.stampSlots.size(); ++k) {
        out.m_linearValues[std::size_t(layout.stampSlots[k])] += out.m_stampValues[k];
    }
    for (std::size_t row = 0; row < out.m_sources.size(); ++row) {
        out.m_sources[row] += out.m_deviceSources[row];
    }
}

// --- devices ---

Result<void> Assembler::addDevices() {
    auto groups = std::make_shared<std::vector<std::unique_ptr<DeviceGroup>>>();
    auto behavioural = std::make_unique<BehaviouralGroup>();
    for (std::size_t k = 0; k < m_circuit.parts.size(); ++k) {
        const PartKind kind = m_circuit.parts[k].kind;
        if (kind == PartKind::behaviouralVoltage || kind == PartKind::behaviouralCurrent) {
            if (auto added = addBehavioural(int(k), *behavioural); !added) {
                return added;
            }
        }
    }
    groups->push_back(std::move(behavioural));
    for (const PartKind kind : {PartKind::diode, PartKind::bipolar, PartKind::opamp, PartKind::jfet, PartKind::mosfet,
                                PartKind::triode, PartKind::pentode}) {
        visitLaw(kind, [&]<class Law>(std::type_identity<Law>) {
            auto group = std::make_unique<LawGroup<Law>>();
            for (std::size_t k = 0; k < m_circuit.parts.size(); ++k) {
                if (m_circuit.parts[k].kind == kind) {
                    addDevice<Law>(int(k), *group);
                }
            }
            groups->push_back(std::move(group));
        });
    }
    m_equations.m_restControls.assign(m_layout->controls.size(), 0.0);
    for (const auto& group : *groups) {
        group->writeRest(m_equations.m_restControls);
    }
    m_equations.m_groups = std::move(groups);
    return {};
}

/// Unknowns of a device's terminals: the inner sides of its pins, behind their series resistances, then the nodes
/// without a pin.
template <class Law>
std::vector<int> Assembler::addTerminals(int index, const Law& law) {
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];
    std::vector<int> terminals;
    auto next = m_inner[std::size_t(index)].begin();
    const auto ohms = law.seriesOhms();
    for (std::size_t pin = 0; pin < ohms.size(); ++pin) {
        if (!(ohms[pin] > 0.0)) {
            terminals.push_back(pins[pin]);
            continue;
        }
        terminals.push_back(*next++);
        addConductance(index, pins[pin], terminals.back(), int(pin), -1, 1.0 / ohms[pin], 0.0, true);
    }
    for (std::size_t node = 0; node < Law::innerNodes.size(); ++node) {
        terminals.push_back(isAlias(law, node) ? terminals.back() : *next++);
    }
    return terminals;
}

/// The charges that the device's card has, with their slopes. @param node  the unknown of a terminal.
template <class Law, class NodeOf>
ChargePlaces<Law> Assembler::addDeviceCharges(const Law& law, const DevicePlaces& places, NodeOf node) {
    ChargePlaces<Law> charges;
    const auto moving = movingCharges(law);
    for (std::size_t k = 0; k < Law::charges.size(); ++k) {
        charges.charges[k] = moving[k] ? addCharge(node(Law::charges[k].first), node(Law::charges[k].second)) : -1;
    }
    for (std::size_t k = 0; k < Law::chargeSlopes.size(); ++k) {
        const SlopeOf& slope = Law::chargeSlopes[k];
        const int place = places.control + slope.control;
        const Control& control = m_layout->controls[std::size_t(place)];
        const int charge = charges.charges[std::size_t(slope.output)];
        charges.slopes[k] = charge >= 0 ? addChargeSlope(charge, control.plus, control.minus, evaluatedByDevice) : -1;
    }
    return charges;
}

template <class Law>
void Assembler::addDevice(int index, LawGroup<Law>& group) {
    const Part& part = m_circuit.parts[std::size_t(index)];
    const Law law = lawOf<Law>(part);
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];

    const std::vector<int> terminals = addTerminals(index, law);
    const auto ohms = law.seriesOhms();
    const auto node = [&](int terminal) {
        if (terminal == groundTerminal) {
            return ground();
        }
        const int pin = terminal - outerTerminal(0);
        return pin >= 0 ? pins[std::size_t(pin)] : terminals[std::size_t(terminal)];
    };
    // A current's share of a pin: none where the series resistance already carries it.
    const auto pin = [&](int terminal) {
        if (terminal >= outerTerminal(0)) {
            return terminal - outerTerminal(0);
        }
        return terminal >= 0 && terminal < int(ohms.size()) && !(ohms[std::size_t(terminal)] > 0.0) ? terminal : -1;
    };

    const DevicePlaces places{index, int(m_layout->controls.size()), int(m_layout->currentBranches.size()),
                              int(m_layout->currentSlopes.size()), int(m_layout->chargeSlopes.size())};
    m_new->devices.push_back(places);
    for (const TerminalPair& control : Law::controls) {
        addControl(node(control.first), node(control.second));
    }
    for (const TerminalPair& current : Law::currents) {
        addCurrent(node(current.first), node(current.second), index, pin(current.first), pin(current.second));
    }
    for (const SlopeOf& slope : Law::currentSlopes) {
        addCurrentSlope(places.current + slope.output, places.control + slope.control);
    }
    const ChargePlaces<Law> charges = addDeviceCharges(law, places, node);
    for (const int junction : Law::junctions) {
        const TerminalPair& ends = Law::controls[std::size_t(junction)];
        addConductance(index, node(ends.first), node(ends.second), pin(ends.first), pin(ends.second), junctionGmin, 0.0,
                       false);
    }
    if constexpr (std::is_same_v<Law, OpampLaw>) {
        addOpampPieces(index, law, terminals[terminals.size() - 2], terminals.back());
    }
    group.add(law, places, charges);
}

/// What of an op-amp is linear: input resistance, the gain node's load, the second pole, supply and bias currents.
void Assembler::addOpampPieces(int index, const OpampLaw& law, int inner, int stage) {
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];
    if (law.inputSiemens() > 0.0) {
        addConductance(index, pins[0], pins[1], 0, 1, law.inputSiemens(), 0.0, false);
    }
    addConductance(index, inner, ground(), -1, -1, law.innerSiemens(), 0.0, false);
    addChargeSlope(addCharge(inner, ground()), inner, ground(), law.innerFarads());
    if (stage != inner) {
        // A copy of the gain node behind 1 Ω, into the capacitance of the second pole; the copy loads nothing.
        addStamp(stage, stage, 1.0, structure);
        addStamp(stage, inner, -1.0, structure);
        addChargeSlope(addCharge(stage, ground()), stage, ground(),
                       1.0 / (2.0 * std::numbers::pi * law.secondPoleHertz()));
    }
    const auto fixed = [&](int pinFrom, int from, int pinTo, int to, double amperes) {
        m_equations.m_deviceSources[std::size_t(from)] -= amperes;
        m_equations.m_deviceSources[std::size_t(to)] += amperes;
        m_new->fixedCurrents.push_back({index, pinFrom, pinTo});
        m_equations.m_fixedCurrents.push_back(amperes);
    };
    fixed(3, pins[3], 4, pins[4], law.supplyAmperes());
    if (law.inputBiasAmperes() != 0.0) {
        fixed(0, pins[0], -1, ground(), law.inputBiasAmperes());
        fixed(1, pins[1], -1, ground(), law.inputBiasAmperes());
    }
    if (const InputNoise noise = law.currentNoise(); noise.density > 0.0) {
        const double power = noise.density * noise.density;
        for (const int input : {pins[0], pins[1]}) {
            m_equations.m_inputHiss.push_back({index, input, {power, power * noise.cornerHertz}});
        }
    }
}

Result<void> Assembler::addBehavioural(int index, BehaviouralGroup& group) {
    const Part& part = m_circuit.parts[std::size_t(index)];
    const std::vector<int>& pins = m_layout->pins[std::size_t(index)];
    auto law = Expression::parse(part.law);
    if (!law) {
        return Error{ErrorCode::unsolvable, displayName(part) + ": " + law.error().message, displayName(part)};
    }
    const DevicePlaces places{index, int(m_layout->controls.size()), int(m_layout->currentBranches.size()),
                              int(m_layout->currentSlopes.size()), int(m_layout->chargeSlopes.size())};
    m_new->devices.push_back(places);
    const auto unknownOf = [&](const std::string& net) {
        if (net == groundNet) {
            return ground();
        }
        const auto found = m_layout->indexOfNet.find(net);
        return found == m_layout->indexOfNet.end() ? -1 : found->second;
    };
    for (const LawVariable& variable : law->variables()) {
        int plus = -1;
        int minus = ground();
        if (variable.what == LawVariable::What::voltage) {
            plus = unknownOf(variable.first);
            minus = unknownOf(variable.second);
        } else if (const auto found = m_layout->indexOfPart.find(variable.first);
                   found != m_layout->indexOfPart.end()) {
            plus = m_layout->branches[std::size_t(found->second)];
        }
        if (plus < 0 || minus < 0) {
            const bool isVoltage = variable.what == LawVariable::What::voltage;
            return Error{ErrorCode::unsolvable,
                         isVoltage
                             ? said("%1 reads the net %2, which no part is on: correct its law.", displayName(part),
                                    plus < 0 ? variable.first : variable.second)
                             : said("%1 reads the current of %2, which is no voltage source or coil: correct its law.",
                                    displayName(part), variable.first),
                         displayName(part)};
        }
        addControl(plus, minus);
    }
    if (part.kind == PartKind::behaviouralCurrent) {
        addCurrent(pins[0], pins[1], index, 0, 1);
    } else {
        addCurrent(ground(), m_layout->branches[std::size_t(index)], index, -1, -1);
    }
    for (std::size_t k = 0; k < law->variables().size(); ++k) {
        addCurrentSlope(places.current, places.control + int(k));
    }
    group.add(*law, places);
    return {};
}

// --- entries ---

void Assembler::addStamp(int row, int column, double value, Dependence of) {
    if (isNew()) {
        m_new->stampSlots.push_back(m_new->pattern.slot(row, column));
        m_new->stampOf.push_back(of);
    }
    m_equations.m_stampValues.push_back(value);
}

void Assembler::addConductance(int part, int a, int b, int pinA, int pinB, double siemens, double exponent,
                               bool noisy) {
    const Dependence of = exponent == 0.0 ? structure : Dependence{part, exponent};
    addStamp(a, a, siemens, of);
    addStamp(a, b, -siemens, of);
    addStamp(b, a, -siemens, of);
    addStamp(b, b, siemens, of);
    if (isNew()) {
        if (part >= 0) {
            m_new->resistancesOf[std::size_t(part)].add(m_new->resistances.size());
        }
        m_new->resistances.push_back({part, a, b, pinA, pinB, noisy});
        m_equations.m_resistances.push_back(siemens);
    } else {
        m_equations.m_resistances[m_resistanceCount] = siemens;
    }
    ++m_resistanceCount;
}

int Assembler::addCharge(int plus, int minus) {
    if (!isNew()) {
        return -1;
    }
    m_new->chargeBranches.push_back({plus, minus});
    return int(m_new->chargeBranches.size()) - 1;
}

/// @param farads  constant slope, or NaN when a device evaluates it.
int Assembler::addChargeSlope(int charge, int controlPlus, int controlMinus, double farads) {
    const int place = int(m_slopeCount++);
    if (!isNew()) {
        m_equations.m_linearSlopes[std::size_t(place)] = farads;
        return place;
    }
    const ChargeBranch& branch = m_new->chargeBranches[std::size_t(charge)];
    SparsePattern& pattern = m_new->pattern;
    m_new->chargeSlopes.push_back(
        {charge,
         controlPlus,
         controlMinus,
         {pattern.slot(branch.plus, controlPlus), pattern.slot(branch.plus, controlMinus),
          pattern.slot(branch.minus, controlPlus), pattern.slot(branch.minus, controlMinus)}});
    m_equations.m_linearSlopes.push_back(farads);
    return place;
}

int Assembler::addControl(int plus, int minus) {
    m_new->controls.push_back({plus, minus});
    return int(m_new->controls.size()) - 1;
}

int Assembler::addCurrent(int plus, int minus, int part, int pinFrom, int pinTo) {
    m_new->currentsOf[std::size_t(part)].add(m_new->currentBranches.size());
    m_new->currentBranches.push_back({plus, minus});
    m_new->deviceCurrents.push_back({part, pinFrom, pinTo});
    return int(m_new->currentBranches.size()) - 1;
}

void Assembler::addCurrentSlope(int current, int control) {
    const CurrentBranch& branch = m_new->currentBranches[std::size_t(current)];
    const Control& by = m_new->controls[std::size_t(control)];
    SparsePattern& pattern = m_new->pattern;
    m_new->currentSlopes.push_back({current,
                                    control,
                                    {pattern.slot(branch.plus, by.plus), pattern.slot(branch.plus, by.minus),
                                     pattern.slot(branch.minus, by.plus), pattern.slot(branch.minus, by.minus)}});
}

}  // namespace ohmwright
