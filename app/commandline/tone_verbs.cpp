// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/settled_tone.h"
#include "app/commandline/verbs.h"
#include "core/base/decibels.h"
#include "core/base/value_text.h"
#include "core/measure/wave.h"
#include "core/solve/cold_wave.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <utility>

namespace ohmwright {

namespace {

constexpr double defaultRateHz = 48000.0;
constexpr double defaultSamplesPerPeriod = 256.0;
constexpr FigureRange rateRange{1e-3, 1e13, "a rate from 0.001 to 1e13 samples a second"};
constexpr int mostPeriods = 1000000;
/// Some seconds of stepping in time, a few hundred megabytes of rows and text.
constexpr double mostSamples = 1e6;
/// From cold every step inside a period is made, 256 of them at least.
constexpr double mostColdSteps = 20e6;
constexpr int coldRefinement = 4;
constexpr double quickColdSteps = 400e3;
constexpr int defaultHarmonics = 9;
/// That a printed wave is judged by.
constexpr int waveHarmonics = 12;
constexpr int mostHarmonics = 200;
/// A fundamental this far under the wave is what rounding leaves of none.
constexpr double silentShare = 1e-9;
/// Level of what is nothing beside the fundamental: the arithmetic itself ends at some -300 dB.
constexpr double lowestDb = -400.0;
constexpr double degreesPerRadian = 180.0 / std::numbers::pi;

/// When the samples are taken, and how many.
struct Sampling {
    double rateHz = 0.0;
    int periods = 1;
    std::size_t count = 0;

