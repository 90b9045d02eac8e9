// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/ladder.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/wave.h"
#include "core/solve/settled.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace ohmwright {

namespace {

const double twoDecibels = std::pow(10.0, 2.0 / 20.0);
/// Levels nearer than this are one: a ladder in steps of 2 dB meets its own neighbours.
constexpr double sameLevel = 1e-9;

/// Settled readings by level; a level asked for twice is solved once.
class Readings {
public:
    Readings(const SolvedCircuit& solved, int output, double rest, SettledSolver solver)
        : m_solved(solved), m_output(output), m_rest(rest), m_solver(std::move(solver)) {}

    /// Errors: cancelled.
    Result<void> solve(double level, LevelLadder& ladder, const std::stop_token& stop) {
        if (find(level) != nullptr) {
            return {};
        }
        const auto settled = m_solver.solve(level, stop);
        if (!settled) {
            if (settled.error().code == ErrorCode::cancelled) {
                return settled.error();
            }
            if (ladder.firstTrouble.empty()) {
                ladder.firstTrouble = settled.error().message;
            }
            return {};
        }
        const std::vector<double> wave = settled->wave(m_output);
        const Peaks peaks = peaksOf(wave);
        m_readings[level] = {alternatingRms(wave),
                             std::abs(harmonicsOf(wave, 1, 1.0 / double(wave.size()))[1]),
                             peaks.highest - m_rest,
                             peaks.lowest - m_rest,
                             {}};
        return {};
    }

    [[nodiscard]] const LadderReading* find(double level) const {
        const auto next = m_readings.lower_bound(level * (1.0 - sameLevel));
        return next != m_readings.end() && next->first <= level * (1.0 + sameLevel) ? &next->second : nullptr;
    }

private:
    const SolvedCircuit& m_solved;
    int m_output;
    double m_rest;
    SettledSolver m_solver;
    std::map<double, LadderReading> m_readings;
};

std::optional<double> slopeBetween(const LadderReading* softer, const LadderReading* louder) {
    if (softer == nullptr || louder == nullptr || softer->outputVoltsRms < silentVoltsRms) {
        return std::nullopt;
    }
    return amplitudeDb(louder->outputVoltsRms / softer->outputVoltsRms) / 4.0;
}

}  // namespace

Result<LevelLadder> measureLadder(const SolvedCircuit& solved, int output, double toneHz,
                                  const std::vector<double>& levels, std::size_t steps, const std::stop_token& stop) {
    if (levels.empty() || !(levels.front() > 0.0) || !std::is_sorted(levels.begin(), levels.end()) ||
        !std::isfinite(levels.back())) {
        return Error{ErrorCode::invalidInput, said("The ladder's levels must rise from above 0 V."), ""};
    }
    auto solver = SettledSolver::make(*solved.equations, *solved.bias, toneHz, steps);
    if (!solver) {
        return solver.error();
    }
    Readings readings(solved, output, solved.bias->x[std::size_t(output)], std::move(*solver));
    std::vector<double> wanted;
    for (const double level : levels) {
        wanted.insert(wanted.end(), {level / twoDecibels, level, level * twoDecibels});
    }
    // Upwards, so that each settled state starts from its neighbour's.
    std::sort(wanted.begin(), wanted.end());
    LevelLadder ladder;
    for (const double level : wanted) {
        if (auto solvedLevel = readings.solve(level, ladder, stop); !solvedLevel) {
            return solvedLevel.error();
        }
    }
    for (const double level : levels) {
        LadderRung rung{level, {}};
        if (const LadderReading* reading = readings.find(level)) {
            rung.reading = *reading;
            rung.reading->slope = slopeBetween(readings.find(level / twoDecibels), readings.find(level * twoDecibels));
        }
        ladder.rungs.push_back(rung);
    }
    return ladder;
}

std::vector<double> ladderLevels(double fromVolts, double toVolts, int count) {
    std::vector<double> levels;
    for (int k = 0; k < count; ++k) {
        const double share = count > 1 ? double(k) / (count - 1) : 0.0;
        levels.push_back(k == 0           ? fromVolts
                         : k == count - 1 ? toVolts
                                          : fromVolts * std::pow(toVolts / fromVolts, share));
    }
    return levels;
}

}  // namespace ohmwright
