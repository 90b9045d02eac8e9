// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/settled_wave.h"

#include "core/base/number_text.h"
#include "core/measure/wave.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace ohmwright {

namespace {

constexpr double mostSteps = 16385.0;
constexpr double fewestSteps = 65.0;
/// What the finest steps may still differ by, in shares asked for.
constexpr double lastResort = 30.0;

std::vector<double> shapeOf(const SettledTone& tone, std::size_t steps) {
    std::vector<double> shape;
    if (tone.shape) {
        for (std::size_t k = 1; k <= steps; ++k) {
            shape.push_back(tone.shape(double(k) / double(steps)));
        }
    }
    return shape;
}

/// Largest difference of two waves' harmonics, the mean among them.
double harmonicDifference(const std::vector<double>& coarse, const std::vector<double>& fine, int count) {
    const auto a = harmonicsOf(coarse, count, 1.0 / double(coarse.size()));
    const auto b = harmonicsOf(fine, count, 1.0 / double(fine.size()));
    double largest = 0.0;
    for (std::size_t n = 0; n < a.size(); ++n) {
        largest = std::max(largest, std::abs(a[n] - b[n]));
    }
    return largest;
}

}  // namespace

std::size_t oddSteps(double wanted) {
    const auto steps = std::size_t(std::ceil(std::max(wanted, fewestSteps)));
    return steps | 1U;
}

Result<SettledState> settleWithin(const SolvedCircuit& solved, const SettledTone& tone, int output,
                                  std::size_t firstSteps, int harmonics, const std::stop_token& stop,
                                  double harmonicShare) {
    std::optional<SettledState> coarse;
    std::vector<double> coarseWave;
    const double most = std::max(mostSteps, double(firstSteps));
    for (std::size_t steps = oddSteps(double(firstSteps));; steps = oddSteps(2.0 * double(steps))) {
        auto solver = SettledSolver::make(*solved.equations, *solved.bias, tone.toneHz, steps, shapeOf(tone, steps));
        if (!solver) {
            return solver.error();
        }
        auto state = solver->solve(tone.voltsPeak, stop);
        if (!state) {
            // Steps that are coarse for a hard clipper may have no settled state where finer ones have.
            if (state.error().code == ErrorCode::cancelled || 2.0 * double(steps) > most) {
                return state;
            }
            coarse.reset();
            continue;
        }
        const std::vector<double> wave = state->wave(output);
        if (coarse) {
            // The trapezoidal rule's error falls with the square of the step: a third of the difference is left.
            const double left = harmonicDifference(coarseWave, wave, harmonics) / 3.0;
            const double allowed = std::max(harmonicShare * alternatingRms(wave), silentVoltsRms);
            if (left <= allowed) {
                return state;
            }
            if (2.0 * double(steps) > most) {
                if (left <= lastResort * allowed) {
                    return state;
                }
                return Error{ErrorCode::noConvergence,
                             "The settled wave at " + formatFrequency(tone.toneHz) +
                                 " still changes with finer steps: try a lower tone or level.",
                             ""};
            }
        }
        coarse = std::move(*state);
        coarseWave = wave;
    }
}

}  // namespace ohmwright
