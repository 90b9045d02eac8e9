// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/clipping.h"

#include "core/measure/settled_wave.h"
#include "core/measure/wave.h"
#include "core/solve/response.h"
#include "core/solve/settled.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

const double halfDecibel = std::pow(10.0, 0.5 / 20.0);
constexpr double thresholdShare = 1.0 / std::numbers::sqrt2;
constexpr double largestPickVolts = 3.0;
constexpr double smallestPickVolts = 1e-4;
/// The search goes in steps of 2 dB until it has the threshold between two levels, and ends within this share.
const double searchStep = std::pow(10.0, 2.0 / 20.0);
constexpr double searchShare = 2e-5;

enum class HalfWave { positive, negative };

/// Peaks at one node at any level, from settled states that follow each other.
class PeakMeter {
public:
    PeakMeter(const SolvedCircuit& solved, const NetName& node, SettledSolver solver, const std::stop_token& stop)
        : m_node(solved.equations->indexOfNet(node)),
          m_rest(solved.biasVolts(node)),
          m_solver(std::move(solver)),
          m_stop(stop) {}

    Result<Peaks> at(double pickVolts) {
        const auto settled = m_solver.solve(pickVolts, m_stop);
        if (!settled) {
            return settled.error();
        }
        const Peaks peaks = peaksOf(settled->wave(m_node));
        return Peaks{peaks.highest - m_rest, peaks.lowest - m_rest};
    }

private:
    int m_node;
    double m_rest;
    SettledSolver m_solver;
    const std::stop_token& m_stop;
};

double ofHalf(const Peaks& peaks, HalfWave half) {
    return half == HalfWave::positive ? peaks.highest : peaks.lowest;
}

class ThresholdSearch {
public:
    ThresholdSearch(PeakMeter& meter, HalfWave half, double smallSignalGain)
        : m_meter(meter), m_half(half), m_goal(thresholdShare * smallSignalGain) {}

    /// @param hint  where to begin looking; the threshold's neighbourhood saves steps, nothing else.
    Result<std::optional<ClipThreshold>> run(double hint) {
        double level = std::clamp(hint, smallestPickVolts, largestPickVolts);
        auto gain = incrementalGain(level);
        if (!gain) {
            return gain.error();
        }
        // Two levels with the threshold between them: upwards while free, downwards while clipped.
        const bool upwards = *gain > m_goal;
        double otherLevel = level;
        double otherGain = *gain;
        while ((*gain > m_goal) == upwards) {
            otherLevel = level;
            otherGain = *gain;
            if (level == (upwards ? largestPickVolts : smallestPickVolts)) {
                return std::optional<ClipThreshold>{};
            }
            level = upwards ? std::min(level * searchStep, largestPickVolts)
                            : std::max(level / searchStep, smallestPickVolts);
            gain = incrementalGain(level);
            if (!gain) {
                return gain.error();
            }
        }
        return between({upwards ? otherLevel : level, upwards ? otherGain : *gain},
                       {upwards ? level : otherLevel, upwards ? *gain : otherGain});
    }

private:
    struct Trial {
        double level, gain;
    };

    Result<double> incrementalGain(double level) {
        const auto below = m_meter.at(level / halfDecibel);
        if (!below) {
            return below.error();
        }
        const auto above = m_meter.at(level * halfDecibel);
        if (!above) {
            return above.error();
        }
        return std::abs(ofHalf(*above, m_half) - ofHalf(*below, m_half)) / (level * (halfDecibel - 1.0 / halfDecibel));
    }

