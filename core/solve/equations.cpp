// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/equations.h"

#include "core/base/said.h"
#include "core/circuit/check.h"
#include "core/circuit/source_wave.h"
#include "core/solve/assembler.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

void addPairCurrent(std::vector<double>& residual, int plus, int minus, double amperes) {
    residual[std::size_t(plus)] += amperes;
    residual[std::size_t(minus)] -= amperes;
}

double between(const std::vector<double>& x, int a, int b) {
    return x[std::size_t(a)] - x[std::size_t(b)];
}

/// A position of a knob that this circuit has not turns nothing: a mod took its pot out, and the unit as found has it.
Result<void> requireSetting(const Circuit& circuit, Setting setting) {
    std::erase_if(setting.knobs, [&](const auto& knob) { return findKnob(circuit, knob.first) == nullptr; });
    return checkSetting(circuit, setting);
}

}  // namespace

Result<Equations> Equations::compile(const Circuit& circuit, const Setting& setting) {
    if (auto sound = requireSetting(circuit, setting); !sound) {
        return sound.error();
    }
    if (auto solvable = requireSolvable(circuit); !solvable) {
        return solvable.error();
    }
    return Assembler(circuit, setting).assemble();
}

Result<Equations> Equations::compileLike(const Equations& like, const Circuit& circuit, const Setting& setting) {
    if (!Assembler::hasTopologyOf(like, circuit, setting)) {
        return compile(circuit, setting);
    }
    if (auto sound = requireSetting(circuit, setting); !sound) {
        return sound.error();
    }
    for (const Part& part : circuit.parts) {
        if (auto sound = requireSolvableValue(part); !sound) {
            return sound.error();
        }
    }
    return Assembler(circuit, setting).refill(like);
}

int Equations::indexOfNet(const NetName& net) const {
    if (net == groundNet) {
        return size();
    }
    const auto found = m_layout->indexOfNet.find(net);
    return found == m_layout->indexOfNet.end() ? -1 : found->second;
}

int Equations::branchOf(const PartId& part) const {
    const auto found = m_layout->indexOfPart.find(part);
    return found == m_layout->indexOfPart.end() ? -1 : m_layout->branches[std::size_t(found->second)];
}

std::string Equations::unknownName(int index) const {
    const UnknownName& name = m_layout->names[std::size_t(index)];
    return said(name.sentence, name.whose, said(name.place));
}

void Equations::prepare(Evaluation& state) const {
    const Layout& layout = *m_layout;
    state.residual.resize(std::size_t(size()) + 1);
    state.charges.resize(layout.chargeBranches.size());
    state.slopes.resize(layout.chargeSlopes.size());
    state.currents.resize(layout.currentBranches.size());
    state.currentSlopes.resize(layout.currentSlopes.size());
    if (state.controls.size() != layout.controls.size()) {
        state.controls = m_restControls;
    }
}

void Equations::evaluateDevices(const double* x, Junctions mode, Evaluation& state) const {
    evaluateDevices(x, m_layout->controls, mode, state);
}

void Equations::evaluateDevices(const double* x, const std::vector<Control>& controls, Junctions mode,
                                Evaluation& state) const {
    state.limited = false;
    for (const auto& group : *m_groups) {
        group->evaluate(x, controls, mode, state);
    }
}

void Equations::sourcesAt(double seconds, std::vector<double>& sources) const {
    sources = m_sources;
    if (seconds == atRest) {
        return;
    }
    for (const MovingSource& source : m_moving) {
        addPairCurrent(sources, source.rowTo, source.rowFrom, valueAt(source.wave, seconds) - source.rest);
    }
}

Result<void> Equations::requirePeriodicSources(double seconds) const {
    for (const MovingSource& source : m_moving) {
        const auto period = periodOf(source.wave);
        const double turns = period && *period > 0.0 ? seconds / *period : 0.0;
        if (!period || std::abs(turns - std::round(turns)) > 1e-9 * std::max(1.0, turns)) {
            return Error{ErrorCode::invalidInput,
                         said("%1 moves by itself and does not come back after the tone's period: there is no settled "
                              "state. Ask for the wave from a cold start, or take its wave away.",
                              source.name),
                         source.name};
        }
    }
    return {};
}

double Equations::longestDelay() const {
    double longest = 0.0;
    for (const MovingSource& source : m_moving) {
        longest = std::max(longest, source.wave.delay);
    }
    return longest;
}

