// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/time_step.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int mostIterations = 60;
/// Newton's last step may be this large [V, A, relative]: the error left is its square.
constexpr double absoluteStep = 1e-7;
constexpr double relativeStep = 1e-6;

}  // namespace

Result<TimeStepper> TimeStepper::make(const Equations& equations, double stepSeconds) {
    auto order = pivotOrder(equations, 2.0 / stepSeconds);
    if (!order) {
        return order.error();
    }
    return TimeStepper(equations, stepSeconds, std::move(*order));
}

void TimeStepper::startAtRest(const OperatingPoint& bias) {
    std::vector<double> companions = bias.state.charges;
    for (double& companion : companions) {
        companion *= 2.0 / m_stepSeconds;
    }
    start(companions, bias.x, bias.state);
}

void TimeStepper::start(const std::vector<double>& companions, const std::vector<double>& x, const Evaluation& state) {
    m_companions = companions;
    m_x = x;
    m_lastX = x;
    m_olderX = x;
    m_state = state;
}

/// A straight line through the last two states is near enough to save an iteration on smooth signals.
void TimeStepper::predict() {
    m_olderX.swap(m_lastX);
    m_lastX = m_x;
    for (std::size_t k = 0; k < m_x.size(); ++k) {
        m_x[k] += m_lastX[k] - m_olderX[k];
    }
}

Result<void> TimeStepper::step(double inputVolts) {
    const auto size = std::size_t(m_equations->size());
    const auto& branches = m_equations->chargeBranches();
    const double rate = 2.0 / m_stepSeconds;
    predict();
    for (int iteration = 0; iteration < mostIterations; ++iteration) {
        ++m_iterations;
        m_equations->evaluate(m_x, {.inputVolts = inputVolts}, m_state);
        m_residual = m_state.residual;
        for (std::size_t k = 0; k < branches.size(); ++k) {
            const double current = rate * m_state.charges[k] - m_companions[k];
            m_residual[std::size_t(branches[k].plus)] += current;
            m_residual[std::size_t(branches[k].minus)] -= current;
        }
        m_matrix = m_state.conductances;
        m_equations->addCharges(m_state, rate, m_matrix);
        if (!m_lu.factor(m_matrix)) {
            if (const int unknown = m_lu.analyse(m_equations->pattern(), m_matrix); unknown >= 0) {
                return singularAt(*m_equations, unknown);
            }
            if (!m_lu.factor(m_matrix)) {
                break;
            }
        }
        m_lu.solve(m_residual);
        bool small = !m_state.limited;
        for (std::size_t k = 0; k < size; ++k) {
            m_x[k] -= m_residual[k];
            small = small && std::abs(m_residual[k]) <= absoluteStep + relativeStep * std::abs(m_x[k]);
        }
        if (small) {
            // The charges at the new x, by the tangent that Newton's last step followed.
            const auto& slopes = m_equations->chargeSlopes();
            for (std::size_t k = 0; k < slopes.size(); ++k) {
                m_state.charges[std::size_t(slopes[k].charge)] -=
                    m_state.slopes[k] *
                    (m_residual[std::size_t(slopes[k].controlPlus)] - m_residual[std::size_t(slopes[k].controlMinus)]);
            }
            for (std::size_t k = 0; k < branches.size(); ++k) {
                m_companions[k] = 2.0 * rate * m_state.charges[k] - m_companions[k];
            }
            return {};
        }
    }
    std::size_t worst = 0;
    for (std::size_t k = 0; k < size; ++k) {
        if (m_equations->isNode(int(k)) && !(std::abs(m_residual[k]) <= std::abs(m_residual[worst]))) {
            worst = k;
        }
    }
    const std::string name = m_equations->unknownName(int(worst));
    return Error{ErrorCode::noConvergence,
                 "A step in time did not converge at " + name + ": try a lower level or check the parts there.", name};
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
        const double factor = 4.0 / m_stepSeconds * m_state.slopes[k];
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

}  // namespace ohmwright
