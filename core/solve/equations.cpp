// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/equations.h"

#include "core/circuit/check.h"
#include "core/devices/constants.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr double evaluatedByDevice = std::numeric_limits<double>::quiet_NaN();

void addPairCurrent(std::vector<double>& residual, int a, int b, double amperes) {
    residual[std::size_t(a)] += amperes;
    residual[std::size_t(b)] -= amperes;
}

void addPairConductance(std::vector<double>& values, const std::array<int, 4>& slots, double siemens) {
    values[std::size_t(slots[0])] += siemens;
    values[std::size_t(slots[1])] -= siemens;
    values[std::size_t(slots[2])] -= siemens;
    values[std::size_t(slots[3])] += siemens;
}

double between(const std::vector<double>& x, int a, int b) {
    return x[std::size_t(a)] - x[std::size_t(b)];
}

/// The voltage to linearise a junction at; remembers it.
template <class Limit>
double junctionVolts(double asked, double& memory, const EvaluationOptions& options, Evaluation& state, Limit limit) {
    switch (options.junctions) {
        case Junctions::limited:
            memory = limit(asked, memory);
            break;
        case Junctions::exact:
            memory = asked;
            break;
        case Junctions::off:
            memory = 0.0;
            break;
    }
    state.limited = state.limited || memory != asked;
    return memory;
}

const Model& modelOf(const Circuit& circuit, const Part& part) {
    const Model* model = findModel(circuit, part.model);
    assert(model != nullptr);  // circuit/check.h has seen to it
    return *model;
}

}  // namespace

Result<Equations> Equations::compile(const Circuit& asDrawn, const Setting& setting) {
    if (auto sound = checkSetting(asDrawn, setting); !sound) {
        return sound.error();
    }
    const Circuit circuit = withEnds(asDrawn, setting);
    if (auto solvable = requireSolvable(circuit); !solvable) {
        return solvable.error();
    }

    Equations equations;
    equations.number(circuit);
    for (const Part& part : circuit.parts) {
        equations.addPart(circuit, part, setting);
    }
    for (const NetName& net : circuit.openNets) {
        if (const int node = equations.indexOfNet(net); node >= 0) {
            equations.addConductance({}, node, equations.size(), 0, 1, 1.0 / openLegOhms);
        }
    }
    for (int node = 0; node < equations.m_nodeCount; ++node) {
        equations.m_diagonalSlots.push_back(equations.m_pattern.slot(node, node));
    }
    equations.m_linearValues.assign(equations.m_pattern.valueCount(), 0.0);
    for (const auto& [slot, value] : equations.m_linearStamps) {
        equations.m_linearValues[std::size_t(slot)] += value;
    }
    return equations;
}

/// Numbers nets in the parts' order, then inner nodes of devices, then branch currents.
void Equations::number(const Circuit& circuit) {
    for (const Part& part : circuit.parts) {
        for (const NetName& net : part.nets) {
            if (net != groundNet && m_indexOfNet.emplace(net, int(m_nets.size())).second) {
                m_nets.push_back(net);
                m_names.push_back(net);
            }
        }
    }
    const auto addInner = [this](const Part& part, const char* place) {
        m_innerNodes[{part.id, place}] = int(m_names.size());
        m_names.push_back("the inner " + std::string(place) + " of " + displayName(part));
    };
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::diode && DiodeLaw(modelOf(circuit, part), nominalKelvin).seriesOhms() > 0.0) {
            addInner(part, "anode");
        } else if (part.kind == PartKind::bipolar) {
            const BipolarLaw law(modelOf(circuit, part), nominalKelvin);
            if (law.collectorOhms() > 0.0) {
                addInner(part, "collector");
            }
            if (law.baseOhms() > 0.0) {
                addInner(part, "base");
            }
            if (law.emitterOhms() > 0.0) {
                addInner(part, "emitter");
            }
        } else if (part.kind == PartKind::opamp) {
            addInner(part, "gain node");
        }
    }
    m_nodeCount = int(m_names.size());
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::voltageSource || part.kind == PartKind::inductor) {
            m_branches.emplace(part.id, int(m_names.size()));
            m_names.push_back("the current of " + displayName(part));
        }
    }
    m_pattern = SparsePattern(int(m_names.size()));
    m_inputRow = size();
    m_sources.assign(m_names.size() + 1, 0.0);
}

