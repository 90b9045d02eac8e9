// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/settled.h"

#include "core/base/said.h"
#include "core/base/value_text.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

namespace ohmwright {

namespace {

constexpr int mostPasses = 60;
/// Where Newton's corrections do not shrink, the circuit is left to run for so many periods before the next one.
constexpr int periodsLeftAlone = 3;
/// A period is closed when no capacitor's voltage would be moved by more than this [V], or this share of the level.
constexpr double closureVolts = 2e-7;
constexpr double closureShare = 1e-6;
/// A pass with an old matrix must shrink the correction at least this much, or the matrix is renewed.
constexpr double chordGain = 0.15;
constexpr int mostHalvings = 8;
/// A correction this far under what is enough needs no second look at an old matrix.
constexpr double beyondDoubt = 1e-3;
/// Moments nearer than this share of a step are one.
constexpr double sameMoment = 1e-6;

Error cancelledError() {
    return {ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
}

Result<void> requireLawsOver(const Equations& equations, const SettledState& period) {
    std::vector<double> x(period.unknowns + 1, 0.0);
    for (std::size_t k = 0; k < period.steps; ++k) {
        const auto row = period.samples.begin() + std::ptrdiff_t(k * period.unknowns);
        std::copy_n(row, period.unknowns, x.begin());
        if (auto sound = requireLawsAt(equations, x); !sound) {
            return sound;
        }
    }
    return {};
}

}  // namespace

std::vector<double> SettledState::wave(int unknown) const {
    std::vector<double> values(steps, 0.0);
    if (unknown >= 0 && std::size_t(unknown) < unknowns) {
        for (std::size_t k = 0; k < steps; ++k) {
            values[k] = samples[k * unknowns + std::size_t(unknown)];
        }
    }
    return values;
}

struct SettledSolver::Shooting {
    Shooting(const Equations& circuit, const OperatingPoint& rest, double hertz, std::vector<double> driveShape,
             TimeStepper timeStepper)
        : equations(circuit),
          bias(rest),
          toneHz(hertz),
          steps(driveShape.size()),
          shape(std::move(driveShape)),
          wholePeriods(std::ceil(circuit.longestDelay() * hertz)),
          stepper(std::move(timeStepper)) {
        stepper.startAtRest(bias);
        remember();
        findCorners();
    }

    const Equations& equations;
    const OperatingPoint& bias;
    double toneHz;
    std::size_t steps;
    std::vector<double> shape;  ///< Of the drive, at the end of each step.
    double wholePeriods;        ///< After which every source that moves by itself has begun.
    TimeStepper stepper;
    std::vector<char> turnsCorner;  ///< Of each step: whether it is made as two halves; empty when no source moves.
    /// Steps into the period where it is sought. A half-step goes on from the charges alone, which a period's beginning
    /// does not tell: so the first step is none.
    std::size_t rotation = 0;

    // Where the next solve starts: the last closed period's beginning.
    std::vector<double> companions, x;
    Evaluation state;
    double level = 0.0;
    std::vector<double> olderCompanions;  ///< Of the closed period before that, at `olderLevel`.
    double olderLevel = 0.0;
    std::optional<Eigen::PartialPivLU<Eigen::MatrixXd>> closing;  ///< I - d(w end)/d(w start) of a recent period.

    void remember() {
        companions = stepper.companions();
        x = stepper.x();
        state = stepper.state();
    }

    [[nodiscard]] double momentAfter(std::size_t step) const {
        return (wholePeriods + double(step) / double(steps)) / toneHz;
    }

    void findCorners() {
        if (!equations.hasMovingSources()) {
            return;
        }
        const double margin = sameMoment / (toneHz * double(steps));
        turnsCorner.assign(steps, 0);
        for (std::size_t k = 0; k < steps; ++k) {
            // A period later, where every source has begun whatever the rounding.
            const double from = momentAfter(steps + k) - margin;
            const double to = momentAfter(steps + k + 1) + margin;
            if (equations.firstCornerIn(from, to)) {
                turnsCorner[k] = 1;
            }
            // Two half-steps follow every corner, and of this step only one does.
            if (equations.firstCornerIn((from + to) / 2.0 - margin, to)) {
                turnsCorner[(k + 1) % steps] = 1;
            }
        }
        const auto first = std::find(turnsCorner.begin(), turnsCorner.end(), 0);
        rotation = first == turnsCorner.end() ? 0 : std::size_t(first - turnsCorner.begin());
    }

