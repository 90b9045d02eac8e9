// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/base/decibels.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/wave.h"
#include "core/solve/settled.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace ohmwright {

namespace {

constexpr double lowestToneHz = 0.1;
constexpr double highestToneHz = 100e3;
constexpr double highestVoltsPeak = 1000.0;
constexpr double defaultRateHz = 48000.0;
constexpr double defaultSamplesPerPeriod = 256.0;
constexpr int mostPeriods = 100000;
/// Some seconds of stepping in time, tens of megabytes of text.
constexpr double mostSamples = 1e6;
constexpr int defaultHarmonics = 9;
constexpr int mostHarmonics = 200;
/// Fine enough that four-point interpolation between the steps adds less than 1e-6 of the 9th harmonic.
constexpr double leastSteps = 1025.0;
constexpr double mostSteps = 16385.0;
constexpr double degreesPerRadian = 180.0 / std::numbers::pi;

Error refuse(const std::string& option, const std::string& sentence) {
    return {ErrorCode::invalidInput, option + ": " + sentence, option};
}

struct Tone {
    double hz = 0.0;
    double voltsPeak = 0.0;
};

Result<Tone> toneOf(const Request& request) {
    const Result<double> hz = readFigure("--tone", request.tone, Unit::hertz);
    if (!hz) return hz.error();
    const Result<double> level = readFigure("--level", request.level, Unit::volt);
    if (!level) return level.error();
    if (!(*hz >= lowestToneHz && *hz <= highestToneHz)) return refuse("--tone", "choose 0.1 Hz to 100 kHz.");
    if (!(*level >= 0.0 && *level <= highestVoltsPeak)) return refuse("--level", "choose 0 to 1000 V peak.");
    return Tone{*hz, *level};
}

std::size_t oddSteps(double wanted) {
    const auto steps = static_cast<std::size_t>(std::ceil(std::clamp(wanted, leastSteps, mostSteps)));
    return steps | 1U;
}

Result<SettledState> settledState(const SolvedCircuit& solved, const Tone& tone, std::size_t steps,
                                  const std::stop_token& stop) {
    Result<SettledSolver> solver = SettledSolver::make(*solved.equations, *solved.bias, tone.hz, steps);
    if (!solver) return solver.error();
    return solver->solve(tone.voltsPeak, stop);
}

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
    if (!(*rate > 0.0)) return refuse("--rate", "must be above 0 Hz.");
    const Result<int> periods = readCountOr("--periods", request.periods, 1, mostPeriods, 1);
    if (!periods) return periods.error();
    const double samples = *periods * *rate / tone.hz;
    if (samples > mostSamples) return refuse("--rate", "that is more than 1000000 samples: ask for fewer.");
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

double sourceDc(const Circuit& circuit) {
    const Part* source = findPart(circuit, circuit.ports.source);
    return source == nullptr ? 0.0 : source->value;
}

/// The output's index among the unknowns.
Result<int> outputOf(const PreparedJob& prepared, const SolvedCircuit& solved) {
    const int output = solved.equations->indexOfNet(prepared.circuit.ports.output);
    if (output >= 0) return output;
    return Error{
        ErrorCode::invalidInput,
        "The output net “" + prepared.circuit.ports.output + "” is not in the circuit: name one with --output.",
        prepared.circuit.ports.output};
}

Result<Table> settledTable(const SolvedCircuit& solved, int output, const Tone& tone, const Sampling& sampling,
                           double dcVolts, const std::stop_token& stop) {
    constexpr double stepsPerSample = 4.0;
    const Result<SettledState> state =
        settledState(solved, tone, oddSteps(stepsPerSample * sampling.rateHz / tone.hz), stop);
    if (!state) return state.error();
    const std::vector<double> wave = state->wave(output);
    Table table{{"time_s", "input_v", "output_v"}, {}};
    for (std::size_t k = 0; k < sampling.count; ++k) {
        const double share = sampling.seconds(k) * tone.hz;
        const double input = dcVolts + tone.voltsPeak * std::sin(2.0 * std::numbers::pi * (share - std::floor(share)));
        table.rows.push_back({sampling.seconds(k), input, waveAt(wave, share)});
    }
    return table;
}

Result<Table> coldTable(const SolvedCircuit& solved, int output, const Tone& tone, const Sampling& sampling,
                        const std::stop_token& stop) {
    const Result<ColdWave> wave = coldWave(*solved.equations, *solved.bias, tone.hz, tone.voltsPeak,
                                           sampling.periods / tone.hz, sampling.rateHz, output, stop);
    if (!wave) return wave.error();
    Table table{{"time_s", "input_v", "output_v"}, {}};
    const std::size_t count = std::min(sampling.count, wave->seconds.size());  // Without the first of the next period.
    for (std::size_t k = 0; k < count; ++k)
        table.rows.push_back({wave->seconds[k], wave->inputVolts[k], wave->outputVolts[k]});
    return table;
}

}  // namespace