int Equations::indexOfNet(const NetName& net) const {
    if (net == groundNet) {
        return size();
    }
    const auto found = m_indexOfNet.find(net);
    return found == m_indexOfNet.end() ? -1 : found->second;
}

int Equations::branchOf(const PartId& part) const {
    const auto found = m_branches.find(part);
    return found == m_branches.end() ? -1 : found->second;
}

std::string Equations::unknownName(int index) const {
    const std::string& name = m_names[std::size_t(index)];
    return index < int(m_nets.size()) ? "net " + name : name;
}

int Equations::innerNode(const Part& part, const char* place) const {
    return m_innerNodes.at({part.id, place});
}

Equations::PairSlots Equations::pair(int a, int b) {
    return {a, b, {m_pattern.slot(a, a), m_pattern.slot(a, b), m_pattern.slot(b, a), m_pattern.slot(b, b)}};
}

void Equations::addLinear(int row, int column, double value) {
    m_linearStamps.emplace_back(m_pattern.slot(row, column), value);
}

void Equations::addConductance(const PartId& part, int a, int b, int pinA, int pinB, double siemens) {
    const PairSlots slots = pair(a, b);
    m_linearStamps.emplace_back(slots.slots[0], siemens);
    m_linearStamps.emplace_back(slots.slots[1], -siemens);
    m_linearStamps.emplace_back(slots.slots[2], -siemens);
    m_linearStamps.emplace_back(slots.slots[3], siemens);
    m_resistances.push_back({part, a, b, pinA, pinB, siemens});
}

std::size_t Equations::addCharge(int plus, int minus) {
    m_chargeBranches.push_back({plus, minus});
    return m_chargeBranches.size() - 1;
}

void Equations::addChargeSlope(std::size_t charge, int controlPlus, int controlMinus, double farads) {
    const ChargeBranch& branch = m_chargeBranches[charge];
    m_chargeSlopes.push_back({int(charge),
                              controlPlus,
                              controlMinus,
                              {m_pattern.slot(branch.plus, controlPlus), m_pattern.slot(branch.plus, controlMinus),
                               m_pattern.slot(branch.minus, controlPlus), m_pattern.slot(branch.minus, controlMinus)}});
    m_linearSlopes.push_back(farads);
}

