// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/settled.h"

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

Error cancelledError() {
    return {ErrorCode::cancelled, "The solve was overtaken by a newer one.", ""};
}

/// Newton goes on beyond the edge of a formula; a wave that comes to stand there is none of the circuit's.
Result<void> requireLawsAt(const Equations& equations, const std::vector<double>& x) {
    const PartId* part = equations.partWithoutValue(x);
    if (part == nullptr) {
        return {};
    }
    return Error{ErrorCode::unsolvable,
                 *part +
                     " has a formula without a value at some moment of the wave, as the root or logarithm of a "
                     "negative or a division by 0: lower the level, or keep the formula inside its range with "
                     "max().",
                 *part};
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
    }

    const Equations& equations;
    const OperatingPoint& bias;
    double toneHz;
    std::size_t steps;
    std::vector<double> shape;  ///< Of the drive, at the end of each step.
    double wholePeriods;        ///< After which every source that moves by itself has begun.
    TimeStepper stepper;

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
            const double seconds =
                equations.hasMovingSources() ? (wholePeriods + double(k) / double(steps)) / toneHz : atRest;
            if (auto stepped = stepper.step(voltsPeak * shape[k - 1], seconds); !stepped) {
                return stepped;
            }
            if (withSensitivity) {
                stepper.carrySensitivity();
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
            double largest = 0.0;
            for (Eigen::Index k = 0; k < count; ++k) {
                largest = std::max(largest, std::abs(correction[k]) * stepper.voltsPerCompanion(std::size_t(k)));
            }
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
            if (largest < enough) {
                period.passes = pass;
                period.closureVolts = largest;
                level = voltsPeak;
                return period;
            }
            leftAlone = std::max(0, leftAlone - 1);
            renew = leftAlone == 0 && pass > 1 && largest > chordGain * last;
            last = largest;
        }
        return Error{ErrorCode::noConvergence,
                     "The settled state at " + std::to_string(voltsPeak) + " V peak was not found.", ""};
    }
};

SettledSolver::SettledSolver(std::unique_ptr<Shooting> shooting) : m_shooting(std::move(shooting)) {}
SettledSolver::SettledSolver(SettledSolver&&) noexcept = default;
SettledSolver& SettledSolver::operator=(SettledSolver&&) noexcept = default;
SettledSolver::~SettledSolver() = default;

Result<SettledSolver> SettledSolver::make(const Equations& equations, const OperatingPoint& bias, double toneHz,
                                          std::size_t steps, std::vector<double> shape) {
    if (!std::isfinite(toneHz) || toneHz <= 0.0) {
        return Error{ErrorCode::invalidInput, "The tone must be above 0 Hz and finite.", ""};
    }
    if (steps % 2 == 0 || steps < 65) {
        return Error{ErrorCode::invalidInput, "The steps a period must be odd and at least 65.", ""};
    }
    if (auto repeats = equations.requirePeriodicSources(1.0 / toneHz); !repeats) {
        return repeats.error();
    }
    if (shape.empty()) {
        for (std::size_t k = 1; k <= steps; ++k) {
            shape.push_back(std::sin(2.0 * std::numbers::pi * double(k) / double(steps)));
        }
    } else if (shape.size() != steps) {
        return Error{ErrorCode::invalidInput, "The drive's shape must have one value a step.", ""};
    }
    auto stepper = TimeStepper::make(equations, 1.0 / (toneHz * double(steps)));
    if (!stepper) {
        return stepper.error();
    }
    return SettledSolver(std::make_unique<Shooting>(equations, bias, toneHz, std::move(shape), std::move(*stepper)));
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
            if (period.error().code == ErrorCode::cancelled || halving == mostHalvings) {
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
                 "The settled state at " + std::to_string(voltsPeak) + " V peak was not found.", ""};
}

