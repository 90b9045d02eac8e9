// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/time_step.h"

#include "core/base/said.h"
#include "core/solve/pivot_orders.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace ohmwright {

namespace {

constexpr int mostIterations = 60;
/// Newton's last step may move a device's voltage by this much [V, relative]: what is left of the error is its square
/// over the volts in which the device bends, 26 mV at the least.
constexpr double enoughVolts = 2e-5;
constexpr double enoughShare = 1e-6;
/// More late rows than this are not tried apart: they join to a block that costs more than the whole sparse matrix.
constexpr long mostLateRows = 60;
/// 2/h at which the shared order is chosen, that of 257 steps a period at 1 kHz: the order, and with it the last digit,
/// must not hang on which step was asked for first.
constexpr double orderRate = 2.0 * 257.0 * 1000.0;
/// Newton's iterations a step, for weighing one order against another.
constexpr double usualIterations = 1.3;

/// Multiply-subtracts of one step with this order: the early part is solved once, the late one in each iteration.
double operationsOfStep(const EliminationOrder& order) {
    const auto latePosition = std::size_t(order.start[order.earlySteps]);
    double perIteration = double(order.positionCount() - latePosition);
    for (std::size_t position = latePosition; position < order.positionCount(); ++position) {
        perIteration += order.firstProduct[position + 1] - order.firstLateProduct[position];
    }
    return double(order.solveOperations()) + usualIterations * perIteration;
}

/// Eliminating all that lies between them joins the late unknowns to each other. Where that costs more than it saves,
/// nothing is eliminated early.
/// @return as SparseLu::analyse
int orderLate(const SparsePattern& pattern, const std::vector<double>& values, const std::vector<char>& lateRows,
              const std::vector<char>& lateColumns, SparseLu<double>& kernel) {
    const std::vector<char> all(std::size_t(pattern.size()), 1);
    SparseLu<double> whole;
    const int unknown = whole.analyse(pattern, values, all, all);
    if (unknown < 0 && std::count(lateRows.begin(), lateRows.end(), 1) <= mostLateRows &&
        kernel.analyse(pattern, values, lateRows, lateColumns) < 0 &&
        operationsOfStep(*kernel.order()) < operationsOfStep(*whole.order())) {
        return unknown;
    }
    kernel = std::move(whole);
    return unknown;
}

}  // namespace

TimeStepper::TimeStepper(const Equations& equations, double stepSeconds)
    : m_equations(&equations), m_stepSeconds(stepSeconds), m_rate(2.0 / stepSeconds) {}

Result<TimeStepper> TimeStepper::make(const Equations& equations, double stepSeconds) {
    TimeStepper stepper(equations, stepSeconds);
    equations.prepare(stepper.m_state);
    const std::vector<double>& farads = equations.linearSlopes();
    for (std::size_t k = 0; k < farads.size(); ++k) {
        const ChargeSlope& slope = equations.chargeSlopes()[k];
        if (!std::isnan(farads[k])) {
            stepper.m_linearSlopes.push_back({slope.charge, slope.controlPlus, slope.controlMinus, farads[k]});
            stepper.m_state.slopes[k] = farads[k];
        }
    }
    if (auto ready = stepper.prepareKernel(false); !ready) {
        return ready.error();
    }
    stepper.listDevices();
    return stepper;
}

