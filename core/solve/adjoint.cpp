// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/adjoint.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/solve/pivot_orders.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

constexpr int mostRefinements = 3;
/// Where pivots are chosen: in the middle of what is heard.
constexpr double orderHertz = 1000.0;

std::vector<double> capacitancesOf(const Equations& equations, const OperatingPoint& bias) {
    std::vector<double> capacitances(bias.state.conductances.size(), 0.0);
    equations.addCharges(bias.state, 1.0, capacitances);
    return capacitances;
}

bool isFrequency(double hertz) {
    return std::isfinite(hertz) && hertz >= 0.0;
}

}  // namespace

Adjoint::Adjoint(const Equations& equations, const OperatingPoint& bias, Control reading)
    : m_equations(equations),
      m_drive(equations.driveRows()),
      m_conductances(bias.state.conductances),
      m_capacitances(capacitancesOf(equations, bias)),
      m_forwardCheck(equations.pattern(), m_conductances, m_capacitances, Sense::forward),
      m_transposedCheck(equations.pattern(), m_conductances, m_capacitances, Sense::transposed),
      m_values(equations.pattern().valueCount()) {
    const auto unit = [&](int plus, int minus) {
        std::vector<ComplexLanes> right(std::size_t(equations.size()) + 1);
        right[std::size_t(plus)] += ComplexLanes(1.0);
        right[std::size_t(minus)] -= ComplexLanes(1.0);
        right.back() = ComplexLanes{};
        return right;
    };
    m_reading = unit(reading.plus, reading.minus);
    m_input = unit(m_drive.minus, m_drive.plus);
    takeOrder();
}

void Adjoint::takeOrder() {
    Equations::Orders& orders = m_equations.orders();
    const std::scoped_lock lock(orders.mutex);
    if (orders.response == nullptr) {
        for (std::size_t slot = 0; slot < m_values.size(); ++slot) {
            m_values[slot] = {m_conductances[slot], 2.0 * std::numbers::pi * orderHertz * m_capacitances[slot]};
        }
        if (m_single.analyse(m_equations.pattern(), m_values) >= 0) {
            return;  // singular there; each frequency will say so of itself
        }
        orders.response = m_single.order();
    }
    m_lu.adopt(orders.response);
}

Result<void> Adjoint::solve(std::span<const double> hertz, bool withAdjoint, bool withForward) {
    if (!std::all_of(hertz.begin(), hertz.end(), isFrequency)) {
        return Error{ErrorCode::invalidInput, said("A frequency must be zero or above and finite."), ""};
    }
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        m_omegas[lane] = 2.0 * std::numbers::pi * hertz[std::min(lane, hertz.size() - 1)];
    }
    // What is not asked for is left alone; what is, gets room.
    for (auto* solution : {withAdjoint ? &m_adjoint : nullptr, withForward ? &m_forward : nullptr}) {
        if (solution != nullptr) {
            solution->resize(std::size_t(m_equations.size()) + 1);
        }
    }

    const std::array<bool, lanes> sound = solveTogether(withAdjoint, withForward);
    for (std::size_t lane = 0; lane < hertz.size(); ++lane) {
        if (!sound[lane]) {
            if (auto solved = solveAlone(lane, withAdjoint, withForward); !solved) {
                return solved;
            }
        }
    }
    return {};
}

/// All lanes in one pass; which of them balance.
std::array<bool, Adjoint::lanes> Adjoint::solveTogether(bool withAdjoint, bool withForward) {
    std::array<bool, lanes> sound{};
    if (factor()) {
        sound.fill(true);
        const auto add = [&](Sense sense, std::vector<ComplexLanes>& solution) {
            if (sense == Sense::transposed) {
                m_lu.solveTransposedFrom(rightOf(sense), solution);
            } else {
                m_lu.solveFrom(rightOf(sense), solution);
            }
            const auto held = checkOf(sense).holds(m_omegas, solution, rightOf(sense));
            for (std::size_t lane = 0; lane < lanes; ++lane) {
                sound[lane] = sound[lane] && held[lane];
            }
        };
        if (withAdjoint) {
            add(Sense::transposed, m_adjoint);
        }
        if (withForward) {
            add(Sense::forward, m_forward);
        }
    }
    return sound;
}

bool Adjoint::factor() {
    return m_lu.isAnalysed() && m_lu.factorAt(m_conductances, m_capacitances, m_omegas);
}

std::complex<double> Adjoint::gain(std::size_t lane) const {
    return m_adjoint[std::size_t(m_drive.minus)].lane(lane) - m_adjoint[std::size_t(m_drive.plus)].lane(lane);
}

Result<void> Adjoint::solveAlone(std::size_t lane, bool withAdjoint, bool withForward) {
    for (std::size_t slot = 0; slot < m_values.size(); ++slot) {
        m_values[slot] = {m_conductances[slot], m_omegas[lane] * m_capacitances[slot]};
    }
    if (const int unknown = m_single.analyse(m_equations.pattern(), m_values); unknown >= 0) {
        return singularAt(m_equations, unknown);
    }
    // Multipliers that grew are no verdict yet: a lifted leg has them beside an op-amp at its rail. The balance is.
    m_single.factor(m_values);
    if ((!withAdjoint || refine(lane, Sense::transposed, m_adjoint)) &&
        (!withForward || refine(lane, Sense::forward, m_forward))) {
        return {};
    }
    return Error{
        ErrorCode::noConvergence,
        said("The small-signal equations could not be solved at %1: look for parts whose values lie many decades "
             "apart.",
             formatFrequency(m_omegas[lane] / (2.0 * std::numbers::pi))),
        ""};
}

/// One lane by the single kernel, corrected until it balances.
bool Adjoint::refine(std::size_t lane, Sense sense, std::vector<ComplexLanes>& solution) {
    std::vector<Complex> right(solution.size(), 0.0);
    for (std::size_t k = 0; k < right.size(); ++k) {
        right[k] = rightOf(sense)[k].lane(lane);
    }
    for (ComplexLanes& value : solution) {
        value.set(lane, 0.0);
    }
    for (int refinement = 0; refinement <= mostRefinements; ++refinement) {
        sense == Sense::transposed ? m_single.solveTransposed(right) : m_single.solve(right);
        for (std::size_t k = 0; k < solution.size(); ++k) {
            solution[k].set(lane, solution[k].lane(lane) + right[k]);
        }
        if (checkOf(sense).holds(m_omegas, solution, rightOf(sense), &m_missing)[lane]) {
            return true;
        }
        for (std::size_t k = 0; k < right.size(); ++k) {
            right[k] = m_missing[k].lane(lane);
        }
    }
    return false;
}

}  // namespace ohmwright
