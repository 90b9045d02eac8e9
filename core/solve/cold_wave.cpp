// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/cold_wave.h"

#include "core/base/said.h"
#include "core/solve/time_step.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <utility>

namespace ohmwright {

namespace {

/// No capacitor follows in so short a share of a step; moments that are nearer to each other are one.
constexpr double instant = 1e-6;

/// Steps from the bias on, each split where a source turns a corner.
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
        // What moves by itself may start with a jump away from its bias.
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
        m_stepper.continueFrom(*jump);
        return {};
    }

    /// Goes on to `seconds`, one step after the moment before. The tone itself turns a corner as it starts.
    Result<void> stepTo(double seconds, bool isFirst) {
        double from = seconds - m_step;
        bool afterCorner = isFirst || isCorner(from);
        while (const std::optional<double> corner = cornerBetween(from, seconds)) {
            if (auto taken = stepPart(from, *corner, afterCorner); !taken) {
                return taken;
            }
            from = *corner;
            afterCorner = true;
        }
        return from > seconds - m_step ? stepPart(from, seconds, afterCorner)
                                       : advance(m_stepper, from, seconds, afterCorner);
    }

    [[nodiscard]] double driveAt(double seconds) const {
        return m_voltsPeak * std::sin(2.0 * std::numbers::pi * m_toneHz * seconds);
    }
    [[nodiscard]] const std::vector<double>& x() const { return m_stepper.x(); }

private:
    [[nodiscard]] double margin() const { return instant * m_step; }
    [[nodiscard]] bool isCorner(double seconds) const {
        return m_moving && m_equations.firstCornerIn(seconds - margin(), seconds + margin()).has_value();
    }
    [[nodiscard]] std::optional<double> cornerBetween(double from, double to) const {
        return m_moving ? m_equations.firstCornerIn(from + margin(), to - margin()) : std::nullopt;
    }

    /// Up to a corner the sources are read as they are just before it: it may be a jump.
    [[nodiscard]] double momentOf(double seconds) const {
        if (!m_moving) {
            return atRest;
        }
        return isCorner(seconds) ? seconds - 2.0 * margin() : seconds;
    }

    /// A part of a step has a stepper of its own.
    Result<void> stepPart(double from, double to, bool afterCorner) {
        auto part = TimeStepper::make(m_equations, to - from);
        if (!part) {
            return part.error();
        }
        part->continueFrom(m_stepper);
        auto taken = advance(*part, from, to, afterCorner);
        if (taken) {
            m_stepper.continueFrom(*part);
        }
        return taken;
    }

    Result<void> advance(TimeStepper& stepper, double from, double to, bool afterCorner) {
        if (!afterCorner) {
            return stepper.step(driveAt(to), momentOf(to));
        }
        const double between = (from + to) / 2.0;
        auto half = stepper.halfStepAfterJump(driveAt(between), momentOf(between));
        return half ? stepper.halfStepAfterJump(driveAt(to), momentOf(to)) : half;
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
        return Error{ErrorCode::invalidInput, said("Tone, rate and duration must be above zero and the level finite."),
                     ""};
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
        if (k == samples) {
            return wave;
        }
        for (std::size_t part = 1; part <= inner; ++part) {
            if (stop.stop_requested()) {
                return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
            }
            if (auto taken = run.stepTo(seconds + double(part) * step, k == 0 && part == 1); !taken) {
                return taken.error();
            }
            if (auto sound = requireLawsAt(equations, run.x()); !sound) {
                return sound.error();
            }
        }
    }
}

}  // namespace ohmwright