/// Factors what is linear. The pivot order is the topology's, chosen with every device off, unless the present state
/// asks for its own.
Result<void> TimeStepper::prepareKernel(bool atPresentState) {
    const Equations& equations = *m_equations;
    m_values = equations.linearConductances();
    for (std::size_t k = 0; k < equations.chargeSlopes().size(); ++k) {
        if (const double farads = equations.linearSlopes()[k]; !std::isnan(farads)) {
            const auto& slots = equations.chargeSlopes()[k].slots;
            m_values[std::size_t(slots[0])] += m_rate * farads;
            m_values[std::size_t(slots[1])] -= m_rate * farads;
            m_values[std::size_t(slots[2])] -= m_rate * farads;
            m_values[std::size_t(slots[3])] += m_rate * farads;
        }
    }

    Equations::Orders& orders = equations.orders();
    const std::scoped_lock lock(orders.mutex);
    const auto size = std::size_t(equations.size());
    std::vector<char> lateRows(size + 1, 0), lateColumns(size + 1, 0);
    for (const CurrentBranch& branch : equations.currentBranches()) {
        lateRows[std::size_t(branch.plus)] = lateRows[std::size_t(branch.minus)] = 1;
    }
    for (const Control& control : equations.controls()) {
        lateColumns[std::size_t(control.plus)] = lateColumns[std::size_t(control.minus)] = 1;
    }
    for (std::size_t k = 0; k < equations.chargeSlopes().size(); ++k) {
        if (std::isnan(equations.linearSlopes()[k])) {
            const ChargeBranch& branch = equations.chargeBranches()[std::size_t(equations.chargeSlopes()[k].charge)];
            lateRows[std::size_t(branch.plus)] = lateRows[std::size_t(branch.minus)] = 1;
        }
    }

    lateRows.resize(size);  // ground's mark goes
    lateColumns.resize(size);

    Evaluation state = m_state;
    std::vector<double> x = m_x;
    if (!atPresentState) {
        state.controls.clear();
        x.assign(size + 1, 0.0);
    }
    SparseLu<double> kernel;
    const auto analyse = [&](Junctions mode, double rate) {
        equations.evaluate(x, {.junctions = mode}, state);
        equations.addCharges(state, rate, state.conductances);
        return orderLate(equations.pattern(), state.conductances, lateRows, lateColumns, kernel);
    };
    const auto analyseAtRest = [&](double rate) {
        const int unknown = analyse(Junctions::off, rate);
        return unknown >= 0 ? analyse(Junctions::exact, rate) : unknown;
    };
    if (!atPresentState) {
        if (orders.steps == nullptr && analyseAtRest(orderRate) < 0) {
            orders.steps = kernel.order();
        }
        if (orders.steps != nullptr) {
            m_lu.adopt(orders.steps);
            if (m_lu.factorEarly(m_values)) {
                return {};
            }
        }
    }
    const int unknown = atPresentState ? analyse(Junctions::exact, m_rate) : analyseAtRest(m_rate);
    if (unknown >= 0) {
        return singularAt(equations, unknown);
    }
    if (!kernel.factorEarly(m_values)) {
        return notConverged();
    }
    m_lu = std::move(kernel);
    return {};
}

/// Lays out where each device's current, charge and slope goes in the late part.
void TimeStepper::listDevices() {
    const Equations& equations = *m_equations;
    const EliminationOrder& order = *m_lu.order();
    const std::size_t late = m_lu.lateCount();
    std::vector<int> placeOfRow(std::size_t(equations.size()) + 1, int(late));
    m_lateColumns.clear();
    for (std::size_t k = 0; k < late; ++k) {
        placeOfRow[std::size_t(order.rowOfStep[order.earlySteps + k])] = int(k);
        m_lateColumns.push_back(order.columnOfStep[order.earlySteps + k]);
    }
    const auto rowsOf = [&](int plus, int minus) {
        return LateRows{placeOfRow[std::size_t(plus)], placeOfRow[std::size_t(minus)]};
    };

    std::map<int, int> sumOfSlot;
    const auto sumsOf = [&](const std::array<int, 4>& slots) {
        std::array<int, 4> sums{};
        for (std::size_t k = 0; k < 4; ++k) {
            sums[k] = slots[k] == 0 ? -1 : sumOfSlot.try_emplace(slots[k], int(sumOfSlot.size())).first->second;
        }
        return sums;
    };
    m_currentRows.clear();
    for (const CurrentBranch& branch : equations.currentBranches()) {
        m_currentRows.push_back(rowsOf(branch.plus, branch.minus));
    }
    m_currentSlopes.clear();
    for (const CurrentSlope& slope : equations.currentSlopes()) {
        const Control& control = equations.controls()[std::size_t(slope.control)];
        m_currentSlopes.push_back({slope.current, control.plus, control.minus, sumsOf(slope.slots)});
    }
    m_chargeSlopes.clear();
    m_chargeSlopeOfDevice.clear();
    m_chargeRows.clear();
    for (const ChargeBranch& branch : equations.chargeBranches()) {
        m_chargeRows.push_back(rowsOf(branch.plus, branch.minus));
    }
    m_deviceCharges.clear();
    std::vector<char> isDevice(equations.chargeBranches().size(), 0);
    for (std::size_t k = 0; k < equations.chargeSlopes().size(); ++k) {
        if (!std::isnan(equations.linearSlopes()[k])) {
            continue;
        }
        const ChargeSlope& slope = equations.chargeSlopes()[k];
        m_chargeSlopes.push_back({slope.charge, slope.controlPlus, slope.controlMinus, sumsOf(slope.slots)});
        m_chargeSlopeOfDevice.push_back(int(k));
        if (isDevice[std::size_t(slope.charge)] == 0) {
            isDevice[std::size_t(slope.charge)] = 1;
            m_deviceCharges.push_back(slope.charge);
        }
    }
    m_lateSlots.assign(sumOfSlot.size(), 0);
    for (const auto& [slot, sum] : sumOfSlot) {
        m_lateSlots[std::size_t(sum)] = slot;
    }
    m_additions.assign(sumOfSlot.size() + 1, 0.0);
    for (auto* slopes : {&m_currentSlopes, &m_chargeSlopes}) {
        for (DeviceSlope& slope : *slopes) {
            std::replace(slope.sums.begin(), slope.sums.end(), -1, int(sumOfSlot.size()));
        }
    }
    m_reduced.assign(late, 0.0);
    m_missing.assign(late + 1, 0.0);
    m_late.assign(late, 0.0);
    m_work.assign(m_lu.size(), 0.0);
    m_moved.assign(std::size_t(equations.size()) + 1, 0.0);
}