    /// Regula falsi on log level (Illinois variant), free end below, clipped end above.
    Result<std::optional<ClipThreshold>> between(Trial freeEnd, Trial clippedEnd) {
        double freeError = freeEnd.gain - m_goal;
        double clippedError = clippedEnd.gain - m_goal;
        int lastSide = 0;
        double level = freeEnd.level;
        for (int step = 0; step < 30 && clippedEnd.level / freeEnd.level > 1.0 + searchShare; ++step) {
            const double share = freeError / (freeError - clippedError);
            const double next = freeEnd.level * std::pow(clippedEnd.level / freeEnd.level, share);
            const bool settledDown = std::abs(next / level - 1.0) < searchShare;
            level = next;
            const auto gain = incrementalGain(level);
            if (!gain) {
                return gain.error();
            }
            if (settledDown) {
                break;
            }
            if (*gain > m_goal) {
                freeEnd = {level, *gain};
                freeError = *gain - m_goal;
                clippedError = lastSide == 1 ? clippedError / 2.0 : clippedError;
                lastSide = 1;
            } else {
                clippedEnd = {level, *gain};
                clippedError = *gain - m_goal;
                freeError = lastSide == -1 ? freeError / 2.0 : freeError;
                lastSide = -1;
            }
        }
        const auto peaks = m_meter.at(level);
        if (!peaks) {
            return peaks.error();
        }
        return std::optional<ClipThreshold>{{ofHalf(*peaks, m_half), level}};
    }

    PeakMeter& m_meter;
    HalfWave m_half;
    double m_goal;
};

/// Where the drawn curve's slope crosses the goal, roughly; its right end when it does not.
double thresholdHint(const std::vector<double>& levels, const std::vector<double>& peaks, double goal) {
    for (std::size_t k = 1; k < levels.size(); ++k) {
        if (std::abs(peaks[k] - peaks[k - 1]) < goal * (levels[k] - levels[k - 1])) {
            return (levels[k] + levels[k - 1]) / 2.0;
        }
    }
    return levels.back();
}

void noteTrouble(ClipCurve& curve, const Error& error) {
    if (curve.trouble.empty()) {
        curve.trouble = error.message;
    }
}

}  // namespace

Result<ClipCurve> measureClipCurve(const SolvedCircuit& solved, const NetName& node, double toneHz,
                                   const LargeSignalOptions& options, const std::stop_token& stop) {
    auto coarse = SettledSolver::make(*solved.equations, *solved.bias, toneHz, options.curveSteps);
    if (!coarse) {
        return coarse.error();
    }
    ClipCurve curve;
    curve.pickVoltsPeak = curve.positiveVolts = curve.negativeVolts = {0.0};
    PeakMeter meter(solved, node, std::move(*coarse), stop);
    for (int k = 1; k < options.clipPoints; ++k) {
        const double level = options.clipToVoltsPeak * k / (options.clipPoints - 1);
        const auto peaks = meter.at(level);
        if (!peaks) {
            if (!concernsOneLevel(peaks.error())) {
                return peaks.error();
            }
            noteTrouble(curve, peaks.error());
            continue;
        }
        curve.pickVoltsPeak.push_back(level);
        curve.positiveVolts.push_back(peaks->highest);
        curve.negativeVolts.push_back(peaks->lowest);
    }
    if (!options.withThresholds) {
        return curve;
    }

    const auto gains = frequencyResponse(*solved.equations, *solved.bias, {node}, std::span(&toneHz, 1), stop);
    if (!gains) {
        return gains.error();
    }
    const double smallSignalGain = std::abs((*gains)[0][0]);
    auto fine = SettledSolver::make(*solved.equations, *solved.bias, toneHz, options.thresholdSteps);
    if (!fine) {
        return fine.error();
    }
    PeakMeter fineMeter(solved, node, std::move(*fine), stop);
    const double goal = thresholdShare * smallSignalGain;
    const auto search = [&](HalfWave half, const std::vector<double>& peaks, std::optional<ClipThreshold>& threshold,
                            bool& hasSettled) -> Result<void> {
        const auto found =
            ThresholdSearch(fineMeter, half, smallSignalGain).run(thresholdHint(curve.pickVoltsPeak, peaks, goal));
        if (found) {
            threshold = *found;
            return {};
        }
        if (!concernsOneLevel(found.error())) {
            return found.error();
        }
        hasSettled = false;
        noteTrouble(curve, found.error());
        return {};
    };
    if (auto done = search(HalfWave::positive, curve.positiveVolts, curve.positive, curve.positiveSettled); !done) {
        return done.error();
    }
    if (auto done = search(HalfWave::negative, curve.negativeVolts, curve.negative, curve.negativeSettled); !done) {
        return done.error();
    }
    return curve;
}

}  // namespace ohmwright
