/// The periodic steady state at a tone: all start-up gone, however slow the coupling capacitors are.
///
/// Shooting: the companion states at the period's beginning are sought that come back after one period. Newton's matrix
/// is the sensitivity carried along the period (time_step.h). The number of steps is odd: with an even one the
/// trapezoidal rule's alternating mode makes that matrix nearly singular. A step in which a source turns a corner is
/// made as two half-steps by the backward Euler rule, which does not ring; the period is sought from a moment on that
/// has no corner behind it.
/// Source: T. J. Aprille, T. N. Trick, Proc. IEEE 60 (1972) 108.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"
#include "core/solve/time_step.h"

#include <memory>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// One settled period.
struct SettledState {
    double toneHz = 0.0;
    double inputVoltsPeak = 0.0;
    std::size_t steps = 0;
    std::size_t unknowns = 0;
    std::vector<double> samples;  ///< steps x unknowns, row by row; row k is at t = (k + 1) / (steps tone).
    int passes = 0;               ///< Periods run until it closed.
    double closureVolts = 0.0;    ///< Largest remaining correction of a capacitor's voltage.

    /// One unknown over the period; `steps` values. Ground gives zeros.
    [[nodiscard]] std::vector<double> wave(int unknown) const;
};

/// Settled states of one circuit at one tone, each solve starting from the last.
class SettledSolver {
public:
    /// @param steps  odd, 65 or more; 257 puts peaks within 10 uV and low harmonics within 0.01 dB on the demo.
    /// @param shape  the drive at the end of each step for a level of 1; empty for sin(2 pi tone t).
    /// REQUIRES: `equations` and `bias` stay at their addresses for the solver's life; the bias is of these equations.
    /// Errors: invalidInput (tone, steps, a source whose own wave does not repeat with the tone); unsolvable.
    static Result<SettledSolver> make(const Equations& equations, const OperatingPoint& bias, double toneHz,
                                      std::size_t steps, std::vector<double> shape = {});

    /// Starts from the last period that a solver with other steps has closed, and from its matrix.
    /// REQUIRES: `coarser` is of the same equations, bias and tone.
    void startFrom(const SettledSolver& coarser);

    SettledSolver(SettledSolver&&) noexcept;
    SettledSolver& operator=(SettledSolver&&) noexcept;
    ~SettledSolver();

    /// The settled state with `voltsPeak` times the shape on the input source's DC value.
    /// Reaches a level that Newton cannot jump to by way of levels between.
    /// Errors: noConvergence naming the level and node; cancelled.
    Result<SettledState> solve(double voltsPeak, const std::stop_token& stop = {});

private:
    struct Shooting;
    explicit SettledSolver(std::unique_ptr<Shooting> shooting);
    std::unique_ptr<Shooting> m_shooting;
};

}  // namespace ohmwright
