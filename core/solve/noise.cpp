// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/noise.h"

#include "core/solve/adjoint.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// |transfer|^2 from one noise current to the output.
std::array<double, Adjoint::lanes> powerGain(const ComplexLanes& plus, const ComplexLanes& minus) {
    std::array<double, Adjoint::lanes> power;
    for (std::size_t k = 0; k < power.size(); ++k) {
        const double re = plus.re[k] - minus.re[k];
        const double im = plus.im[k] - minus.im[k];
        power[k] = re * re + im * im;
    }
    return power;
}

}  // namespace

Result<NoiseCurve> solveNoise(const Equations& equations, const OperatingPoint& bias, int output,
                              std::span<const double> hertz, const std::stop_token& stop) {
    constexpr std::size_t lanes = Adjoint::lanes;
    const std::vector<NoiseSource> sources = equations.noiseSources(bias.state);
    const bool flickers = std::any_of(sources.begin(), sources.end(),
                                      [](const NoiseSource& source) { return source.density.flicker > 0.0; });
    NoiseCurve curve;
    curve.hertz.assign(hertz.begin(), hertz.end());
    curve.output.resize(hertz.size());
    curve.gain.resize(hertz.size());
    curve.byPart.resize(equations.partIds().size());
    for (const NoiseSource& source : sources) {
        curve.byPart[std::size_t(source.part)].resize(hertz.size(), 0.0);
    }

    Adjoint adjoint(equations, bias, {output, equations.size()});
    for (std::size_t at = 0; at < hertz.size(); at += lanes) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, "The solve was overtaken by a newer one.", ""};
        }
        const auto batch = hertz.subspan(at, std::min(lanes, hertz.size() - at));
        if (auto solved = adjoint.solveAt(batch, false); !solved) {
            return solved.error();
        }
        if (flickers && std::any_of(batch.begin(), batch.end(), [](double f) { return !(f > 0.0); })) {
            return Error{ErrorCode::invalidInput,
                         "Flicker noise grows without end towards 0 Hz: ask for noise above it.", ""};
        }
        std::array<double, lanes> perHertz{}, total{};
        for (std::size_t k = 0; k < batch.size(); ++k) {
            perHertz[k] = batch[k] > 0.0 ? 1.0 / batch[k] : 0.0;
        }
        for (const NoiseSource& source : sources) {
            const auto gain =
                powerGain(adjoint.adjoint()[std::size_t(source.plus)], adjoint.adjoint()[std::size_t(source.minus)]);
            double* byPart = curve.byPart[std::size_t(source.part)].data() + at;
            std::array<double, lanes> power;
            for (std::size_t k = 0; k < lanes; ++k) {
                power[k] = gain[k] * (source.density.white + source.density.flicker * perHertz[k]);
                total[k] += power[k];
            }
            for (std::size_t k = 0; k < batch.size(); ++k) {
                byPart[k] += power[k];
            }
        }
        for (std::size_t k = 0; k < batch.size(); ++k) {
            curve.output[at + k] = std::sqrt(total[k]);
            curve.gain[at + k] = std::sqrt(std::norm(adjoint.gain(k)));
        }
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