    [[nodiscard]] double seconds(std::size_t k) const { return static_cast<double>(k) / rateHz; }
};

Result<Sampling> samplingOf(const Request& request, const Tone& tone) {
    Sampling sampling;
    const double finer = std::max(defaultRateHz, defaultSamplesPerPeriod * tone.hz);
    const Result<double> rate = readFigureOr("--rate", request.rate, Unit::hertz, finer);
    if (!rate) return rate.error();
    const Result<double> inside = requireInside("--rate", *rate, rateRange);
    if (!inside) return inside.error();
    const Result<int> periods = readCountOr("--periods", request.periods, 1, mostPeriods, 1);
    if (!periods) return periods.error();
    const double samples = *periods * *rate / tone.hz;
    if (samples > mostSamples)
        return refuseOption("--rate",
                            "that is more than 1000000 samples: ask for fewer a second or for fewer periods.");
    if (request.cold && *periods * std::max(*rate / tone.hz, defaultSamplesPerPeriod) > mostColdSteps)
        return refuseOption("--periods",
                            "that takes too long from cold, at 256 steps a period or more: ask for fewer.");
    sampling.rateHz = *rate;
    sampling.periods = *periods;
    // A whole number of samples a period stays whole in spite of rounding.
    sampling.count = std::max<std::size_t>(1, static_cast<std::size_t>(std::ceil(samples - 1e-6)));
    return sampling;
}

/// The periodic wave at any place of its period, by the cubic through the four samples around it.
/// @param share  place in periods, >= 0; sample k lies at (k + 1)/size.
double waveAt(const std::vector<double>& wave, double share) {
    const auto size = static_cast<double>(wave.size());
    const double place = (share - std::floor(share)) * size - 1.0;
    const double below = std::floor(place);
    const double u = place - below;
    const auto sample = [&wave, below, size](double offset) {
        return wave[static_cast<std::size_t>(std::fmod(below + offset + 2.0 * size, size))];
    };
    const double a = sample(-1.0), b = sample(0.0), c = sample(1.0), d = sample(2.0);
    return -u * (u - 1.0) * (u - 2.0) / 6.0 * a + (u + 1.0) * (u - 1.0) * (u - 2.0) / 2.0 * b -
           (u + 1.0) * u * (u - 2.0) / 2.0 * c + (u + 1.0) * u * (u - 1.0) / 6.0 * d;
}

double sourceDc(const PreparedCircuit& prepared) {
    const Part* source = inputSource(prepared);
    return source == nullptr ? 0.0 : source->value;
}

Answer emptyWave(const Sampling& sampling) {
    Answer answer;
    answer.tables.push_back({{"time_s", "input_v", "output_v"}, {}});
    answer.tables.front().rows.reserve(sampling.count);
    return answer;
}

Result<Answer> settledWave(const SolvedCircuit& solved, int output, const Tone& tone, const Sampling& sampling,
                           double dcVolts, const std::stop_token& stop) {
    const Result<ToneState> state =
        settleAtTone(solved, output, tone, sampling.rateHz / tone.hz, waveHarmonics, stillWave, stop);
    if (!state) return state.error();
    const std::vector<double> wave = state->settled.wave(output);
    Answer answer = emptyWave(sampling);
    for (std::size_t k = 0; k < sampling.count; ++k) {
        const double share = sampling.seconds(k) * tone.hz;
        const double input = dcVolts + tone.voltsPeak * std::sin(2.0 * std::numbers::pi * (share - std::floor(share)));
        answer.tables.front().rows.push_back({sampling.seconds(k), input, waveAt(wave, share)});
    }
    if (!state->note.empty()) answer.notes.push_back(state->note);
    return answer;
}

/// Steps for each sample from cold: so many that there are some 1,024 a period, where that is quickly done.
int stepsPerColdSample(const Sampling& sampling, const Tone& tone) {
    const double perPeriod = std::max(sampling.rateHz / tone.hz, defaultSamplesPerPeriod);
    const bool isQuick = coldRefinement * perPeriod * sampling.periods <= quickColdSteps;
    return isQuick && perPeriod < coldRefinement * defaultSamplesPerPeriod ? coldRefinement : 1;
}

Result<Answer> waveFromCold(const SolvedCircuit& solved, int output, const Tone& tone, const Sampling& sampling,
                            double dcVolts, const std::stop_token& stop) {
    const int steps = stepsPerColdSample(sampling, tone);
    const Result<ColdWave> wave = coldWave(*solved.equations, *solved.bias, tone.hz, tone.voltsPeak,
                                           sampling.periods / tone.hz, sampling.rateHz * steps, output, stop);
    if (!wave) return asCircuitFault(wave.error());
    Answer answer = emptyWave(sampling);
    const auto stride = static_cast<std::size_t>(steps);
    // Without the first of the next period.
    const std::size_t count = std::min(sampling.count, (wave->seconds.size() + stride - 1) / stride);
    for (std::size_t k = 0; k < count; ++k)
        answer.tables.front().rows.push_back(
            {sampling.seconds(k), dcVolts + wave->inputVolts[k * stride], wave->outputVolts[k * stride]});
    return answer;
}

/// Why there are no harmonics of a wave: none at all, or none at the tone itself.
Error noFundamental(const PreparedCircuit& prepared, const Tone& tone, double voltsRms) {
    if (voltsRms < silentVoltsRms) return silentOutput(prepared, " that could be told from rounding");
    return {ErrorCode::unsolvable,
            "The output net " + prepared.circuit.ports.output + " has nothing at the tone of " +
                formatQuantity({tone.hz, Unit::hertz}) +
                " itself, so its harmonics have no level against it: see the wave with waveform.",
            prepared.circuit.ports.output};
}

double levelDb(double amplitude, double fundamental) {
    return amplitude > 0.0 ? std::max(amplitudeDb(amplitude / fundamental), lowestDb) : lowestDb;
}

}  // namespace

Result<Answer> answerWaveform(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<Tone> tone = toneOf(request);
    if (!tone) return tone.error();
    const Result<Sampling> sampling = samplingOf(request, *tone);
    if (!sampling) return sampling.error();
    const Result<SolvedCircuit> solved = solveBetweenEnds(prepared, stop);
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    const double dcVolts = sourceDc(prepared);
    return request.cold ? waveFromCold(*solved, *output, *tone, *sampling, dcVolts, stop)
                        : settledWave(*solved, *output, *tone, *sampling, dcVolts, stop);
}

Result<Answer> answerHarmonics(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<Tone> tone = toneOf(request);
    if (!tone) return tone.error();
    const Result<int> count = readCountOr("--count", request.count, 1, mostHarmonics, defaultHarmonics);
    if (!count) return count.error();
    if (tone->voltsPeak == 0.0) return refuseOption("--level", "a tone of 0 V has no harmonics: give a level above 0.");
    const Result<SolvedCircuit> solved = solveBetweenEnds(prepared, stop);
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    constexpr double samplesPerHighest = 16.0;
    const Result<ToneState> state =
        settleAtTone(*solved, *output, *tone, samplesPerHighest * *count, *count, stillHarmonics, stop);
    if (!state) return state.error();
    const std::vector<double> wave = state->settled.wave(*output);
    const std::vector<std::complex<double>> harmonics =
        harmonicsOf(wave, *count, 1.0 / static_cast<double>(state->settled.steps));
    const double fundamental = std::abs(harmonics[1]);
    const double voltsRms = alternatingRms(wave);
    if (voltsRms < silentVoltsRms || fundamental < silentShare * voltsRms)
        return noFundamental(prepared, *tone, voltsRms);
    Table table{{"harmonic", "amplitude_v_peak", "level_db_re_fundamental", "phase_deg"}, {}};
    for (int n = 1; n <= *count; ++n) {
        const std::complex<double> harmonic = harmonics[static_cast<std::size_t>(n)];
        table.rows.push_back({static_cast<double>(n), std::abs(harmonic), levelDb(std::abs(harmonic), fundamental),
                              std::arg(harmonic) * degreesPerRadian});
    }
    Answer answer{{table}, {{"thd_percent", 100.0 * totalHarmonicDistortion(harmonics)}}};
    if (!state->note.empty()) answer.notes.push_back(state->note);
    return answer;
}

}  // namespace ohmwright
