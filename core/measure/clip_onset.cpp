// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/clip_onset.h"

#include "core/base/said.h"
#include "core/measure/wave.h"
#include "core/solve/settled.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr std::size_t steps = 257;
constexpr int harmonicCount = 10;
constexpr double lowestVolts = 2e-4;
constexpr double largestVolts = 3.0;
constexpr double searchShare = 1e-5;
const double fourDecibels = std::pow(10.0, 4.0 / 20.0);

/// Distortion at a node by level; 0 where no signal arrives.
class DistortionMeter {
public:
    DistortionMeter(SettledSolver solver, int node, const std::stop_token& stop)
        : m_solver(std::move(solver)), m_node(node), m_stop(stop) {}

    Result<double> at(double volts) {
        const auto settled = m_solver.solve(volts, m_stop);
        if (!settled) {
            return settled.error();
        }
        const std::vector<double> wave = settled->wave(m_node);
        if (alternatingRms(wave) < silentVoltsRms) {
            return 0.0;
        }
        return totalHarmonicDistortion(harmonicsOf(wave, harmonicCount, 1.0 / double(wave.size())));
    }

private:
    SettledSolver m_solver;
    int m_node;
    std::stop_token m_stop;
};

/// Regula falsi on the logarithms (Illinois variant) between a level under and one over the onset.
Result<std::optional<double>> crossing(DistortionMeter& meter, double under, double underValue, double over,
                                       double overValue) {
    // A level without any distortion has no logarithm; it counts as far under.
    double underError = std::log(std::max(underValue, 1e-12) / onsetDistortion);
    double overError = std::log(overValue / onsetDistortion);
    int lastSide = 0;
    while (over / under > 1.0 + searchShare) {
        const double share = std::clamp(underError / (underError - overError), 0.01, 0.99);
        const double next = under * std::pow(over / under, share);
        const auto value = meter.at(next);
        if (!value) {
            return value.error();
        }
        const double error = std::log(std::max(*value, 1e-12) / onsetDistortion);
        if (std::abs(error) < searchShare) {
            return std::optional(next);
        }
        if (error < 0.0) {
            under = next;
            underError = error;
            overError = lastSide == -1 ? overError / 2.0 : overError;
            lastSide = -1;
        } else {
            over = next;
            overError = error;
            underError = lastSide == 1 ? underError / 2.0 : underError;
            lastSide = 1;
        }
    }
    return std::optional(std::sqrt(under * over));
}

}  // namespace

Result<std::optional<double>> measureClipOnset(const SolvedCircuit& solved, const NetName& node, double toneHz,
                                               const std::stop_token& stop) {
    const int index = solved.equations->indexOfNet(node);
    if (index < 0) {
        return Error{ErrorCode::invalidInput, said("There is no net \"%1\" in the circuit: choose another.", node),
                     node};
    }
    auto solver = SettledSolver::make(*solved.equations, *solved.bias, toneHz, steps);
    if (!solver) {
        return solver.error();
    }
    DistortionMeter meter(*std::move(solver), index, stop);
    double level = lowestVolts;
    auto reached = meter.at(level);
    while (reached && *reached < onsetDistortion) {
        const double next = std::min(level * fourDecibels, largestVolts);
        if (next == level) {
            return std::optional<double>();
        }
        const auto further = meter.at(next);
        if (!further) {
            return further.error();
        }
        if (*further >= onsetDistortion) {
            return crossing(meter, level, *reached, next, *further);
        }
        level = next;
        reached = further;
    }
    if (!reached) {
        return reached.error();
    }
    return std::optional(level);  // bent already at the lowest level that is looked at
}

}  // namespace ohmwright
