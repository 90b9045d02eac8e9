// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/adjoint.h"

#include "core/base/number_text.h"
#include "core/solve/pivot_orders.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

/// Backward error above which a lane is solved again with care.
constexpr double largestResidualShare = 1e-9;
/// What rounding alone may leave of an unknown that should be 0, as a share of the largest.
constexpr double silentShare = 1e-16;
constexpr int mostRefinements = 3;
/// Where pivots are chosen: in the middle of what is heard.
constexpr double orderHertz = 1000.0;

}  // namespace

Adjoint::Adjoint(const Equations& equations, const OperatingPoint& bias, Control reading)
    : m_equations(equations),
      m_reading(reading),
      m_drive(equations.driveRows()),
      m_conductances(bias.state.conductances),
      m_capacitances(bias.state.conductances.size(), 0.0) {
    equations.addCharges(bias.state, 1.0, m_capacitances);
    const SparsePattern& pattern = equations.pattern();
    m_entries.reserve(pattern.valueCount());
    for (std::size_t slot = 1; slot < pattern.valueCount(); ++slot) {
        m_entries.push_back({pattern.rowOf(slot), pattern.columnOf(slot), m_conductances[slot], m_capacitances[slot]});
    }
    m_steepestOfRow.resize(std::size_t(equations.size()));
    m_steepestOfColumn.resize(std::size_t(equations.size()));
    for (const Entry& entry : m_entries) {
        for (Steepest* steepest :
             {&m_steepestOfRow[std::size_t(entry.row)], &m_steepestOfColumn[std::size_t(entry.column)]}) {
            steepest->siemens = std::max(steepest->siemens, std::abs(entry.siemens));
            steepest->farads = std::max(steepest->farads, std::abs(entry.farads));
        }
    }
    m_values.resize(pattern.valueCount());
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

Result<void> Adjoint::solveAt(std::span<const double> hertz, bool withForward) {
    for (const double frequency : hertz) {
        if (!std::isfinite(frequency) || frequency < 0.0) {
            return Error{ErrorCode::invalidInput, "A frequency must be zero or above and finite.", ""};
        }
    }
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        m_omegas[lane] = 2.0 * std::numbers::pi * hertz[std::min(lane, hertz.size() - 1)];
    }
    m_adjoint.assign(std::size_t(m_equations.size()) + 1, ComplexLanes{});
    m_forward.assign(std::size_t(m_equations.size()) + 1, ComplexLanes{});

    std::array<bool, lanes> sound{};
    if (factor()) {
        solveLanes(Sense::transposed, m_adjoint);
        sound = holds(Sense::transposed, m_adjoint);
        if (withForward) {
            solveLanes(Sense::forward, m_forward);
            const auto held = holds(Sense::forward, m_forward);
            for (std::size_t lane = 0; lane < lanes; ++lane) {
                sound[lane] = sound[lane] && held[lane];
            }
        }
    }
    for (std::size_t lane = 0; lane < hertz.size(); ++lane) {
        if (!sound[lane]) {
            if (auto solved = solveAlone(lane, withForward); !solved) {
                return solved;
            }
        }
    }
    return {};
}

bool Adjoint::factor() {
    return m_lu.isAnalysed() && m_lu.factorAt(m_conductances, m_capacitances, m_omegas);
}

std::complex<double> Adjoint::gain(std::size_t lane) const {
    return m_adjoint[std::size_t(m_drive.minus)].lane(lane) - m_adjoint[std::size_t(m_drive.plus)].lane(lane);
}

std::vector<std::complex<double>> Adjoint::rightHandSide(Sense sense) const {
    std::vector<Complex> right(std::size_t(m_equations.size()) + 1, 0.0);
    if (sense == Sense::transposed) {
        right[std::size_t(m_reading.plus)] += 1.0;
        right[std::size_t(m_reading.minus)] -= 1.0;
    } else {
        right[std::size_t(m_drive.minus)] += 1.0;
        right[std::size_t(m_drive.plus)] -= 1.0;
    }
    right.back() = 0.0;
    return right;
}

void Adjoint::solveLanes(Sense sense, std::vector<ComplexLanes>& solution) {
    const bool isTransposed = sense == Sense::transposed;
    const auto plus = std::size_t(isTransposed ? m_reading.plus : m_drive.minus);
    const auto minus = std::size_t(isTransposed ? m_reading.minus : m_drive.plus);
    solution[plus] += ComplexLanes(1.0);
    solution[minus] -= ComplexLanes(1.0);
    solution.back() = ComplexLanes{};
    isTransposed ? m_lu.solveTransposed(solution) : m_lu.solve(solution);
}