Result<Answer> answerWaveform(const PreparedJob& prepared, const Request& request, const std::stop_token& stop) {
    const Result<Tone> tone = toneOf(request);
    if (!tone) return tone.error();
    const Result<Sampling> sampling = samplingOf(request, *tone);
    if (!sampling) return sampling.error();
    const Result<SolvedCircuit> solved = solveCircuit(prepared.circuit, prepared.job.setting, stop);
    if (!solved) return solved.error();
    const Result<int> output = outputOf(prepared, *solved);
    if (!output) return output.error();
    Result<Table> table = request.cold
                              ? coldTable(*solved, *output, *tone, *sampling, stop)
                              : settledTable(*solved, *output, *tone, *sampling, sourceDc(prepared.circuit), stop);
    if (!table) return table.error();
    return Answer{{*std::move(table)}, {}};
}

Result<Answer> answerHarmonics(const PreparedJob& prepared, const Request& request, const std::stop_token& stop) {
    const Result<Tone> tone = toneOf(request);
    if (!tone) return tone.error();
    const Result<int> count = readCountOr("--count", request.count, 1, mostHarmonics, defaultHarmonics);
    if (!count) return count.error();
    if (tone->voltsPeak == 0.0) return refuse("--level", "a tone of 0 V has no harmonics: give a level above 0.");
    const Result<SolvedCircuit> solved = solveCircuit(prepared.circuit, prepared.job.setting, stop);
    if (!solved) return solved.error();
    const Result<int> output = outputOf(prepared, *solved);
    if (!output) return output.error();
    constexpr double stepsPerHighest = 64.0;
    const std::size_t steps = oddSteps(stepsPerHighest * *count);
    const Result<SettledState> state = settledState(*solved, *tone, steps, stop);
    if (!state) return state.error();
    const std::vector<double> wave = state->wave(*output);
    if (alternatingRms(wave) < silentVoltsRms)
        return Error{ErrorCode::unsolvable,
                     "No signal reaches the output, so it has no harmonics: look for an open leg.", ""};
    const std::vector<std::complex<double>> harmonics = harmonicsOf(wave, *count, 1.0 / static_cast<double>(steps));
    Table table{{"harmonic", "amplitude_v_peak", "level_db_re_fundamental", "phase_deg"}, {}};
    for (int n = 1; n <= *count; ++n) {
        const std::complex<double> harmonic = harmonics[static_cast<std::size_t>(n)];
        table.rows.push_back({static_cast<double>(n), std::abs(harmonic),
                              amplitudeDb(std::abs(harmonic) / std::abs(harmonics[1])),
                              std::arg(harmonic) * degreesPerRadian});
    }
    return Answer{{table}, {{"thd_percent", 100.0 * totalHarmonicDistortion(harmonics)}}};
}

}  // namespace ohmwright