namespace {

/// Steps from the bias on, with two damped half-steps wherever the drive or a source turns a corner.
class ColdRun {
public:
    ColdRun(const Equations& equations, double toneHz, double voltsPeak, double stepSeconds, TimeStepper stepper)
        : m_equations(equations),
          m_toneHz(toneHz),
          m_voltsPeak(voltsPeak),
          m_step(stepSeconds),
          m_moving(equations.hasMovingSources()),
          m_stepper(std::move(stepper)) {}

    Result<void> begin(const OperatingPoint& bias) {
        m_stepper.startAtRest(bias);
        if (!m_moving) {
            return {};
        }
        // What moves by itself may start with a jump away from its bias; no capacitor follows in so short a time.
        constexpr double instant = 1e-6;
        auto jump = TimeStepper::make(m_equations, instant * m_step);
        if (!jump) {
            return jump.error();
        }
        jump->startAtRest(bias);
        for (int half = 0; half < 2; ++half) {
            if (auto taken = jump->halfStepAfterJump(0.0, 0.0); !taken) {
                return taken;
            }
        }
        m_stepper.start(jump->companions(), jump->x(), jump->state());
        return {};
    }

    /// Goes on to `seconds`, one step after the moment before. The tone itself turns a corner as it starts.
    Result<void> stepTo(double seconds, bool isFirst) {
        if (!isFirst && !(m_moving && m_equations.sourcesJumpIn(seconds - m_step, seconds))) {
            return m_stepper.step(driveAt(seconds), momentOf(seconds));
        }
        const double between = seconds - m_step / 2.0;
        auto half = m_stepper.halfStepAfterJump(driveAt(between), momentOf(between));
        return half ? m_stepper.halfStepAfterJump(driveAt(seconds), momentOf(seconds)) : half;
    }

    [[nodiscard]] double driveAt(double seconds) const {
        return m_voltsPeak * std::sin(2.0 * std::numbers::pi * m_toneHz * seconds);
    }
    [[nodiscard]] const std::vector<double>& x() const { return m_stepper.x(); }

private:
    [[nodiscard]] double momentOf(double seconds) const {
        if (m_moving) {
            return seconds;
        }
        return atRest;
    }

    const Equations& m_equations;
    double m_toneHz, m_voltsPeak, m_step;
    bool m_moving;
    TimeStepper m_stepper;
};

}  // namespace

Result<ColdWave> coldWave(const Equations& equations, const OperatingPoint& bias, double toneHz, double voltsPeak,
                          double durationSeconds, double samplesPerSecond, int outputUnknown,
                          const std::stop_token& stop) {
    if (!(toneHz > 0.0) || !(samplesPerSecond > 0.0) || !(durationSeconds > 0.0) || !std::isfinite(voltsPeak)) {
        return Error{ErrorCode::invalidInput, "Tone, rate and duration must be above zero and the level finite.", ""};
    }
    const auto inner = std::max<std::size_t>(1, std::size_t(std::ceil(256.0 * toneHz / samplesPerSecond)));
    const double step = 1.0 / (samplesPerSecond * double(inner));
    auto stepper = TimeStepper::make(equations, step);
    if (!stepper) {
        return stepper.error();
    }
    ColdRun run(equations, toneHz, voltsPeak, step, std::move(*stepper));
    if (auto begun = run.begin(bias); !begun) {
        return begun.error();
    }
    ColdWave wave;
    const auto samples = std::size_t(std::llround(durationSeconds * samplesPerSecond));
    for (std::size_t k = 0;; ++k) {
        const double seconds = double(k) / samplesPerSecond;
        wave.seconds.push_back(seconds);
        wave.inputVolts.push_back(run.driveAt(seconds));
        wave.outputVolts.push_back(run.x()[std::size_t(outputUnknown)]);
        if (auto sound = requireLawsAt(equations, run.x()); !sound) {
            return sound.error();
        }
        if (k == samples) {
            return wave;
        }
        for (std::size_t part = 1; part <= inner; ++part) {
            if (stop.stop_requested()) {
                return cancelledError();
            }
            if (auto taken = run.stepTo(seconds + double(part) * step, k == 0 && part == 1); !taken) {
                return taken.error();
            }
        }
    }
}

}  // namespace ohmwright
