// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/frequency_grid.h"

#include "core/solve/response.h"

#include <cmath>

namespace ohmwright {

namespace {

constexpr double lowestHz = 20.0;
constexpr double highestHz = 20000.0;
constexpr int pointsPerDecade = 100;
constexpr int mostPointsPerDecade = 100000;
/// A second or two of solving and some megabytes of text.
constexpr std::size_t mostPoints = 200000;

Result<std::vector<double>> listedFrequencies(const Request& request) {
    if (!request.from.empty() || !request.to.empty() || !request.perDecade.empty())
        return refuseOption("--at", "it takes the place of --from, --to and --per-decade: give one or the other.");
    Result<std::vector<double>> listed = readFigureList("--at", request.at, Unit::hertz);
    if (!listed) return listed.error();
    if (listed->size() > mostPoints) return refuseOption("--at", "that is more than 200000 points: ask for fewer.");
    for (double hz : *listed) {
        const Result<double> inside = requireInside("--at", hz, frequencyRange);
        if (!inside) return inside.error();
    }
    return listed;
}

Result<double> endOfGrid(const char* option, const std::string& text, double otherwise) {
    const Result<double> hz = readFigureOr(option, text, Unit::hertz, otherwise);
    if (!hz) return hz.error();
    return requireInside(option, *hz, frequencyRange);
}

}  // namespace

Result<std::vector<double>> frequenciesOf(const Request& request) {
    if (!request.at.empty()) return listedFrequencies(request);
    const Result<double> from = endOfGrid("--from", request.from, lowestHz);
    if (!from) return from.error();
    const Result<double> to = endOfGrid("--to", request.to, highestHz);
    if (!to) return to.error();
    const Result<int> density = readCountOr("--per-decade", request.perDecade, 1, mostPointsPerDecade, pointsPerDecade);
    if (!density) return density.error();
    if (*to < *from)
        return refuseOption(request.from.empty() ? "--to" : "--from",
                            "the lowest frequency must not be above the highest; without the options they are 20 and "
                            "20000 Hz.");
    if (std::log10(*to / *from) * *density > static_cast<double>(mostPoints))
        return refuseOption("--per-decade", "that is more than 200000 points: ask for fewer.");
    return logarithmicGrid(*from, *to, *density);
}

}  // namespace ohmwright