void TimeStepper::startAtRest(const OperatingPoint& bias) {
    std::vector<double> companions = bias.state.charges;
    for (double& companion : companions) {
        companion *= m_rate;
    }
    start(companions, bias.x, bias.state);
}

void TimeStepper::start(const std::vector<double>& companions, const std::vector<double>& x, const Evaluation& state) {
    m_companions = companions;
    m_x = x;
    m_lastX = x;
    m_olderX = x;
    m_state = state;
    m_equations->prepare(m_state);
    m_sinceStart = 0;
}

void TimeStepper::continueFrom(const TimeStepper& other) {
    start(other.m_companions, other.m_x, other.m_state);
    // w = (2/h) q + dq/dt, and only h is another.
    for (std::size_t k = 0; k < m_companions.size(); ++k) {
        m_companions[k] += (m_rate - other.m_rate) * m_state.charges[k];
    }
}

/// A parabola through the last three states is near enough to save an iteration on smooth signals.
void TimeStepper::predict() {
    for (std::size_t k = 0; k + 1 < m_x.size(); ++k) {
        const double now = m_x[k];
        const double past = m_lastX[k];
        m_x[k] = m_sinceStart >= 2 ? 3.0 * (now - past) + m_olderX[k] : now + (now - past);
        m_olderX[k] = past;
        m_lastX[k] = now;
    }
    m_sinceStart = std::min(m_sinceStart + 1, 2);
}

/// What the linear part lacks at the predicted x, eliminated. Steps are solved for as differences from the prediction:
/// rounding is then a share of what changes, not of supply volts times the siemens of a large capacitor.
void TimeStepper::loadEarly(double drive, double seconds) {
    m_equations->sourcesAt(seconds, m_rightHandSide);
    const Equations::DriveRows rows = m_equations->driveRows();
    m_rightHandSide[std::size_t(rows.minus)] += drive;
    m_rightHandSide[std::size_t(rows.plus)] -= drive;
    const auto& branches = m_equations->chargeBranches();
    for (std::size_t k = 0; k < branches.size(); ++k) {
        m_rightHandSide[std::size_t(branches[k].plus)] += m_companions[k];
        m_rightHandSide[std::size_t(branches[k].minus)] -= m_companions[k];
    }
    const SparsePattern& pattern = m_equations->pattern();
    for (std::size_t slot = 1; slot < m_values.size(); ++slot) {
        m_rightHandSide[std::size_t(pattern.rowOf(slot))] -= m_values[slot] * m_x[std::size_t(pattern.columnOf(slot))];
    }
    m_lu.permuteIn(m_rightHandSide, m_work);
    m_lu.forwardEarly(m_work);
    std::copy(m_work.begin() + std::ptrdiff_t(m_lu.earlyCount()), m_work.end(), m_reduced.begin());
    std::fill(m_late.begin(), m_late.end(), 0.0);
}