std::optional<double> Equations::firstCornerIn(double fromSeconds, double toSeconds) const {
    std::optional<double> first;
    for (const MovingSource& source : m_moving) {
        const auto corner = ohmwright::firstCornerIn(source.wave, fromSeconds, toSeconds);
        first = corner && (!first || *corner < *first) ? corner : first;
    }
    return first;
}

void Equations::evaluate(const std::vector<double>& x, const EvaluationOptions& options, Evaluation& state) const {
    const Layout& layout = *m_layout;
    prepare(state);
    evaluateDevices(x.data(), options.junctions, state);

    if (options.seconds == atRest || m_moving.empty()) {
        for (std::size_t row = 0; row < state.residual.size(); ++row) {
            state.residual[row] = -m_sources[row] * options.sourceScale;
        }
    } else {
        sourcesAt(options.seconds, state.residual);
        for (double& entry : state.residual) {
            entry *= -options.sourceScale;
        }
    }
    addPairCurrent(state.residual, layout.drive.plus, layout.drive.minus, options.drive);
    state.conductances = m_linearValues;
    // Row by row: sums in the order of slots would wait for each other in memory.
    for (int row = 0; row < size(); ++row) {
        double sum = state.residual[std::size_t(row)];
        for (const int slot : layout.pattern.slotsOfRow(row)) {
            sum += m_linearValues[std::size_t(slot)] * x[std::size_t(layout.columns[std::size_t(slot)])];
        }
        state.residual[std::size_t(row)] = sum;
    }
    if (options.nodeGmin > 0.0) {
        for (const int slot : layout.diagonalSlots) {
            const auto node = std::size_t(layout.rows[std::size_t(slot)]);
            state.residual[node] += options.nodeGmin * x[node];
            state.conductances[std::size_t(slot)] += options.nodeGmin;
        }
    }
    for (std::size_t k = 0; k < layout.currentBranches.size(); ++k) {
        addPairCurrent(state.residual, layout.currentBranches[k].plus, layout.currentBranches[k].minus,
                       state.currents[k]);
    }
    for (std::size_t k = 0; k < layout.currentSlopes.size(); ++k) {
        const auto& slots = layout.currentSlopes[k].slots;
        const double siemens = state.currentSlopes[k];
        state.conductances[std::size_t(slots[0])] += siemens;
        state.conductances[std::size_t(slots[1])] -= siemens;
        state.conductances[std::size_t(slots[2])] -= siemens;
        state.conductances[std::size_t(slots[3])] += siemens;
    }
    if (!wantsCharges(options.junctions)) {
        return;
    }
    // Constant capacitances: each charge has all its slopes together, the first of them sets it.
    for (std::size_t k = 0; k < layout.chargeSlopes.size(); ++k) {
        if (!std::isnan(m_linearSlopes[k])) {
            state.charges[std::size_t(layout.chargeSlopes[k].charge)] = 0.0;
        }
    }
    for (std::size_t k = 0; k < layout.chargeSlopes.size(); ++k) {
        if (!std::isnan(m_linearSlopes[k])) {
            const ChargeSlope& slope = layout.chargeSlopes[k];
            state.slopes[k] = m_linearSlopes[k];
            state.charges[std::size_t(slope.charge)] +=
                m_linearSlopes[k] * between(x, slope.controlPlus, slope.controlMinus);
        }
    }
}

std::vector<double> Equations::terminalCurrents(const Part& part, const std::vector<double>& x) const {
    Evaluation state;
    prepare(state);
    evaluateDevices(x.data(), Junctions::exact, state);
    return terminalCurrents(part, x, state);
}

