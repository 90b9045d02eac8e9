// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/stage_sweep.h"

#include "core/base/decibels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

namespace ohmwright {

namespace {

/// A corner lies where the gain is this far under the highest: half the power.
const double cornerDb = 10.0 * std::log10(2.0);
constexpr double searchRatio = 1.0 + 1e-7;
constexpr double lowestHz = 20.0;
constexpr double highestHz = 20000.0;
constexpr int searchPerDecade = 50;
/// A dip that is shallower is a ripple.
constexpr double leastDipDb = 0.5;

/// A stage's gains over the band, where its summits and crossings are looked for.
struct CoarseSweep {
    std::vector<double> hertz;
    std::vector<double> gainDb;
};

Result<CoarseSweep> coarseSweep(const SolvedCircuit& solved, const Stage& stage, const std::stop_token& stop) {
    CoarseSweep sweep{logarithmicGrid(lowestHz, highestHz, searchPerDecade), {}};
    const auto gains =
        frequencyResponse(*solved.equations, *solved.bias, {stage.output, stage.input}, sweep.hertz, stop);
    if (!gains) {
        return gains.error();
    }
    for (std::size_t k = 0; k < sweep.hertz.size(); ++k) {
        sweep.gainDb.push_back(amplitudeDb(std::abs((*gains)[0][k] / (*gains)[1][k])));
    }
    return sweep;
}

/// Golden-section search between two frequencies, on a log axis: for a summit, or a bottom with `sign` -1.
Result<double> summitBetween(StageSweep& sweep, double lowHz, double highHz, double sign = 1.0) {
    double left = std::log(lowHz);
    double right = std::log(highHz);
    const double golden = 1.0 / std::numbers::phi;
    while (right - left > 1e-6) {
        const double a = right - golden * (right - left);
        const double b = left + golden * (right - left);
        const auto atA = sweep.at(std::exp(a));
        const auto atB = sweep.at(std::exp(b));
        if (!atA || !atB) {
            return atA ? atB.error() : atA.error();
        }
        const bool isLeft = sign * *atA > sign * *atB;
        (isLeft ? right : left) = isLeft ? b : a;
    }
    return std::exp((left + right) / 2.0);
}

/// The frequency between two at which the gain crosses `goalDb`, by halving on a log axis.
Result<double> crossingBetween(StageSweep& sweep, double underHz, double overHz, double goalDb) {
    while (std::max(underHz, overHz) / std::min(underHz, overHz) > searchRatio) {
        const double middle = std::sqrt(underHz * overHz);
        const auto gain = sweep.at(middle);
        if (!gain) {
            return gain.error();
        }
        (*gain < goalDb ? underHz : overHz) = middle;
    }
    return std::sqrt(underHz * overHz);
}

/// The highest gain between the neighbours of the highest point of the sweep.
Result<StageCorners> summitNear(StageSweep& sweep, const CoarseSweep& coarse, std::size_t top) {
    const auto& grid = coarse.hertz;
    const auto summit = summitBetween(sweep, grid[top == 0 ? 0 : top - 1], grid[std::min(top + 1, grid.size() - 1)]);
    if (!summit) {
        return summit.error();
    }
    const auto highest = sweep.at(*summit);
    if (!highest) {
        return highest.error();
    }
    return StageCorners{*highest, *summit, {}, {}};
}

std::size_t topOf(const CoarseSweep& coarse) {
    return std::size_t(std::max_element(coarse.gainDb.begin(), coarse.gainDb.end()) - coarse.gainDb.begin());
}

}  // namespace

StageSweep::StageSweep(const SolvedCircuit& solved, const Stage& stage)
    : m_signal(*solved.equations, *solved.bias),
      m_input(std::size_t(solved.equations->indexOfNet(stage.input))),
      m_output(std::size_t(solved.equations->indexOfNet(stage.output))) {}

Result<double> StageSweep::at(double hertz) {
    const auto solution = m_signal.at(hertz);
    if (!solution) {
        return solution.error();
    }
    return amplitudeDb(std::abs((*solution)[m_output] / (*solution)[m_input]));
}

Result<StageCorners> findHighest(const SolvedCircuit& solved, const Stage& stage, const std::stop_token& stop) {
    const auto coarse = coarseSweep(solved, stage, stop);
    if (!coarse) {
        return coarse.error();
    }
    StageSweep sweep(solved, stage);
    return summitNear(sweep, *coarse, topOf(*coarse));
}

Result<StageCorners> findCorners(const SolvedCircuit& solved, const Stage& stage, const std::stop_token& stop) {
    const auto coarse = coarseSweep(solved, stage, stop);
    if (!coarse) {
        return coarse.error();
    }
    StageSweep sweep(solved, stage);
    const std::size_t top = topOf(*coarse);
    auto corners = summitNear(sweep, *coarse, top);
    if (!corners) {
        return corners;
    }
    const auto& grid = coarse->hertz;
    const double goal = corners->highestDb - cornerDb;
    for (std::size_t k = top; k-- > 0;) {
        if (coarse->gainDb[k] < goal) {
            const auto crossing = crossingBetween(sweep, grid[k], grid[k + 1], goal);
            if (!crossing) {
                return crossing.error();
            }
            corners->lowHz = *crossing;
            break;
        }
    }
    for (std::size_t k = top + 1; k < grid.size(); ++k) {
        if (coarse->gainDb[k] < goal) {
            const auto crossing = crossingBetween(sweep, grid[k], grid[k - 1], goal);
            if (!crossing) {
                return crossing.error();
            }
            corners->highHz = *crossing;
            break;
        }
    }
    return corners;
}

Result<std::optional<StageDip>> findDip(const SolvedCircuit& solved, const Stage& stage, const std::stop_token& stop) {
    const auto coarse = coarseSweep(solved, stage, stop);
    if (!coarse) {
        return coarse.error();
    }
    const std::span<const double> gains = coarse->gainDb;
    std::vector<double> highestToTheLeft(gains.begin(), gains.end());
    std::vector<double> highestToTheRight(gains.begin(), gains.end());
    for (std::size_t k = 1; k < gains.size(); ++k) {
        highestToTheLeft[k] = std::max(gains[k], highestToTheLeft[k - 1]);
        const std::size_t fromEnd = gains.size() - 1 - k;
        highestToTheRight[fromEnd] = std::max(gains[fromEnd], highestToTheRight[fromEnd + 1]);
    }
    std::optional<std::size_t> deepest;
    double deepestUnder = leastDipDb;
    for (std::size_t k = 1; k + 1 < gains.size(); ++k) {
        const double under = std::min(highestToTheLeft[k], highestToTheRight[k]) - gains[k];
        if (under > deepestUnder) {
            deepest = k;
            deepestUnder = under;
        }
    }
    if (!deepest) {
        return std::optional<StageDip>();
    }
    StageSweep sweep(solved, stage);
    const auto bottom = summitBetween(sweep, coarse->hertz[*deepest - 1], coarse->hertz[*deepest + 1], -1.0);
    if (!bottom) {
        return bottom.error();
    }
    const auto depth = sweep.at(*bottom);
    if (!depth) {
        return depth.error();
    }
    return std::optional<StageDip>({*depth, *bottom, deepestUnder + gains[*deepest] - *depth});
}

}  // namespace ohmwright