    /// Goes on over the step that ends `step` steps after the period's own beginning.
    Result<void> stepOn(std::size_t step, double voltsPeak, bool isFirst, bool withSensitivity) {
        const std::size_t place = (step - 1) % steps;
        const double drive = voltsPeak * shape[place];
        const double seconds = turnsCorner.empty() ? atRest : momentAfter(step);
        const auto carry = [&](Result<void> stepped) {
            if (stepped && withSensitivity) {
                stepper.carrySensitivity();
            }
            return stepped;
        };
        if (turnsCorner.empty() || turnsCorner[place] == 0 || isFirst) {
            return carry(stepper.step(drive, seconds));
        }
        const double before = voltsPeak * shape[(place + steps - 1) % steps];
        auto half = carry(stepper.halfStepAfterJump((before + drive) / 2.0, (momentAfter(step - 1) + seconds) / 2.0));
        return half ? carry(stepper.halfStepAfterJump(drive, seconds)) : half;
    }

    /// One period from `companions`; fills `period` with its samples.
    Result<void> runPeriod(double voltsPeak, bool withSensitivity, SettledState& period, const std::stop_token& stop) {
        stepper.start(companions, x, state);
        if (withSensitivity) {
            stepper.beginSensitivity();
        }
        period.samples.clear();
        for (std::size_t k = 1; k <= steps; ++k) {
            if ((k & 15U) == 0 && stop.stop_requested()) {
                return cancelledError();
            }
            if (auto stepped = stepOn(rotation + k, voltsPeak, k == 1, withSensitivity); !stepped) {
                return stepped;
            }
            period.samples.insert(period.samples.end(), stepper.x().begin(), stepper.x().end() - 1);
        }
        return {};
    }

    void renewClosing() {
        const auto count = Eigen::Index(companions.size());
        using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
        const Eigen::Map<const RowMajor> carried(stepper.sensitivity().data(), count, count);
        closing.emplace(Eigen::MatrixXd::Identity(count, count) - carried);
    }

    /// Goes to where a straight line through the last two closed periods leads, if the level is near them.
    void predict(double voltsPeak) {
        const std::vector<double> last = companions;
        const double span = level - olderLevel;
        if (!olderCompanions.empty() && span != 0.0 && std::abs(voltsPeak - level) <= 2.0 * std::abs(span)) {
            const double share = (voltsPeak - level) / span;
            for (std::size_t k = 0; k < companions.size(); ++k) {
                companions[k] += share * (last[k] - olderCompanions[k]);
            }
        }
        olderCompanions = last;
        olderLevel = level;
    }

    /// The largest voltage by which a correction of the companion states moves anything.
    [[nodiscard]] double largestVolts(const Eigen::VectorXd& correction) const {
        double largest = 0.0;
        for (Eigen::Index k = 0; k < correction.size(); ++k) {
            largest = std::max(largest, std::abs(correction[k]) * stepper.voltsPerCompanion(std::size_t(k)));
        }
        return largest;
    }

