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
/// Where a wave is tried once more that did not stand still: these steps and twice as many.
constexpr std::size_t lastSteps = 8193;
constexpr double coarser = 10.0;

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

Result<ToneState> settleAtTone(const SolvedCircuit& solved, int output, const Tone& tone, double samplesPerPeriod,
                               int harmonics, double share, const std::stop_token& stop) {
    const SettledTone drive{.toneHz = tone.hz, .voltsPeak = tone.voltsPeak};
    const std::size_t steps = oddSteps(std::clamp(stepsPerSample * samplesPerPeriod, leastSteps, mostFirstSteps));
    Result<SettledState> fine = settleWithin(solved, drive, output, steps, harmonics, stop, share);
    if (fine) return ToneState{*std::move(fine), ""};
    if (fine.error().code != ErrorCode::noConvergence || stop.stop_requested()) return asCircuitFault(fine.error());
    Result<SettledState> coarse = settleWithin(solved, drive, output, lastSteps, harmonics, stop, coarser * share);
    if (!coarse) return asCircuitFault(coarse.error().code == ErrorCode::cancelled ? coarse.error() : fine.error());
    return ToneState{*std::move(coarse),
                     "The wave has edges too steep for the steps in time: what lies some 70 dB under the output may be "
                     "off by a decibel or more."};
}

}  // namespace ohmwright
