// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/response.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/solve/adjoint.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

constexpr std::complex<double> imaginaryUnit{0.0, 1.0};
/// Backward error above which a solution is refined, and then the pivot order taken anew at this frequency.
constexpr double largestResidualShare = 1e-9;
/// An unknown that should be 0 has no digits to compare: beside a source of 1 V, rounding alone may leave it this much.
constexpr double silentVolts = 1e-16;
/// Beside that source this is nobody's current, a millionth of what gmin passes (as in balance_check.cpp).
constexpr double silentAmperes = 1e-18;
/// A quiet row beside a wire of 1 mΩ is sound after one correction; more than two gain nothing.
constexpr int mostRefinements = 2;

}  // namespace

SmallSignal::SmallSignal(const Equations& equations, const OperatingPoint& bias)
    : m_equations(equations), m_bias(bias) {}

Result<std::span<const std::complex<double>>> SmallSignal::at(double hertz) {
    if (!std::isfinite(hertz) || hertz < 0.0) {
        return Error{ErrorCode::invalidInput, said("A frequency must be zero or above and finite."), ""};
    }
    const auto& conductances = m_bias.state.conductances;
    m_values.assign(conductances.begin(), conductances.end());
    m_equations.addCharges(m_bias.state, 2.0 * std::numbers::pi * hertz * imaginaryUnit, m_values);

    // First with the order at hand; when that is unsound here, once more with an order made for this frequency.
    for (int attempt = 0; attempt < 2; ++attempt) {
        if (attempt > 0 || !m_lu.isAnalysed()) {
            if (const int unknown = m_lu.analyse(m_equations.pattern(), m_values); unknown >= 0) {
                return singularAt(m_equations, unknown);
            }
        }
        const bool sound = m_lu.factor(m_values);
        if (!sound && attempt == 0) {
            continue;
        }
        m_solution.assign(std::size_t(m_equations.size()) + 1, 0.0);
        const Equations::DriveRows drive = m_equations.driveRows();
        m_solution[std::size_t(drive.minus)] += 1.0;
        m_solution[std::size_t(drive.plus)] -= 1.0;
        m_lu.solve(m_solution);
        for (int refinement = 0; refinement <= mostRefinements; ++refinement) {
            if (holds()) {
                return std::span<const std::complex<double>>(m_solution);
            }
            m_lu.solve(m_missing);
            for (std::size_t k = 0; k < m_solution.size(); ++k) {
                m_solution[k] += m_missing[k];
            }
        }
    }
    return Error{
        ErrorCode::noConvergence,
        said("The small-signal equations could not be solved at %1: look for parts whose values lie many decades "
             "apart.",
             formatFrequency(hertz)),
        ""};
}

/// Whether every row of the solution balances, against the row's largest term; leaves what is missing in `m_missing`.
bool SmallSignal::holds() {
    const SparsePattern& pattern = m_equations.pattern();
    const auto size = std::size_t(m_equations.size());
    const Equations::DriveRows drive = m_equations.driveRows();
    m_missing.assign(size + 1, 0.0);
    bool sound = true;
    for (std::size_t row = 0; row < size; ++row) {
        std::complex<double> missing = double(int(row) == drive.minus) - double(int(row) == drive.plus);
        double scale = std::abs(missing.real());
        double steepest = 0.0;
        for (const int slot : pattern.slotsOfRow(int(row))) {
            const std::complex<double> entry = m_values[std::size_t(slot)];
            const auto term = entry * m_solution[std::size_t(pattern.columnOf(std::size_t(slot)))];
            missing -= term;
            steepest = std::max(steepest, std::abs(entry.real()) + std::abs(entry.imag()));
            scale = std::max(scale, std::abs(term.real()) + std::abs(term.imag()));
        }
        const double allowed = largestResidualShare * scale + silentVolts * steepest + silentAmperes;
        // False for a sum that is no number, so that it never passes.
        sound = sound && std::abs(missing.real()) + std::abs(missing.imag()) <= allowed;
        m_missing[row] = missing;
    }
    return sound;
}

std::vector<double> logarithmicGrid(double fromHz, double toHz, int pointsPerDecade) {
    std::vector<double> grid;
    for (int k = 0;; ++k) {
        const double hertz = fromHz * std::pow(10.0, double(k) / pointsPerDecade);
        if (hertz > toHz * (1.0 + 1e-12)) {
            return grid;
        }
        grid.push_back(hertz);
    }
}

Result<std::vector<std::vector<std::complex<double>>>> frequencyResponse(const Equations& equations,
                                                                         const OperatingPoint& bias,
                                                                         const std::vector<NetName>& nets,
                                                                         std::span<const double> hertz,
                                                                         const std::stop_token& stop) {
    std::vector<std::size_t> indices;
    for (const NetName& net : nets) {
        const int index = equations.indexOfNet(net);
        if (index < 0) {
            return Error{ErrorCode::invalidInput, said("The circuit has no net named %1.", net), net};
        }
        indices.push_back(std::size_t(index));
    }
    Adjoint signal(equations, bias, {equations.size(), equations.size()});
    std::vector<std::vector<std::complex<double>>> gains(nets.size());
    for (std::size_t at = 0; at < hertz.size(); at += Adjoint::lanes) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        const auto batch = hertz.subspan(at, std::min(Adjoint::lanes, hertz.size() - at));
        if (auto solved = signal.solveForwardAt(batch); !solved) {
            return solved.error();
        }
        for (std::size_t k = 0; k < indices.size(); ++k) {
            for (std::size_t lane = 0; lane < batch.size(); ++lane) {
                gains[k].push_back(signal.forward()[indices[k]].lane(lane));
            }
        }
    }
    return gains;
}

}  // namespace ohmwright