void Equations::addPart(const Circuit& circuit, const Part& part, const Setting& setting) {
    std::vector<int> pins;
    for (const NetName& net : part.nets) {
        pins.push_back(indexOfNet(net));
    }
    switch (part.kind) {
        case PartKind::resistor:
            addConductance(part.id, pins[0], pins[1], 0, 1, 1.0 / part.value);
            break;
        case PartKind::link:
            addConductance(part.id, pins[0], pins[1], 0, 1, 1.0 / linkOhms);
            break;
        case PartKind::potentiometer: {
            const Knob* knob = knobOf(circuit, part.id);
            const PotHalves halves = potHalves(part, knob == nullptr ? 5.0 : knobPosition(setting, knob->id));
            if (pins[0] != pins[1]) {
                addConductance(part.id, pins[0], pins[1], 0, 1, 1.0 / halves.topToWiper);
            }
            if (pins[1] != pins[2]) {
                addConductance(part.id, pins[1], pins[2], 1, 2, 1.0 / halves.wiperToBottom);
            }
            break;
        }
        case PartKind::capacitor:
            addChargeSlope(addCharge(pins[0], pins[1]), pins[0], pins[1], part.value);
            break;
        case PartKind::inductor: {
            // v+ - v- - L di/dt = 0: the flux -L i is a charge that leaves the branch's own row.
            const int branch = branchOf(part.id);
            addLinear(pins[0], branch, 1.0);
            addLinear(pins[1], branch, -1.0);
            addLinear(branch, pins[0], 1.0);
            addLinear(branch, pins[1], -1.0);
            addChargeSlope(addCharge(branch, size()), branch, size(), -part.value);
            break;
        }
        case PartKind::voltageSource: {
            const int branch = branchOf(part.id);
            addLinear(pins[0], branch, 1.0);
            addLinear(pins[1], branch, -1.0);
            addLinear(branch, pins[0], 1.0);
            addLinear(branch, pins[1], -1.0);
            m_sources[std::size_t(branch)] = part.value;
            if (part.id == circuit.ports.source) {
                m_inputRow = branch;
            }
            break;
        }
        case PartKind::currentSource:
            addPairCurrent(m_sources, pins[1], pins[0], part.value);
            break;
        case PartKind::diode:
            addDiode(circuit, part, setting.temperatureKelvin);
            break;
        case PartKind::bipolar:
            addBipolar(circuit, part, setting.temperatureKelvin);
            break;
        case PartKind::opamp:
            addOpamp(circuit, part, setting.temperatureKelvin);
            break;
    }
}

void Equations::addDiode(const Circuit& circuit, const Part& part, double kelvin) {
    const DiodeLaw law(modelOf(circuit, part), kelvin);
    const int outer = indexOfNet(part.nets[0]);
    const int cathode = indexOfNet(part.nets[1]);
    int anode = outer;
    if (law.seriesOhms() > 0.0) {
        anode = innerNode(part, "anode");
        addConductance(part.id, outer, anode, 0, -1, 1.0 / law.seriesOhms());
    }
    const std::size_t charge = addCharge(anode, cathode);
    m_diodes.push_back({part.id, law, pair(anode, cathode), m_memoryCount, charge, m_chargeSlopes.size()});
    addChargeSlope(charge, anode, cathode, evaluatedByDevice);
    m_memoryCount += 1;
}

void Equations::addBipolar(const Circuit& circuit, const Part& part, double kelvin) {
    const BipolarLaw law(modelOf(circuit, part), kelvin);
    const auto inside = [&](int pin, const char* place, double seriesOhms) {
        const int outer = indexOfNet(part.nets[std::size_t(pin)]);
        if (seriesOhms <= 0.0) {
            return outer;
        }
        const int inner = innerNode(part, place);
        addConductance(part.id, outer, inner, pin, -1, 1.0 / seriesOhms);
        return inner;
    };
    BipolarElement element{.part = part.id,
                           .law = law,
                           .collector = inside(0, "collector", law.collectorOhms()),
                           .base = inside(1, "base", law.baseOhms()),
                           .emitter = inside(2, "emitter", law.emitterOhms()),
                           .slots = {},
                           .memory = m_memoryCount,
                           .charge = 0,
                           .slope = m_chargeSlopes.size()};
    const std::array<int, 3> nodes{element.collector, element.base, element.emitter};
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            element.slots[3 * row + column] = m_pattern.slot(nodes[row], nodes[column]);
        }
    }
    element.charge = addCharge(element.base, element.emitter);
    addCharge(element.base, element.collector);
    addChargeSlope(element.charge, element.base, element.emitter, evaluatedByDevice);
    addChargeSlope(element.charge, element.base, element.collector, evaluatedByDevice);
    addChargeSlope(element.charge + 1, element.base, element.collector, evaluatedByDevice);
    m_bipolars.push_back(element);
    m_memoryCount += 2;
}

