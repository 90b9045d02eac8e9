// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/settled_wave.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/measure/wave.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace ohmwright {

namespace {

constexpr double mostSteps = 16385.0;
constexpr double fewestSteps = 65.0;
/// From so many steps on a quarter of them goes ahead.
constexpr double scoutedSteps = 1025.0;
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

/// The settled state with these steps, from that of coarser ones where there is one and it leads there.
/// @param solver  that found it.
Result<SettledState> settleFrom(const std::optional<SettledSolver>& coarser, const SolvedCircuit& solved,
                                const SettledTone& tone, std::size_t steps, std::optional<SettledSolver>& solver,
                                const std::stop_token& stop) {
    const auto make = [&]() -> Result<void> {
        auto made = SettledSolver::make(*solved.equations, *solved.bias, tone.toneHz, steps, shapeOf(tone, steps));
        if (!made) {
            return made.error();
        }
        solver.emplace(*std::move(made));
        return {};
    };
    if (auto made = make(); !made) {
        return made.error();
    }
    if (coarser) {
        solver->startFrom(*coarser);
        auto state = solver->solve(tone.voltsPeak, stop);
        if (state || !concernsOneLevel(state.error())) {
            return state;
        }
        if (auto made = make(); !made) {
            return made.error();
        }
    }
    return solver->solve(tone.voltsPeak, stop);
}

/// The sensitivities of a period cost the cube of the capacitors a step: a few steps find the way for many. Empty where
/// few are asked for, or where these find nothing.
Result<std::optional<SettledSolver>> scout(const SolvedCircuit& solved, const SettledTone& tone, std::size_t firstSteps,
                                           const std::stop_token& stop) {
    std::optional<SettledSolver> solver;
    if (double(firstSteps) < scoutedSteps) {
        return solver;
    }
    const auto found = settleFrom({}, solved, tone, oddSteps(double(firstSteps) / 4.0), solver, stop);
    if (!found && !concernsOneLevel(found.error())) {
        return found.error();
    }
    if (!found) {
        solver.reset();
    }
    return solver;
}

}  // namespace

std::size_t oddSteps(double wanted) {
    const auto steps = std::size_t(std::ceil(std::max(wanted, fewestSteps)));
    return steps | 1U;
}

bool concernsOneLevel(const Error& error) {
    return error.code == ErrorCode::noConvergence || error.code == ErrorCode::unsolvable;
}

double SettledWave::steadyAboveDb() const {
    constexpr double decibelShare = 0.122;  // 10^(1/20) - 1
    return 20.0 * std::log10(unsteadyShare / decibelShare);
}

Result<SettledWave> settleWithin(const SolvedCircuit& solved, const SettledTone& tone, int output,
                                 std::size_t firstSteps, int harmonics, const std::stop_token& stop,
                                 double harmonicShare) {
    auto scouted = scout(solved, tone, firstSteps, stop);
    if (!scouted) {
        return scouted.error();
    }
    std::optional<SettledSolver> coarser = *std::move(scouted);
    std::vector<double> coarseWave;
    const double most = std::max(mostSteps, double(firstSteps));
    for (std::size_t steps = oddSteps(double(firstSteps));; steps = oddSteps(2.0 * double(steps))) {
        std::optional<SettledSolver> solver;
        auto state = settleFrom(coarser, solved, tone, steps, solver, stop);
        if (!state) {
            // Steps that are coarse for a hard clipper may have no settled state where finer ones have.
            if (!concernsOneLevel(state.error()) || 2.0 * double(steps) > most) {
                return state.error();
            }
            coarser.reset();
            coarseWave.clear();
            continue;
        }
        SettledWave fine{*std::move(state)};
        const std::vector<double> wave = fine.wave(output);
        if (!coarseWave.empty()) {
            // The trapezoidal rule's error falls with the square of the step: a third of the difference is left.
            const double left = harmonicDifference(coarseWave, wave, harmonics) / 3.0;
            fine.unsteadyShare = left > silentVoltsRms ? left / std::max(alternatingRms(wave), silentVoltsRms) : 0.0;
            const bool isFinest = 2.0 * double(steps) > most;
            if (fine.unsteadyShare <= harmonicShare || (isFinest && fine.unsteadyShare <= lastResort * harmonicShare)) {
                return fine;
            }
            if (isFinest) {
                return Error{ErrorCode::noConvergence,
                             said("The settled wave at %1 still changes with finer steps: try a lower tone or level.",
                                  formatFrequency(tone.toneHz)),
                             ""};
            }
        }
        coarser = std::move(solver);
        coarseWave = wave;
    }
}

}  // namespace ohmwright
