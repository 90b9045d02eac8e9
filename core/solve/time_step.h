/// One step in time by the trapezoidal rule, and the sensitivity of the state to where it began.
///
/// Each charge has one companion state w = (2/h) q + dq/dt [A]; a step solves
///     i(x) + A ((2/h) q(x) - w) = s(t + h),   then   w' = (4/h) q(x) - w.
/// All memory of the past is in w.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <stop_token>
#include <vector>

namespace ohmwright {

class TimeStepper {
public:
    /// @param stepSeconds  h, > 0; fixed for the stepper's life.
    /// Errors: as pivotOrder.
    static Result<TimeStepper> make(const Equations& equations, double stepSeconds);

    /// Starts at rest: x and q of the bias, no currents in any capacitor.
    void startAtRest(const OperatingPoint& bias);
    /// Starts at given companion states, with x as the first guess.
    void start(const std::vector<double>& companions, const std::vector<double>& x, const Evaluation& state);

    /// Goes on by h with the input source at `inputVolts` above its DC value.
    /// Errors: noConvergence naming the worst node; never leaves a state that did not converge.
    Result<void> step(double inputVolts);

    [[nodiscard]] const std::vector<double>& x() const { return m_x; }
    [[nodiscard]] const std::vector<double>& companions() const { return m_companions; }
    [[nodiscard]] const Evaluation& state() const { return m_state; }
    [[nodiscard]] int iterations() const { return m_iterations; }

    /// Begins to carry d(companions)/d(companions at this moment), the identity now.
    void beginSensitivity();
    /// Carries it over the step just made.
    void carrySensitivity();
    /// Row-major: row k is d(w_k)/d(w at the beginning).
    [[nodiscard]] const std::vector<double>& sensitivity() const { return m_sensitivity; }

    /// What converts a companion state to volts: w h / (4 dq/dv).
    [[nodiscard]] double voltsPerCompanion(std::size_t charge) const;

private:
    TimeStepper(const Equations& equations, double stepSeconds, SparseLu<double> lu)
        : m_equations(&equations), m_stepSeconds(stepSeconds), m_lu(std::move(lu)) {}

    void predict();

    const Equations* m_equations;
    double m_stepSeconds;
    SparseLu<double> m_lu;
    std::vector<double> m_x, m_lastX, m_olderX, m_companions;
    Evaluation m_state;
    std::vector<double> m_residual, m_matrix, m_many, m_sensitivity;
    int m_iterations = 0;
};

}  // namespace ohmwright