/// The devices at m_x: their slopes for the matrix, and what the late equations lack there.
void TimeStepper::linearise() {
    m_equations->evaluateDevices(m_x.data(), Junctions::limited, m_state);
    std::copy(m_reduced.begin(), m_reduced.end(), m_missing.begin());
    m_lu.subtractLateProduct(m_late, std::span<double>(m_missing).first(m_late.size()));
    std::fill(m_additions.begin(), m_additions.end(), 0.0);
    const auto addSlope = [this](const DeviceSlope& slope, double value) {
        m_additions[std::size_t(slope.sums[0])] += value;
        m_additions[std::size_t(slope.sums[1])] -= value;
        m_additions[std::size_t(slope.sums[2])] -= value;
        m_additions[std::size_t(slope.sums[3])] += value;
    };
    const auto addCurrent = [this](const LateRows& rows, double amperes) {
        m_missing[std::size_t(rows.plus)] -= amperes;
        m_missing[std::size_t(rows.minus)] += amperes;
    };
    for (std::size_t k = 0; k < m_currentRows.size(); ++k) {
        addCurrent(m_currentRows[k], m_state.currents[k]);
    }
    for (std::size_t k = 0; k < m_currentSlopes.size(); ++k) {
        addSlope(m_currentSlopes[k], m_state.currentSlopes[k]);
    }
    for (const int charge : m_deviceCharges) {
        addCurrent(m_chargeRows[std::size_t(charge)], m_rate * m_state.charges[std::size_t(charge)]);
    }
    for (std::size_t k = 0; k < m_chargeSlopes.size(); ++k) {
        addSlope(m_chargeSlopes[k], m_rate * m_state.slopes[std::size_t(m_chargeSlopeOfDevice[k])]);
    }
}

/// Newton's iteration among the late unknowns from m_x on; leaves all of m_x solved.
Result<void> TimeStepper::solveFor(double drive, double seconds) {
    loadEarly(drive, seconds);
    bool ownOrder = false;
    for (int iteration = 0; iteration < mostIterations; ++iteration) {
        ++m_iterations;
        linearise();
        if (!m_lu.factorLate(m_lateSlots, std::span<const double>(m_additions).first(m_lateSlots.size()))) {
            if (ownOrder) {
                break;
            }
            ownOrder = true;
            if (auto ready = prepareKernel(true); !ready) {
                return ready;
            }
            listDevices();
            loadEarly(drive, seconds);
            continue;
        }
        const auto late = m_work.begin() + std::ptrdiff_t(m_lu.earlyCount());
        std::copy_n(m_missing.begin(), m_late.size(), late);
        m_lu.forwardLate(m_work);
        m_lu.backLate(m_work);
        if (moveLate() && !m_state.limited) {
            std::copy(m_late.begin(), m_late.end(), late);
            m_lu.backEarly(m_work);
            for (std::size_t k = 0; k < m_lu.earlyCount(); ++k) {
                m_x[std::size_t(m_lu.order()->columnOfStep[k])] += m_work[k];
            }
            // Without devices nothing above has seen a number that is none.
            if (std::all_of(m_x.begin(), m_x.end(), [](double value) { return std::isfinite(value); })) {
                return {};
            }
            break;
        }
    }
    return notConverged();
}

/// Takes Newton's step; true when no device's voltage moved enough to bend its law.
bool TimeStepper::moveLate() {
    const double* step = m_work.data() + m_lu.earlyCount();
    for (std::size_t k = 0; k < m_lateColumns.size(); ++k) {
        const auto column = std::size_t(m_lateColumns[k]);
        m_moved[column] = step[k];
        m_late[k] += step[k];
        m_x[column] += step[k];
    }
    bool near = true;
    for (const Control& control : m_equations->controls()) {
        const double moved = m_moved[std::size_t(control.plus)] - m_moved[std::size_t(control.minus)];
        const double volts = m_x[std::size_t(control.plus)] - m_x[std::size_t(control.minus)];
        near = near && std::abs(moved) <= enoughVolts + enoughShare * std::abs(volts);  // false for no number
    }
    return near;
}

/// Charges at the solved x, the devices' by the tangent that Newton's last step followed; then w' = (4/h) q - w.
void TimeStepper::advanceCompanions() {
    for (const LinearSlope& slope : m_linearSlopes) {
        m_state.charges[std::size_t(slope.charge)] = 0.0;
    }
    for (const LinearSlope& slope : m_linearSlopes) {
        m_state.charges[std::size_t(slope.charge)] +=
            slope.farads * (m_x[std::size_t(slope.controlPlus)] - m_x[std::size_t(slope.controlMinus)]);
    }
    for (std::size_t k = 0; k < m_chargeSlopes.size(); ++k) {
        const DeviceSlope& slope = m_chargeSlopes[k];
        const double moved = m_moved[std::size_t(slope.controlPlus)] - m_moved[std::size_t(slope.controlMinus)];
        m_state.charges[std::size_t(slope.output)] += m_state.slopes[std::size_t(m_chargeSlopeOfDevice[k])] * moved;
    }
    for (std::size_t k = 0; k < m_companions.size(); ++k) {
        m_companions[k] = 2.0 * m_rate * m_state.charges[k] - m_companions[k];
    }
}