    /// Newton on the period's beginning at one level.
    Result<SettledState> close(double voltsPeak, const std::stop_token& stop) {
        SettledState period;
        period.toneHz = toneHz;
        period.inputVoltsPeak = voltsPeak;
        period.steps = steps;
        period.unknowns = std::size_t(equations.size());
        period.samples.reserve(steps * period.unknowns);
        const double enough = closureVolts + closureShare * std::abs(voltsPeak);
        double last = 0.0;
        int shrinkless = 0;
        int leftAlone = 0;
        // A level that lies further off than a tenth needs the matrix of its own period.
        bool renew = !closing || std::abs(voltsPeak - level) > 0.1 * std::abs(level);
        predict(voltsPeak);
        for (int pass = 1; pass <= mostPasses; ++pass) {
            if (auto ran = runPeriod(voltsPeak, renew, period, stop); !ran) {
                return ran.error();
            }
            if (renew) {
                renewClosing();
            }
            const auto count = Eigen::Index(companions.size());
            const Eigen::VectorXd gap = Eigen::Map<const Eigen::VectorXd>(stepper.companions().data(), count) -
                                        Eigen::Map<const Eigen::VectorXd>(companions.data(), count);
            const Eigen::VectorXd correction = closing->solve(gap);
            const double largest = largestVolts(correction);
            if (!std::isfinite(largest)) {
                break;
            }
            shrinkless = pass > 1 && largest > 0.5 * last ? shrinkless + 1 : 0;
            if (shrinkless >= 3 && leftAlone == 0) {
                leftAlone = periodsLeftAlone;
                shrinkless = 0;
            }
            for (Eigen::Index k = 0; k < count; ++k) {
                companions[std::size_t(k)] += leftAlone > 0 ? gap[k] : correction[k];
            }
            x = stepper.x();
            state = stepper.state();
            // An old matrix is believed when it has shrunk the correction at this level, or leaves next to none.
            const bool isBelieved =
                renew || (pass > 1 && largest <= chordGain * last) || largest < beyondDoubt * enough;
            if (largest < enough && isBelieved) {
                period.passes = pass;
                period.closureVolts = largest;
                level = voltsPeak;
                // Samples stand by their place in the tone's own period.
                std::rotate(period.samples.begin(), period.samples.end() - std::ptrdiff_t(rotation * period.unknowns),
                            period.samples.end());
                return period;
            }
            leftAlone = std::max(0, leftAlone - 1);
            renew = leftAlone == 0 && pass > 1 && largest > chordGain * last;
            last = largest;
        }
        return Error{ErrorCode::noConvergence,
                     said("The settled state at %1 peak was not found.", formatQuantity({voltsPeak, Unit::volt})), ""};
    }
};

SettledSolver::SettledSolver(std::unique_ptr<Shooting> shooting) : m_shooting(std::move(shooting)) {}
SettledSolver::SettledSolver(SettledSolver&&) noexcept = default;
SettledSolver& SettledSolver::operator=(SettledSolver&&) noexcept = default;
SettledSolver::~SettledSolver() = default;

Result<SettledSolver> SettledSolver::make(const Equations& equations, const OperatingPoint& bias, double toneHz,
                                          std::size_t steps, std::vector<double> shape) {
    if (!std::isfinite(toneHz) || toneHz <= 0.0) {
        return Error{ErrorCode::invalidInput, said("The tone must be above 0 Hz and finite."), ""};
    }
    if (steps % 2 == 0 || steps < 65) {
        return Error{ErrorCode::invalidInput, said("The steps a period must be odd and at least 65."), ""};
    }
    if (auto repeats = equations.requirePeriodicSources(1.0 / toneHz); !repeats) {
        return repeats.error();
    }
    if (shape.empty()) {
        for (std::size_t k = 1; k <= steps; ++k) {
            shape.push_back(std::sin(2.0 * std::numbers::pi * double(k) / double(steps)));
        }
    } else if (shape.size() != steps) {
        return Error{ErrorCode::invalidInput, said("The drive's shape must have one value a step."), ""};
    }
    auto stepper = TimeStepper::make(equations, 1.0 / (toneHz * double(steps)));
    if (!stepper) {
        return stepper.error();
    }
    return SettledSolver(std::make_unique<Shooting>(equations, bias, toneHz, std::move(shape), std::move(*stepper)));
}

void SettledSolver::startFrom(const SettledSolver& coarser) {
    Shooting& goal = *m_shooting;
    const Shooting& from = *coarser.m_shooting;
    if (goal.rotation != 0 || from.rotation != 0) {
        return;  // They look for the period from different moments on.
    }
    TimeStepper closed = from.stepper;
    closed.start(from.companions, from.x, from.state);
    goal.stepper.continueFrom(closed);
    goal.remember();
    goal.level = from.level;
    goal.olderCompanions.clear();
    // dw = (2/h) dq but for the currents, so that the share of it which is left after a period hardly knows h.
    goal.closing = from.closing;
}

Result<SettledState> SettledSolver::solve(double voltsPeak, const std::stop_token& stop) {
    Shooting& shooting = *m_shooting;
    double reach = voltsPeak - shooting.level;
    for (int halving = 0; halving <= mostHalvings;) {
        const bool atGoal = std::abs(voltsPeak - shooting.level) <= std::abs(reach);
        const double next = atGoal ? voltsPeak : shooting.level + reach;
        const auto companions = shooting.companions;
        const auto x = shooting.x;
        const auto state = shooting.state;
        auto period = shooting.close(next, stop);
        if (period && atGoal) {
            if (auto sound = requireLawsOver(shooting.equations, *period); !sound) {
                return sound.error();
            }
            return period;
        }
        if (!period) {
            // From where it stands to where it stands there is nothing between.
            if (period.error().code == ErrorCode::cancelled || halving == mostHalvings || reach == 0.0) {
                return period.error();
            }
            shooting.companions = companions;
            shooting.x = x;
            shooting.state = state;
            shooting.closing.reset();
            reach /= 2.0;
            ++halving;
        }
    }
    return Error{ErrorCode::noConvergence,
                 said("The settled state at %1 peak was not found.", formatQuantity({voltsPeak, Unit::volt})), ""};
}

}  // namespace ohmwright
