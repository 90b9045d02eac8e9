// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/source_wave.h"

#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

double sineAt(const SourceWave& wave, double seconds) {
    const double phase = wave.degrees * std::numbers::pi / 180.0;
    const double since = seconds - wave.delay;
    if (since <= 0.0) {
        return wave.low + wave.high * std::sin(phase);
    }
    return wave.low +
           wave.high * std::sin(2.0 * std::numbers::pi * wave.hertz * since + phase) * std::exp(-since * wave.damping);
}

double pulseAt(const SourceWave& wave, double seconds) {
    double since = seconds - wave.delay;
    if (since <= 0.0) {
        return wave.low;
    }
    if (wave.period > 0.0) {
        since = std::fmod(since, wave.period);
    }
    if (since < wave.rise) {
        return wave.low + (wave.high - wave.low) * since / wave.rise;
    }
    since -= wave.rise;
    if (since < wave.width) {
        return wave.high;
    }
    since -= wave.width;
    return since < wave.fall ? wave.high + (wave.low - wave.high) * since / wave.fall : wave.low;
}

}  // namespace

double valueAt(const SourceWave& wave, double seconds) {
    return wave.shape == SourceWave::Shape::sine ? sineAt(wave, seconds) : pulseAt(wave, seconds);
}

std::optional<double> firstCornerIn(const SourceWave& wave, double fromSeconds, double toSeconds) {
    std::optional<double> first;
    const auto take = [&](double moment) {
        if (moment >= fromSeconds && moment < toSeconds && (!first || moment < *first)) {
            first = moment;
        }
    };
    if (wave.shape == SourceWave::Shape::sine) {
        if (wave.delay > 0.0) {
            take(wave.delay);
        }
        return first;
    }
    double edge = wave.delay;
    for (const double next : {0.0, wave.rise, wave.width, wave.fall}) {
        edge += next;
        take(edge);
        if (wave.period > 0.0 && toSeconds > edge) {
            // The first recurrence of this edge at or after the beginning of the span.
            const double turns = std::ceil((fromSeconds - edge) / wave.period);
            if (turns >= 0.0) {
                take(edge + turns * wave.period);
            }
        }
    }
    return first;
}

std::optional<double> periodOf(const SourceWave& wave) {
    if (wave.high == (wave.shape == SourceWave::Shape::sine ? 0.0 : wave.low)) {
        return 0.0;
    }
    if (wave.shape == SourceWave::Shape::sine) {
        return wave.hertz > 0.0 && wave.damping == 0.0 ? std::optional(1.0 / wave.hertz) : std::nullopt;
    }
    return wave.period > 0.0 ? std::optional(wave.period) : std::nullopt;
}

}  // namespace ohmwright
