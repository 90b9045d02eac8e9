// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/settled_tone.h"

#include "core/measure/settled_wave.h"

#include <algorithm>

namespace ohmwright {

namespace {

/// Fine enough that four-point interpolation between the steps adds less than 1e-6 of the 9th harmonic.
constexpr double leastSteps = 1025.0;
/// The steps are doubled from here on where the wave asks for it.
constexpr double mostFirstSteps = 2049.0;
constexpr double stepsPerSample = 4.0;

}  // namespace

Result<Tone> toneOf(const Request& request) {
    const Result<double> hz = readFigure("--tone", request.tone, Unit::hertz);
    if (!hz) return hz.error();
    const Result<double> level = readFigure("--level", request.level, Unit::volt);
    if (!level) return level.error();
    const Result<double> toneInside = requireInside("--tone", *hz, toneRange);
    if (!toneInside) return toneInside.error();
    const Result<double> levelInside = requireInside("--level", *level, levelRange);
    if (!levelInside) return levelInside.error();
    return Tone{*hz, *level};
}

Result<SettledState> settleAtTone(const SolvedCircuit& solved, int output, const Tone& tone, double samplesPerPeriod,
                                  int harmonics, double share, const std::stop_token& stop) {
    const std::size_t steps = oddSteps(std::clamp(stepsPerSample * samplesPerPeriod, leastSteps, mostFirstSteps));
    Result<SettledState> state =
        settleWithin(solved, {.toneHz = tone.hz, .voltsPeak = tone.voltsPeak}, output, steps, harmonics, stop, share);
    if (!state) return asCircuitFault(state.error());
    return state;
}

}  // namespace ohmwright
