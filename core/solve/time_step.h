/// One step in time by the trapezoidal rule, and the sensitivity of the state to where it began.
///
/// Each charge has one companion state w = (2/h) q + dq/dt [A]; a step solves
///     i(x) + A ((2/h) q(x) - w) = s(t + h),   then   w' = (4/h) q(x) - w.
/// All memory of the past is in w. What is linear is eliminated once for the stepper's life; Newton's iteration runs
/// among the few unknowns that devices touch.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <array>
#include <vector>

namespace ohmwright {

class TimeStepper {
public:
    /// @param stepSeconds  h, > 0; fixed for the stepper's life.
    /// REQUIRES: `equations` stay at their address for the stepper's life.
    /// Errors: unsolvable naming the unknown without a pivot.
    static Result<TimeStepper> make(const Equations& equations, double stepSeconds);

    /// Starts at rest: x and q of the bias, no currents in any capacitor.
    void startAtRest(const OperatingPoint& bias);
    /// Starts at given companion states, with x as the first guess.
    /// REQUIRES: all three are of these equations.
    void start(const std::vector<double>& companions, const std::vector<double>& x, const Evaluation& state);
    /// Starts where another stepper of the same equations stands, whatever its step.
    void continueFrom(const TimeStepper& other);

    /// Goes on by h with the input source at `drive` above its DC value.
    /// @param seconds  moment at the step's end, for sources that move by themselves.
    /// REQUIRES: start(), startAtRest() or continueFrom() before the first step, and again after an error: x() then
    /// stands where the iteration was given up.
    /// Errors: noConvergence naming the worst node.
    Result<void> step(double drive, double seconds = atRest);

    /// Goes on by h/2 by the backward Euler rule: twice after a jump of a source, where the trapezoidal rule would
    /// ring. Requirements and errors as of step().
    Result<void> halfStepAfterJump(double drive, double seconds);

    [[nodiscard]] const std::vector<double>& x() const { return m_x; }
    [[nodiscard]] const std::vector<double>& companions() const { return m_companions; }
    [[nodiscard]] const Evaluation& state() const { return m_state; }
    [[nodiscard]] long iterations() const { return m_iterations; }

    /// Begins to carry d(companions)/d(companions at this moment), the identity now.
    void beginSensitivity();
    /// Carries it over the step or half-step just made.
    /// REQUIRES: the first since beginSensitivity() was a step: a half-step goes on from the charges alone, which the
    /// companion states at the beginning do not tell.
    void carrySensitivity();
    /// Row-major: row k is d(w_k)/d(w at the beginning).
    [[nodiscard]] const std::vector<double>& sensitivity() const { return m_sensitivity; }

    /// What converts a companion state to volts: w h / (4 dq/dv).
    [[nodiscard]] double voltsPerCompanion(std::size_t charge) const;

private:
    TimeStepper(const Equations& equations, double stepSeconds);

    /// A charge slope that no device evaluates.
    struct LinearSlope {
        int charge;
        int controlPlus, controlMinus;
        double farads;
    };
    /// A device's slope: its control's unknowns and where its four entries are summed.
    struct DeviceSlope {
        int output;  ///< Current or charge.
        int controlPlus, controlMinus;
        std::array<int, 4> sums;  ///< In m_additions; the last one takes ground's.
    };
    /// Where a device's current or charge enters the late equations; the last one takes ground's.
    struct LateRows {
        int plus, minus;
    };

    Result<void> prepareKernel(bool atPresentState);
    void listDevices();
    void predict();
    void loadEarly(double drive, double seconds);
    void linearise();
    Result<void> solveFor(double drive, double seconds);
    bool moveLate();
    void advanceCompanions();
    [[nodiscard]] Error notConverged() const;

    const Equations* m_equations;
    double m_stepSeconds;
    double m_rate;  ///< 2/h
    SparseLu<double> m_lu;
    std::vector<LinearSlope> m_linearSlopes;
    std::vector<DeviceSlope> m_currentSlopes, m_chargeSlopes;
    std::vector<int> m_chargeSlopeOfDevice;  ///< Index in Equations::chargeSlopes of each of m_chargeSlopes.
    std::vector<LateRows> m_currentRows;     ///< One a current branch.
    std::vector<LateRows> m_chargeRows;      ///< One a charge.
    std::vector<int> m_deviceCharges;
    std::vector<int> m_lateSlots;                 ///< Slots that devices stamp.
    std::vector<double> m_additions;              ///< One a late slot, and one for ground.
    std::vector<int> m_lateColumns;               ///< Unknowns of the late part.
    std::vector<double> m_rightHandSide, m_work;  ///< By row; in the order of elimination.
    std::vector<double> m_reduced;  ///< What the linear part leaves for the late equations at the prediction.
    std::vector<double> m_missing;  ///< What they lack at m_x; one more, which takes ground's.
    std::vector<double> m_late;     ///< Late unknowns less their prediction, in the late order.
    std::vector<double> m_moved;    ///< By unknown: Newton's last step, of the late ones.

    std::vector<double> m_x, m_lastX, m_olderX, m_companions, m_values;
    Evaluation m_state;
    std::vector<double> m_many, m_sensitivity, m_sensitivityBefore;
    bool m_wasHalfStep = false;
    long m_iterations = 0;
    int m_sinceStart = 0;  ///< Steps made since start(), up to what the predictor needs.
};

/// Newton goes on beyond the edge of a formula; a wave that comes to stand there is none of the circuit's.
/// @param x  by unknown, ground's 0 at the end.
/// Errors: unsolvable naming the part whose formula has no value there.
Result<void> requireLawsAt(const Equations& equations, const std::vector<double>& x);

}  // namespace ohmwright