void Equations::addOpamp(const Circuit& circuit, const Part& part, double kelvin) {
    const OpampLaw law(modelOf(circuit, part), kelvin);
    OpampElement element{.part = part.id,
                         .law = law,
                         .plus = indexOfNet(part.nets[0]),
                         .minus = indexOfNet(part.nets[1]),
                         .output = indexOfNet(part.nets[2]),
                         .upper = indexOfNet(part.nets[3]),
                         .lower = indexOfNet(part.nets[4]),
                         .inner = innerNode(part, "gain node"),
                         .transferSlots = {},
                         .upperClamp = {},
                         .lowerClamp = {},
                         .memory = m_memoryCount};
    element.transferSlots = {m_pattern.slot(element.inner, element.plus), m_pattern.slot(element.inner, element.minus)};
    // A clamp takes its current from x alone: the supply behind it is a copy of V+ (or V-), so only row x is stamped.
    element.upperClamp = {
        element.inner,
        element.upper,
        {m_pattern.slot(element.inner, element.inner), m_pattern.slot(element.inner, element.upper), 0, 0}};
    element.lowerClamp = {
        element.lower,
        element.inner,
        {m_pattern.slot(element.inner, element.inner), m_pattern.slot(element.inner, element.lower), 0, 0}};
    m_opamps.push_back(element);
    m_memoryCount += 2;

    if (law.inputSiemens() > 0.0) {
        addConductance(part.id, element.plus, element.minus, 0, 1, law.inputSiemens());
    }
    addConductance({}, element.inner, size(), 0, 1, law.innerSiemens());
    addChargeSlope(addCharge(element.inner, size()), element.inner, size(), law.innerFarads());
    // The output is a copy of x behind ROUT: its current comes from the supplies, not from x.
    addLinear(element.output, element.output, law.outputSiemens());
    addLinear(element.output, element.inner, -law.outputSiemens());
    addPairCurrent(m_sources, element.lower, element.upper, law.supplyAmperes());
}

void Equations::evaluate(const std::vector<double>& x, const EvaluationOptions& options, Evaluation& state) const {
    const auto rows = std::size_t(size()) + 1;
    state.residual.assign(rows, 0.0);
    state.conductances = m_linearValues;
    state.charges.assign(m_chargeBranches.size(), 0.0);
    state.slopes.resize(m_chargeSlopes.size());
    if (state.junctions.size() != m_memoryCount) {
        state.junctions.assign(m_memoryCount, 0.0);
    }
    state.limited = false;

    for (std::size_t slot = 1; slot < m_linearValues.size(); ++slot) {
        state.residual[std::size_t(m_pattern.rowOf(slot))] +=
            m_linearValues[slot] * x[std::size_t(m_pattern.columnOf(slot))];
    }
    for (std::size_t row = 0; row < rows; ++row) {
        state.residual[row] -= m_sources[row] * options.sourceScale;
    }
    state.residual[std::size_t(m_inputRow)] -= options.inputVolts;
    if (options.nodeGmin > 0.0) {
        for (std::size_t node = 0; node < std::size_t(m_nodeCount); ++node) {
            state.residual[node] += options.nodeGmin * x[node];
            state.conductances[std::size_t(m_diagonalSlots[node])] += options.nodeGmin;
        }
    }
    for (std::size_t k = 0; k < m_chargeSlopes.size(); ++k) {
        if (!std::isnan(m_linearSlopes[k])) {
            const ChargeSlope& slope = m_chargeSlopes[k];
            state.slopes[k] = m_linearSlopes[k];
            state.charges[std::size_t(slope.charge)] +=
                m_linearSlopes[k] * between(x, slope.controlPlus, slope.controlMinus);
        }
    }
    for (const DiodeElement& diode : m_diodes) {
        evaluateDiode(diode, x, options, state);
    }
    for (const BipolarElement& transistor : m_bipolars) {
        evaluateBipolar(transistor, x, options, state);
    }
    for (const OpampElement& opamp : m_opamps) {
        evaluateOpamp(opamp, x, options, state);
    }
}

