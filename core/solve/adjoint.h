/// What one reading of a circuit answers to: the transposed small-signal equations, eight frequencies a pass.
///
/// With A = G + j w C and a reading c^T x of the unknowns, a = A^-T c says how much the reading answers to a current
/// into each node and to a voltage in each branch: noise, influence and impedances are all read from it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/balance_check.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"
#include "core/solve/sparse_lanes.h"
#include "core/solve/sparse_lu.h"

#include <array>
#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace ohmwright {

/// Not thread-safe; borrows both arguments.
class Adjoint {
public:
    static constexpr std::size_t lanes = ComplexLanes::count;

    /// @param reading  x[plus] - x[minus]; size() stands for ground.
    Adjoint(const Equations& equations, const OperatingPoint& bias, Control reading);

    /// Solves at one to eight frequencies; spare lanes repeat the last.
    /// Every solution is checked against the equations row by row; a lane that fails is solved on its own, with an
    /// order of elimination made for it and refined.
    /// @param withForward  also the unknowns per volt of the input source.
    /// Errors: invalidInput (frequency); unsolvable naming the unknown without a pivot; noConvergence.
    Result<void> solveAt(std::span<const double> hertz, bool withForward) { return solve(hertz, true, withForward); }
    /// Only the unknowns per volt of the input source, at one to eight frequencies. Errors: as solveAt.
    Result<void> solveForwardAt(std::span<const double> hertz) { return solve(hertz, false, true); }

    /// By row of the equations; ground's 0 at the end.
    [[nodiscard]] const std::vector<ComplexLanes>& adjoint() const { return m_adjoint; }
    /// By unknown; ground's 0 at the end.
    [[nodiscard]] const std::vector<ComplexLanes>& forward() const { return m_forward; }
    /// The reading per volt (ampere) of the input source.
    [[nodiscard]] std::complex<double> gain(std::size_t lane) const;
    [[nodiscard]] const std::array<double, lanes>& omegas() const { return m_omegas; }

private:
    Result<void> solve(std::span<const double> hertz, bool withAdjoint, bool withForward);
    void takeOrder();
    bool factor();
    [[nodiscard]] const std::vector<ComplexLanes>& rightOf(Sense sense) const {
        return sense == Sense::transposed ? m_reading : m_input;
    }
    [[nodiscard]] const BalanceCheck& checkOf(Sense sense) const {
        return sense == Sense::transposed ? m_transposedCheck : m_forwardCheck;
    }
    std::array<bool, lanes> solveTogether(bool withAdjoint, bool withForward);
    Result<void> solveAlone(std::size_t lane, bool withAdjoint, bool withForward);
    bool refine(std::size_t lane, Sense sense, std::vector<ComplexLanes>& solution);

    const Equations& m_equations;
    Equations::DriveRows m_drive;
    std::vector<double> m_conductances, m_capacitances;  ///< By slot.
    BalanceCheck m_forwardCheck, m_transposedCheck;
    std::vector<ComplexLanes> m_reading, m_input;  ///< Right-hand sides: what is read, and a volt of the input.
    SparseLu<ComplexLanes> m_lu;
    SparseLu<std::complex<double>> m_single;
    std::array<double, lanes> m_omegas{};
    std::vector<ComplexLanes> m_adjoint, m_forward, m_missing;
    std::vector<std::complex<double>> m_values;
};

}  // namespace ohmwright