std::vector<double> Equations::terminalCurrents(const Part& part, const std::vector<double>& x,
                                                const Evaluation& state) const {
    std::vector<double> currents(part.nets.size(), 0.0);
    const auto found = m_layout->indexOfPart.find(part.id);
    if (found == m_layout->indexOfPart.end()) {
        return currents;
    }
    const int index = found->second;
    const auto add = [&](int pinFrom, int pinTo, double amperes) {
        if (pinFrom >= 0) {
            currents[std::size_t(pinFrom)] += amperes;
        }
        if (pinTo >= 0) {
            currents[std::size_t(pinTo)] -= amperes;
        }
    };
    if (const int branch = m_layout->branches[std::size_t(index)]; branch >= 0) {
        add(0, 1, x[std::size_t(branch)]);
        return currents;
    }
    if (part.kind == PartKind::currentSource) {
        add(0, 1, part.value);
        return currents;
    }
    const Run& resistances = m_layout->resistancesOf[std::size_t(index)];
    for (std::size_t k = resistances.begin; k < resistances.end; ++k) {
        const LinearResistance& resistance = m_layout->resistances[k];
        add(resistance.pinA, resistance.pinB, m_resistances[k] * between(x, resistance.a, resistance.b));
    }
    const bool follows =
        part.kind == PartKind::voltageControlledCurrent || part.kind == PartKind::currentControlledCurrent;
    for (std::size_t k = 0; follows && k < m_transconductances.size(); ++k) {
        const Transconductance& follower = m_transconductances[k];
        if (follower.part == index) {
            add(0, 1, follower.siemens * between(x, follower.controlPlus, follower.controlMinus));
        }
    }
    const Run& devices = m_layout->currentsOf[std::size_t(index)];
    if (devices.begin == devices.end) {
        return currents;
    }
    for (std::size_t k = 0; k < m_layout->fixedCurrents.size(); ++k) {
        const FixedCurrent& fixed = m_layout->fixedCurrents[k];
        if (fixed.part == index) {
            add(fixed.pinFrom, fixed.pinTo, m_fixedCurrents[k]);
        }
    }
    for (std::size_t k = devices.begin; k < devices.end; ++k) {
        const DeviceCurrent& current = m_layout->deviceCurrents[k];
        add(current.pinFrom, current.pinTo, state.currents[k]);
    }
    return currents;
}

const PartId* Equations::partWithoutValue(const std::vector<double>& x) const {
    for (const auto& group : *m_groups) {
        if (const int part = group->undefinedAt(x.data(), m_layout->controls); part >= 0) {
            return &m_layout->parts[std::size_t(part)];
        }
    }
    return nullptr;
}

Equations::LargestCurrent Equations::largestDeviceCurrent(const Evaluation& state) const {
    LargestCurrent largest;
    for (std::size_t k = 0; k < state.currents.size(); ++k) {
        // A behavioural voltage stands in the list of currents too: its row is no node.
        const CurrentBranch& branch = m_layout->currentBranches[k];
        const int row = branch.plus == size() ? branch.minus : branch.plus;
        const int part = m_layout->deviceCurrents[k].part;
        const bool isFormula = m_layout->shapes[std::size_t(part)].kind == PartKind::behaviouralCurrent;
        if (row < size() && isNode(row) && !isFormula && !(std::abs(state.currents[k]) <= largest.amperes)) {
            largest = {part, std::abs(state.currents[k])};
        }
    }
    return largest;
}

std::vector<NoiseSource> Equations::noiseSources(const Evaluation& bias) const {
    std::vector<NoiseSource> sources;
    for (std::size_t k = 0; k < m_layout->resistances.size(); ++k) {
        const LinearResistance& resistance = m_layout->resistances[k];
        if (resistance.noisy && resistance.a != resistance.b) {
            sources.push_back(
                {resistance.part, resistance.a, resistance.b, {4.0 * boltzmann * m_kelvin * m_resistances[k], 0.0}});
        }
    }
    std::vector<NoiseSource> devices;
    for (const auto& group : *m_groups) {
        group->addNoise(bias.controls, devices);
    }
    for (NoiseSource& source : devices) {
        const CurrentBranch& branch = m_layout->currentBranches[std::size_t(source.plus)];
        source.plus = branch.plus;
        source.minus = branch.minus;
        sources.push_back(source);
    }
    for (const InputHiss& input : m_inputHiss) {
        sources.push_back({input.part, input.node, size(), input.density});
    }
    return sources;
}

std::vector<std::vector<ValueStamp>> Equations::valueStamps() const {
    const Layout& layout = *m_layout;
    std::vector<std::vector<ValueStamp>> stamps(layout.parts.size());
    for (std::size_t k = 0; k < layout.stampOf.size(); ++k) {
        const Dependence& of = layout.stampOf[k];
        if (of.part >= 0 && layout.stampSlots[k] > 0) {
            stamps[std::size_t(of.part)].push_back(
                {ValueStamp::Where::conductance, layout.stampSlots[k], of.exponent * m_stampValues[k]});
        }
    }
    for (const auto& [slope, of] : layout.slopeOf) {
        stamps[std::size_t(of.part)].push_back(
            {ValueStamp::Where::chargeSlope, slope, of.exponent * m_linearSlopes[std::size_t(slope)]});
    }
    for (const SourceStamp& source : m_sourceStamps) {
        stamps[std::size_t(source.part)].push_back({ValueStamp::Where::source, source.row, source.value});
    }
    return stamps;
}

}  // namespace ohmwright