void Equations::evaluateDiode(const DiodeElement& diode, const std::vector<double>& x, const EvaluationOptions& options,
                              Evaluation& state) const {
    const double asked = between(x, diode.junction.a, diode.junction.b);
    const double used =
        junctionVolts(asked, state.junctions[diode.memory], options, state,
                      [&](double proposed, double previous) { return diode.law.limited(proposed, previous); });

    // Linearised at `used`, read at `asked`: Newton's next step lands where the tangent says.
    ValueAndSlope current = diode.law.current(used);
    current.value += options.gmin * used;
    current.slope += options.gmin;
    addPairCurrent(state.residual, diode.junction.a, diode.junction.b, current.value + current.slope * (asked - used));
    addPairConductance(state.conductances, diode.junction.slots, current.slope);

    const ValueAndSlope charge = diode.law.charge(used);
    state.charges[diode.charge] = charge.value + charge.slope * (asked - used);
    state.slopes[diode.slope] = charge.slope;
}

void Equations::evaluateBipolar(const BipolarElement& transistor, const std::vector<double>& x,
                                const EvaluationOptions& options, Evaluation& state) const {
    const double sign = transistor.law.polarity();
    const double askedEmitter = sign * between(x, transistor.base, transistor.emitter);
    const double askedCollector = sign * between(x, transistor.base, transistor.collector);
    const BipolarLaw& law = transistor.law;
    const double emitter =
        junctionVolts(askedEmitter, state.junctions[transistor.memory], options, state,
                      [&](double proposed, double previous) { return law.limitedBaseEmitter(proposed, previous); });
    const double collector =
        junctionVolts(askedCollector, state.junctions[transistor.memory + 1], options, state,
                      [&](double proposed, double previous) { return law.limitedBaseCollector(proposed, previous); });

    BipolarLaw::Point point = law.at(emitter, collector);
    point.base.value += options.gmin * (emitter + collector);
    point.base.byBaseEmitter += options.gmin;
    point.base.byBaseCollector += options.gmin;
    point.collector.value -= options.gmin * collector;
    point.collector.byBaseCollector -= options.gmin;

    const double restEmitter = askedEmitter - emitter;
    const double restCollector = askedCollector - collector;
    const auto atAsked = [&](const ValueAndTwoSlopes& tangent) {
        return tangent.value + tangent.byBaseEmitter * restEmitter + tangent.byBaseCollector * restCollector;
    };
    const double intoCollector = sign * atAsked(point.collector);
    const double intoBase = sign * atAsked(point.base);
    state.residual[std::size_t(transistor.collector)] += intoCollector;
    state.residual[std::size_t(transistor.base)] += intoBase;
    state.residual[std::size_t(transistor.emitter)] -= intoCollector + intoBase;

    // sign * d/d(sign v) leaves the slopes as they are. Columns: collector, base, emitter.
    const auto addRow = [&](std::size_t row, double byEmitter, double byCollector, double factor) {
        state.conductances[std::size_t(transistor.slots[3 * row])] -= factor * byCollector;
        state.conductances[std::size_t(transistor.slots[3 * row + 1])] += factor * (byEmitter + byCollector);
        state.conductances[std::size_t(transistor.slots[3 * row + 2])] -= factor * byEmitter;
    };
    addRow(0, point.collector.byBaseEmitter, point.collector.byBaseCollector, 1.0);
    addRow(1, point.base.byBaseEmitter, point.base.byBaseCollector, 1.0);
    addRow(2, point.collector.byBaseEmitter + point.base.byBaseEmitter,
           point.collector.byBaseCollector + point.base.byBaseCollector, -1.0);

    state.charges[transistor.charge] = sign * atAsked(point.chargeEmitter);
    state.charges[transistor.charge + 1] = sign * atAsked(point.chargeCollector);
    state.slopes[transistor.slope] = point.chargeEmitter.byBaseEmitter;
    state.slopes[transistor.slope + 1] = point.chargeEmitter.byBaseCollector;
    state.slopes[transistor.slope + 2] = point.chargeCollector.byBaseCollector;
}