/// Whether every equation balances, against its largest term; leaves what is missing in `m_missing`.
std::array<bool, Adjoint::lanes> Adjoint::holds(Sense sense, const std::vector<ComplexLanes>& solution) {
    const bool isTransposed = sense == Sense::transposed;
    const std::size_t length = solution.size();
    m_missing.assign(length, ComplexLanes{});
    m_scale.assign(length, {});
    const auto plus = std::size_t(isTransposed ? m_reading.plus : m_drive.minus);
    const auto minus = std::size_t(isTransposed ? m_reading.minus : m_drive.plus);
    m_missing[plus] += ComplexLanes(1.0);
    m_missing[minus] -= ComplexLanes(1.0);
    m_scale[plus].fill(1.0);
    m_scale[minus].fill(1.0);
    for (const Entry& entry : m_entries) {
        const auto equation = std::size_t(isTransposed ? entry.column : entry.row);
        const ComplexLanes& value = solution[std::size_t(isTransposed ? entry.row : entry.column)];
        ComplexLanes& missing = m_missing[equation];
        std::array<double, lanes>& scale = m_scale[equation];
        for (std::size_t k = 0; k < lanes; ++k) {
            const double susceptance = m_omegas[k] * entry.farads;
            const double re = entry.siemens * value.re[k] - susceptance * value.im[k];
            const double im = entry.siemens * value.im[k] + susceptance * value.re[k];
            missing.re[k] -= re;
            missing.im[k] -= im;
            const double size = std::abs(re) + std::abs(im);
            scale[k] = scale[k] > size ? scale[k] : size;
        }
    }
    std::array<double, lanes> largest{};
    for (const ComplexLanes& value : solution) {
        for (std::size_t k = 0; k < lanes; ++k) {
            const double size = std::abs(value.re[k]) + std::abs(value.im[k]);
            largest[k] = largest[k] > size ? largest[k] : size;
        }
    }
    std::array<bool, lanes> sound;
    sound.fill(true);
    for (std::size_t k = 0; k + 1 < length; ++k) {
        const Steepest& steepest = isTransposed ? m_steepestOfColumn[k] : m_steepestOfRow[k];
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            const double missing = std::abs(m_missing[k].re[lane]) + std::abs(m_missing[k].im[lane]);
            const double silent = silentShare * largest[lane] * (steepest.siemens + m_omegas[lane] * steepest.farads);
            // False for a sum that is no number, so that it never passes.
            sound[lane] = sound[lane] && missing <= largestResidualShare * m_scale[k][lane] + silent;
        }
    }
    m_missing.back() = ComplexLanes{};
    return sound;
}

Result<void> Adjoint::solveAlone(std::size_t lane, bool withForward) {
    for (std::size_t slot = 0; slot < m_values.size(); ++slot) {
        m_values[slot] = {m_conductances[slot], m_omegas[lane] * m_capacitances[slot]};
    }
    if (const int unknown = m_single.analyse(m_equations.pattern(), m_values); unknown >= 0) {
        return singularAt(m_equations, unknown);
    }
    if (m_single.factor(m_values) && refine(lane, Sense::transposed, m_adjoint) &&
        (!withForward || refine(lane, Sense::forward, m_forward))) {
        return {};
    }
    return Error{ErrorCode::noConvergence,
                 "The small-signal equations could not be solved at " +
                     formatFrequency(m_omegas[lane] / (2.0 * std::numbers::pi)) +
                     ": look for parts whose values lie many decades apart.",
                 ""};
}

/// One lane by the single kernel, corrected until it balances.
bool Adjoint::refine(std::size_t lane, Sense sense, std::vector<ComplexLanes>& solution) {
    std::vector<Complex> right = rightHandSide(sense);
    for (ComplexLanes& value : solution) {
        value.set(lane, 0.0);
    }
    for (int refinement = 0; refinement <= mostRefinements; ++refinement) {
        sense == Sense::transposed ? m_single.solveTransposed(right) : m_single.solve(right);
        for (std::size_t k = 0; k < solution.size(); ++k) {
            solution[k].set(lane, solution[k].lane(lane) + right[k]);
        }
        if (holds(sense, solution)[lane]) {
            return true;
        }
        for (std::size_t k = 0; k < right.size(); ++k) {
            right[k] = m_missing[k].lane(lane);
        }
    }
    return false;
}

}  // namespace ohmwright
