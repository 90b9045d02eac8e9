// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/settled_tone.h"

#include <algorithm>
#include <cmath>

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

/// The period is sought by all that remembers: each step carries every charge's share in every other.
Error outOfTime(const SolvedCircuit& solved) {
    return {
        ErrorCode::unsolvable,
        "The settled wave was not found in time: the circuit has " +
            std::to_string(solved.equations->chargeBranches().size()) +
            " capacitances and inductances, those inside devices among them. Ask for the wave with waveform --cold, "
            "or for a part of the circuit.",
        ""};
}

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

std::string unsteadyNote(double steadyAboveDb) {
    return "The wave has edges too steep for the steps in time: what lies " +
           std::to_string(std::max(0L, std::lround(std::floor(-steadyAboveDb)))) +
           " dB or more under the output may be off by a decibel or more.";
}

Result<ToneState> settleAtTone(const SolvedCircuit& solved, int output, const Tone& tone, double samplesPerPeriod,
                               int harmonics, double share, const std::stop_token& stop) {
    const SettledTone drive{.toneHz = tone.hz, .voltsPeak = tone.voltsPeak};
    const std::size_t steps = oddSteps(std::clamp(stepsPerSample * samplesPerPeriod, leastSteps, mostFirstSteps));
    Result<SettledWave> wave = settleWithin(solved, drive, output, steps, harmonics, stop, share);
    if (!wave) {
        const Error fine = wave.error();
        if (fine.code == ErrorCode::cancelled) return outOfTime(solved);
        if (fine.code != ErrorCode::noConvergence || stop.stop_requested()) return asCircuitFault(fine);
        wave = settleWithin(solved, drive, output, lastSteps, harmonics, stop, coarser * share);
        if (!wave) return wave.error().code == ErrorCode::cancelled ? outOfTime(solved) : asCircuitFault(fine);
    }
    ToneState state{*std::move(wave), ""};
    if (state.settled.unsteadyShare > share) state.note = unsteadyNote(state.settled.steadyAboveDb());
    return state;
}

}  // namespace ohmwright