Result<void> TimeStepper::step(double drive, double seconds) {
    predict();
    if (auto solved = solveFor(drive, seconds); !solved) {
        return solved;
    }
    advanceCompanions();
    m_wasHalfStep = false;
    return {};
}

Result<void> TimeStepper::halfStepAfterJump(double drive, double seconds) {
    // Backward Euler over h/2 has the matrix of the trapezoidal rule over h, and forgets the current of the past.
    for (std::size_t k = 0; k < m_companions.size(); ++k) {
        m_companions[k] = m_rate * m_state.charges[k];
    }
    if (auto solved = solveFor(drive, seconds); !solved) {
        return solved;
    }
    advanceCompanions();
    m_lastX = m_x;
    m_olderX = m_x;
    m_sinceStart = 0;
    m_wasHalfStep = true;
    return {};
}

Error TimeStepper::notConverged() const {
    std::size_t worst = 0;
    for (std::size_t k = 0; k + 1 < m_moved.size(); ++k) {
        if (m_equations->isNode(int(k)) && !(std::abs(m_moved[k]) <= std::abs(m_moved[worst]))) {
            worst = k;
        }
    }
    const std::string name = m_equations->size() > 0 ? m_equations->unknownName(int(worst)) : said("the circuit");
    return {ErrorCode::noConvergence,
            said("A step in time did not converge at %1: try a lower level or check the parts there.", name), name};
}

void TimeStepper::beginSensitivity() {
    const std::size_t count = m_companions.size();
    m_sensitivity.assign(count * count, 0.0);
    for (std::size_t k = 0; k < count; ++k) {
        m_sensitivity[k * count + k] = 1.0;
    }
}

void TimeStepper::carrySensitivity() {
    // J dx = A dw, with J as factored in the step's last iteration; then dw' = (4/h) dq/dx dx - dw.
    const std::size_t count = m_companions.size();
    const auto& branches = m_equations->chargeBranches();
    if (m_wasHalfStep) {
        // It began with w = (2/h) q; of the step before, w' + w = (4/h) q.
        for (std::size_t k = 0; k < m_sensitivity.size(); ++k) {
            m_sensitivity[k] = (m_sensitivity[k] + m_sensitivityBefore[k]) / 2.0;
        }
    }
    if (m_equations->hasMovingSources()) {
        m_sensitivityBefore = m_sensitivity;
    }
    m_many.assign((std::size_t(m_equations->size()) + 1) * count, 0.0);
    for (std::size_t k = 0; k < count; ++k) {
        const double* from = &m_sensitivity[k * count];
        double* plus = &m_many[std::size_t(branches[k].plus) * count];
        double* minus = &m_many[std::size_t(branches[k].minus) * count];
        for (std::size_t j = 0; j < count; ++j) {
            plus[j] += from[j];
            minus[j] -= from[j];
        }
    }
    m_lu.solveMany(m_many, count);
    for (double& entry : m_sensitivity) {
        entry = -entry;
    }
    const auto& slopes = m_equations->chargeSlopes();
    for (std::size_t k = 0; k < slopes.size(); ++k) {
        const double factor = 2.0 * m_rate * m_state.slopes[k];
        const double* plus = &m_many[std::size_t(slopes[k].controlPlus) * count];
        const double* minus = &m_many[std::size_t(slopes[k].controlMinus) * count];
        double* goal = &m_sensitivity[std::size_t(slopes[k].charge) * count];
        for (std::size_t j = 0; j < count; ++j) {
            goal[j] += factor * (plus[j] - minus[j]);
        }
    }
}

double TimeStepper::voltsPerCompanion(std::size_t charge) const {
    double slope = 0.0;
    const auto& slopes = m_equations->chargeSlopes();
    for (std::size_t k = 0; k < slopes.size(); ++k) {
        if (std::size_t(slopes[k].charge) == charge) {
            slope += std::abs(m_state.slopes[k]);
        }
    }
    return slope > 0.0 ? m_stepSeconds / (4.0 * slope) : 0.0;
}

Result<void> requireLawsAt(const Equations& equations, const std::vector<double>& x) {
    const PartId* part = equations.partWithoutValue(x);
    if (part == nullptr) {
        return {};
    }
    return Error{ErrorCode::unsolvable,
                 said("%1 has a formula without a value at some moment of the wave, as the root or logarithm of a "
                      "negative or a division by 0: lower the level, or keep the formula inside its range with max().",
                      *part),
                 *part};
}

}  // namespace ohmwright
