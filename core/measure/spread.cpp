// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/spread.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/influence.h"
#include "core/solve/response.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <random>
#include <string>
#include <utility>

namespace ohmwright {

namespace {

/// Deviations that hold 95 % of a normal spread.
constexpr double normal95 = 1.96;
constexpr double lowPercentile = 0.025;
constexpr double highPercentile = 0.975;
/// More builds without a bias than this share are no spread of a working circuit.
constexpr double mostUnsolved = 0.01;

Error overtaken() {
    return {ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
}

/// dB for a unit of relative change, a row a part that differs: S of the definitions.
struct Slopes {
    std::vector<double> gainDb;
    std::vector<std::vector<double>> byPart;  ///< One a part; empty where it has no share.
};

Result<Slopes> slopesAt(const SolvedCircuit& solved, const NetName& net, std::span<const double> hertz,
                        const std::stop_token& stop) {
    auto curves = solveInfluence(*solved.equations, *solved.bias, solved.equations->indexOfNet(net), hertz, stop);
    if (!curves) {
        return curves.error();
    }
    for (std::vector<double>& row : curves->dbPerTenPercent) {
        for (double& slope : row) {
            slope *= 10.0;
        }
    }
    return Slopes{std::move(curves->gainDb), std::move(curves->dbPerTenPercent)};
}

double quickBandOf(const Circuit& circuit, const std::vector<std::vector<double>>& slopes, std::size_t at) {
    double sum = 0.0;
    for (std::size_t part = 0; part < circuit.parts.size(); ++part) {
        if (!slopes[part].empty()) {
            const double deviation = slopes[part][at] * spreadShare(circuit.parts[part]);
            sum += deviation * deviation / 3.0;
        }
    }
    return normal95 * std::sqrt(sum);
}

QuickBand bandFrom(const Circuit& circuit, Slopes slopes, std::span<const double> hertz) {
    QuickBand band{{hertz.begin(), hertz.end()}, std::move(slopes.gainDb), {}};
    for (std::size_t at = 0; at < hertz.size(); ++at) {
        band.bandDb.push_back(quickBandOf(circuit, slopes.byPart, at));
    }
    return band;
}

Slopes difference(Slopes over, const Slopes& under) {
    for (std::size_t at = 0; at < over.gainDb.size(); ++at) {
        over.gainDb[at] -= under.gainDb[at];
    }
    for (std::size_t part = 0; part < over.byPart.size(); ++part) {
        for (std::size_t at = 0; at < over.byPart[part].size(); ++at) {
            over.byPart[part][at] -= under.byPart[part][at];
        }
    }
    return over;
}

/// Builds inside tolerance, one after the other in the same circuit. The numbers are the generator's own bits, because
/// the library's distributions differ between compilers.
class Builds {
public:
    Builds(const Circuit& nominal, std::uint64_t seed) : m_circuit(nominal), m_random(seed) {
        for (Part& part : m_circuit.parts) {
            if (const double share = spreadShare(part); share > 0.0) {
                m_differing.push_back({&part, part.value, share});
            }
        }
    }
    Builds(const Builds&) = delete;
    Builds& operator=(const Builds&) = delete;

    const Circuit& next() {
        for (const Differing& one : m_differing) {
            one.part->value = one.nominal * (1.0 + one.share * (2.0 * uniform() - 1.0));
        }
        return m_circuit;
    }

private:
    struct Differing {
        Part* part;
        double nominal;
        double share;
    };

    /// 0..1, 53 bits.
    double uniform() { return double(m_random() >> 11U) * 0x1p-53; }

    Circuit m_circuit;
    std::vector<Differing> m_differing;
    std::mt19937_64 m_random;
};

/// By linear interpolation between the ordered values.
double percentile(const std::vector<double>& ordered, double share) {
    const double place = share * double(ordered.size() - 1);
    const auto below = std::size_t(place);
    const std::size_t above = std::min(below + 1, ordered.size() - 1);
    return ordered[below] + (place - double(below)) * (ordered[above] - ordered[below]);
}

FigureSpread spreadOf(double nominal, std::vector<double> values) {
    std::erase_if(values, [](double value) { return !std::isfinite(value); });
    if (values.empty()) {
        values.push_back(nominal);
    }
    std::sort(values.begin(), values.end());
    return {nominal, percentile(values, lowPercentile), percentile(values, highPercentile), values.front(),
            values.back()};
}

struct SolvedBuilds {
    std::vector<FigureSpread> figures;
    int builds = 0;
    int unsolved = 0;
};

Result<SolvedBuilds> solveBuilds(const Circuit& circuit, const Setting& setting, const BuildFigures& figures,
                                 const BuildOptions& options, const std::stop_token& stop) {
    const auto nominal = solveCircuit(circuit, setting, stop);
    if (!nominal) {
        return nominal.error();
    }
    const auto atNominal = figures(*nominal);
    if (!atNominal) {
        return atNominal.error();
    }
    std::vector<std::vector<double>> values(atNominal->size());
    SolvedBuilds solved;
    Builds builds(circuit, options.seed);
    std::string lastTrouble;
    for (int build = 0; build < options.builds; ++build) {
        if (stop.stop_requested()) {
            return overtaken();
        }
        auto equations = Equations::compileLike(*nominal->equations, builds.next(), setting);
        if (!equations) {
            return equations.error();
        }
        SolvedCircuit one{std::make_unique<const Equations>(*std::move(equations)), nullptr};
        auto bias = solveBias(*one.equations, nominal->bias.get(), stop);
        auto found = bias ? (one.bias = std::make_unique<const OperatingPoint>(*std::move(bias)), figures(one))
                          : Result<std::vector<double>>(bias.error());
        if (!found) {
            if (found.error().code == ErrorCode::cancelled) {
                return found.error();
            }
            lastTrouble = found.error().message;
            ++solved.unsolved;
            continue;
        }
        for (std::size_t k = 0; k < values.size(); ++k) {
            values[k].push_back((*found)[k]);
        }
        ++solved.builds;
    }
    if (solved.unsolved > mostUnsolved * options.builds) {
        return Error{
            ErrorCode::noConvergence,
            said("%1 of %2 builds inside tolerance have no answer, so there is no spread to give. One of them: %3",
                 solved.unsolved, options.builds, lastTrouble),
            ""};
    }
    for (std::size_t k = 0; k < values.size(); ++k) {
        solved.figures.push_back(spreadOf((*atNominal)[k], std::move(values[k])));
    }
    return solved;
}

}  // namespace

Circuit asMeasured(const Circuit& circuit) {
    Circuit unit = circuit;
    for (Part& part : unit.parts) {
        if (hasValue(part.kind) && part.measured) {
            part.value = *part.measured;
            part.tolerance = meterShare;
        }
    }
    return unit;
}

double spreadShare(const Part& part) {
    if (!hasValue(part.kind)) {
        return 0.0;
    }
    const bool isMeasured = part.measured.has_value() || part.knowledge == Knowledge::measured;
    return isMeasured ? meterShare : part.tolerance;
}

Result<QuickBand> quickBand(const Circuit& circuit, const Setting& setting, std::span<const double> hertz,
                            const std::stop_token& stop) {
    return quickGainBand(circuit, setting, {}, circuit.ports.output, hertz, stop);
}

Result<QuickBand> quickGainBand(const Circuit& circuit, const Setting& setting, const NetName& under,
                                const NetName& over, std::span<const double> hertz, const std::stop_token& stop) {
    const auto solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    for (const NetName& net : {under, over}) {
        if (!net.empty() && solved->equations->indexOfNet(net) < 0) {
            return Error{ErrorCode::invalidInput, said("There is no net \"%1\" in the circuit: choose another.", net),
                         net};
        }
    }
    auto slopes = slopesAt(*solved, over, hertz, stop);
    if (!slopes || under.empty()) {
        return slopes ? Result<QuickBand>(bandFrom(circuit, *std::move(slopes), hertz)) : slopes.error();
    }
    const auto below = slopesAt(*solved, under, hertz, stop);
    if (!below) {
        return below.error();
    }
    return bandFrom(circuit, difference(*std::move(slopes), *below), hertz);
}

Result<TiltBand> quickTiltBand(const Circuit& circuit, const Setting& setting, double overHz, double underHz,
                               const std::stop_token& stop) {
    const auto solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    const std::array<double, 2> hertz{overHz, underHz};
    auto slopes = slopesAt(*solved, circuit.ports.output, hertz, stop);
    if (!slopes) {
        return slopes.error();
    }
    for (std::vector<double>& row : slopes->byPart) {
        if (!row.empty()) {
            row[0] -= row[1];
        }
    }
    return TiltBand{slopes->gainDb[0] - slopes->gainDb[1], quickBandOf(circuit, slopes->byPart, 0)};
}

Result<SampledBand> sampledBand(const Circuit& circuit, const Setting& setting, std::span<const double> hertz,
                                const BuildOptions& options, const std::stop_token& stop) {
    const BuildFigures decibels = [&](const SolvedCircuit& solved) -> Result<std::vector<double>> {
        const auto gains = frequencyResponse(*solved.equations, *solved.bias, {circuit.ports.output}, hertz, stop);
        if (!gains) {
            return gains.error();
        }
        std::vector<double> values;
        for (const std::complex<double> gain : gains->front()) {
            values.push_back(amplitudeDb(std::abs(gain)));
        }
        return values;
    };
    auto solved = solveBuilds(circuit, setting, decibels, options, stop);
    if (!solved) {
        return solved.error();
    }
    SampledBand band;
    band.hertz.assign(hertz.begin(), hertz.end());
    band.builds = solved->builds;
    band.unsolved = solved->unsolved;
    for (const FigureSpread& figure : solved->figures) {
        band.nominalDb.push_back(figure.nominal);
        band.lowDb.push_back(figure.low);
        band.highDb.push_back(figure.high);
        band.bandDb.push_back(figure.band());
    }
    return band;
}

Result<std::vector<FigureSpread>> sampledFigures(const Circuit& circuit, const Setting& setting,
                                                 const BuildFigures& figures, const BuildOptions& options,
                                                 const std::stop_token& stop) {
    auto solved = solveBuilds(circuit, setting, figures, options, stop);
    if (!solved) {
        return solved.error();
    }
    return std::move(solved->figures);
}

ProductSpread spreadOfInverseProduct(std::span<const double> shares) {
    double largest = 1.0;
    double smallest = 1.0;
    double squares = 0.0;
    for (const double share : shares) {
        largest *= 1.0 + share;
        smallest *= 1.0 - share;
        squares += share * share;
    }
    return {1.0 / largest - 1.0, 1.0 / smallest - 1.0, std::sqrt(squares)};
}

}  // namespace ohmwright
