// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/noise.h"

#include "core/base/said.h"
#include "core/solve/adjoint.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr std::size_t lanes = Adjoint::lanes;

/// A source and where its part's power is summed, by frequency.
struct Contribution {
    NoiseSource source;
    double* byFrequency;
};

/// Adds what every source does at one batch of frequencies, which begins at `at`.
OHMWRIGHT_FOR_WIDE_VECTORS
void addPowers(const std::vector<Contribution>& contributions, const ComplexLanes* adjoint, const RealLanes& perHertz,
               std::size_t at, RealLanes& total) {
    // Sums of their own: for all the compiler knows, a part's row lies in the total.
    RealLanes sum = total;
    for (const auto& [source, byFrequency] : contributions) {
        const ComplexLanes& plus = adjoint[source.plus];
        const ComplexLanes& minus = adjoint[source.minus];
        RealLanes power;
        for (std::size_t k = 0; k < lanes; ++k) {
            const double re = plus.re[k] - minus.re[k];
            const double im = plus.im[k] - minus.im[k];
            power[k] = (re * re + im * im) * (source.density.white + source.density.flicker * perHertz[k]);
        }
        for (std::size_t k = 0; k < lanes; ++k) {
            sum[k] += power[k];
        }
        double* ofPart = byFrequency + at;
        for (std::size_t k = 0; k < lanes; ++k) {
            ofPart[k] += power[k];
        }
    }
    total = sum;
}

}  // namespace

Result<NoiseCurve> solveNoise(const Equations& equations, const OperatingPoint& bias, int output,
                              std::span<const double> hertz, const std::stop_token& stop) {
    const std::vector<NoiseSource> sources = equations.noiseSources(bias.state);
    const bool flickers = std::any_of(sources.begin(), sources.end(),
                                      [](const NoiseSource& source) { return source.density.flicker > 0.0; });
    NoiseCurve curve;
    curve.hertz.assign(hertz.begin(), hertz.end());
    curve.output.resize(hertz.size());
    curve.gain.resize(hertz.size());
    curve.byPart.resize(equations.partIds().size());
    // Rows hold whole batches until the end.
    const std::size_t batches = (hertz.size() + lanes - 1) / lanes;
    std::vector<Contribution> contributions;
    for (const NoiseSource& source : sources) {
        std::vector<double>& row = curve.byPart[std::size_t(source.part)];
        row.resize(batches * lanes, 0.0);
        contributions.push_back({source, row.data()});
    }

    Adjoint adjoint(equations, bias, {output, equations.size()});
    for (std::size_t at = 0; at < hertz.size(); at += lanes) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        const auto batch = hertz.subspan(at, std::min(lanes, hertz.size() - at));
        if (auto solved = adjoint.solveAt(batch, false); !solved) {
            return solved.error();
        }
        if (flickers && std::any_of(batch.begin(), batch.end(), [](double f) { return !(f > 0.0); })) {
            return Error{ErrorCode::invalidInput,
                         said("Flicker noise grows without end towards 0 Hz: ask for noise above it."), ""};
        }
        RealLanes perHertz{}, total{};
        for (std::size_t k = 0; k < batch.size(); ++k) {
            perHertz[k] = batch[k] > 0.0 ? 1.0 / batch[k] : 0.0;
        }
        addPowers(contributions, adjoint.adjoint().data(), perHertz, at, total);
        for (std::size_t k = 0; k < batch.size(); ++k) {
            curve.output[at + k] = std::sqrt(total[k]);
            curve.gain[at + k] = std::sqrt(std::norm(adjoint.gain(k)));
        }
    }
    for (const NoiseSource& source : sources) {
        curve.byPart[std::size_t(source.part)].resize(hertz.size());
    }
    return curve;
}

double noiseVoltsRms(const NoiseCurve& curve, double fromHz, double toHz) {
    double power = 0.0;
    for (std::size_t k = 0; k + 1 < curve.hertz.size(); ++k) {
        const double left = curve.hertz[k];
        const double right = curve.hertz[k + 1];
        const double from = std::max(fromHz, left);
        const double to = std::min(toHz, right);
        if (!(to > from)) {
            continue;
        }
        const double atLeft = curve.output[k] * curve.output[k];
        const double atRight = curve.output[k + 1] * curve.output[k + 1];
        const auto density = [&](double hertz) {
            return atLeft + (atRight - atLeft) * (hertz - left) / (right - left);
        };
        power += 0.5 * (density(from) + density(to)) * (to - from);
    }
    return std::sqrt(power);
}

}  // namespace ohmwright