void Equations::evaluateOpamp(const OpampElement& opamp, const std::vector<double>& x, const EvaluationOptions& options,
                              Evaluation& state) const {
    const auto inner = std::size_t(opamp.inner);
    const ValueAndSlope transfer = opamp.law.transfer(between(x, opamp.plus, opamp.minus));
    state.residual[inner] -= transfer.value;
    state.conductances[std::size_t(opamp.transferSlots[0])] -= transfer.slope;
    state.conductances[std::size_t(opamp.transferSlots[1])] += transfer.slope;

    const auto clamp = [&](double asked, double& memory) {
        const double used = junctionVolts(asked, memory, options, state, [&](double proposed, double previous) {
            return opamp.law.limitedClamp(proposed, previous);
        });
        const ValueAndSlope current = opamp.law.clamp(used);
        const double slope = current.slope + options.gmin;
        return ValueAndSlope{current.value + options.gmin * used + slope * (asked - used), slope};
    };
    // Upper: from x into V+ - headroom. Lower: from V- + headroom into x.
    const ValueAndSlope upper =
        clamp(between(x, opamp.inner, opamp.upper) + opamp.law.upperHeadroom(), state.junctions[opamp.memory]);
    const ValueAndSlope lower =
        clamp(between(x, opamp.lower, opamp.inner) + opamp.law.lowerHeadroom(), state.junctions[opamp.memory + 1]);
    state.residual[inner] += upper.value - lower.value;
    state.conductances[std::size_t(opamp.upperClamp.slots[0])] += upper.slope + lower.slope;
    state.conductances[std::size_t(opamp.upperClamp.slots[1])] -= upper.slope;
    state.conductances[std::size_t(opamp.lowerClamp.slots[1])] -= lower.slope;
}

std::vector<double> Equations::terminalCurrents(const Part& part, const std::vector<double>& x) const {
    std::vector<double> currents(part.nets.size(), 0.0);
    if (const int branch = branchOf(part.id); branch >= 0) {
        currents[0] = x[std::size_t(branch)];
        currents[1] = -currents[0];
        return currents;
    }
    if (part.kind == PartKind::currentSource) {
        return {part.value, -part.value};
    }
    for (const LinearResistance& resistance : m_resistances) {
        if (resistance.part == part.id) {
            const double amperes = resistance.siemens * between(x, resistance.a, resistance.b);
            currents[std::size_t(resistance.pinA)] += amperes;
            if (resistance.pinB >= 0) {
                currents[std::size_t(resistance.pinB)] -= amperes;
            }
        }
    }
    for (const DiodeElement& diode : m_diodes) {
        if (diode.part == part.id) {
            const double volts = between(x, diode.junction.a, diode.junction.b);
            const double amperes = diode.law.current(volts).value + junctionGmin * volts;
            return {amperes, -amperes};
        }
    }
    for (const BipolarElement& transistor : m_bipolars) {
        if (transistor.part == part.id) {
            const double sign = transistor.law.polarity();
            const auto point = transistor.law.at(sign * between(x, transistor.base, transistor.emitter),
                                                 sign * between(x, transistor.base, transistor.collector));
            const double collector = sign * point.collector.value;
            const double base = sign * point.base.value;
            return {collector, base, -(collector + base)};
        }
    }
    for (const OpampElement& opamp : m_opamps) {
        if (opamp.part == part.id) {
            currents[2] = opamp.law.outputSiemens() * between(x, opamp.output, opamp.inner);
            currents[3] = opamp.law.supplyAmperes();
            currents[4] = -opamp.law.supplyAmperes();
            return currents;
        }
    }
    return currents;
}

}  // namespace ohmwright
