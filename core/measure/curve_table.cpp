// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/curve_table.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/curve_read.h"
#include "core/measure/ladder.h"
#include "core/measure/settled_wave.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/wave.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace ohmwright {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr double nano = 1e-9;
constexpr double milli = 1e-3;

/// As the figures of the player's level have them (large_signal.cpp).
constexpr std::size_t firstSteps = 257;
constexpr double harmonicShare = 1e-5;
/// Harmonics under this are the solver's own rounding [dB of the fundamental].
constexpr double faintestDb = -90.0;

constexpr double lowestHz = 20.0;
constexpr double highestHz = 20000.0;
constexpr int noisePointsPerDecade = 25;

CurveTable tableOf(CurveKind kind, const NetName& where, std::vector<CurveColumn> columns) {
    CurveTable table;
    table.kind = kind;
    table.where = where;
    table.columns = std::move(columns);
    return table;
}

Result<CurveTable> responseTable(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    Result<LinearState> state = measureLinear(circuit, setting, {}, stop);
    if (!state) {
        return state.error();
    }
    return tableOfResponse(std::move(state->response), circuit.ports.output);
}

Result<CurveTable> biasTable(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    const Result<LinearState> state = measureLinear(circuit, setting, {.pointsPerDecade = 1}, stop);
    if (!state) {
        return state.error();
    }
    CurveTable table = tableOf(CurveKind::bias, {}, {{"bias_v", said("no signal"), "V", {}}});
    for (const auto& [net, volts] : state->biasVolts) {
        table.rows.push_back(net);
        table.columns.front().values.push_back(volts);
    }
    return table;
}

Result<CurveTable> clipTable(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    Result<LargeSignalState> state = measureLargeSignal(circuit, setting, {.withThresholds = false}, stop);
    if (!state) {
        return state.error();
    }
    return tableOfClip(std::move(state->clip), circuit.ports.clipNode);
}

/// The ladder's rungs and the player's own level among them, so that what is read there is solved there.
std::vector<double> levelsThrough(double playerVolts) {
    std::vector<double> levels = ladderLevels(lowestLadderVolts, highestLadderVolts, ladderRungs);
    const auto above = std::lower_bound(levels.begin(), levels.end(), playerVolts);
    if (playerVolts > levels.front() && above != levels.end() && *above != playerVolts) {
        levels.insert(above, playerVolts);
    }
    return levels;
}

Result<CurveTable> ladderTable(const SolvedCircuit& solved, const Circuit& circuit, const Setting& setting,
                               const std::stop_token& stop) {
    const int output = solved.equations->indexOfNet(circuit.ports.output);
    const std::vector<double> levels = levelsThrough(setting.pickVoltsPeak);
    const Result<LevelLadder> ladder = measureLadder(solved, output, setting.toneHz, levels, firstSteps, stop);
    if (!ladder) {
        return ladder.error();
    }
    CurveTable table = tableOf(CurveKind::ladder, circuit.ports.output,
                               {{"pick_v_peak", said("pick level"), "Vpk", levels},
                                {"output_dbv", said("output"), "dBV", {}},
                                {"slope_db_per_db", said("slope"), toSay("dB per dB"), {}}});
    for (const LadderRung& rung : ladder->rungs) {
        const bool isThere = rung.reading && rung.reading->outputVoltsRms >= silentVoltsRms;
        table.columns[1].values.push_back(isThere ? dbv(rung.reading->outputVoltsRms) : none);
        table.columns[2].values.push_back(isThere ? rung.reading->slope.value_or(none) : none);
    }
    table.trouble = ladder->firstTrouble;
    return table;
}

Result<SettledWave> playersWave(const SolvedCircuit& solved, const Setting& setting, int output,
                                const std::stop_token& stop) {
    return settleWithin(solved, {setting.toneHz, setting.pickVoltsPeak, {}}, output, firstSteps, shownHarmonics, stop,
                        harmonicShare);
}

CurveTable harmonicTable(const SettledWave& settled, const Circuit& circuit, int output) {
    const std::vector<double> wave = settled.wave(output);
    const auto harmonics = harmonicsOf(wave, shownHarmonics, 1.0 / static_cast<double>(wave.size()));
    const double fundamental = std::abs(harmonics[1]);
    const bool isSilent = alternatingRms(wave) < silentVoltsRms;
    CurveTable table = tableOf(CurveKind::harmonics, circuit.ports.output,
                               {{"harmonic", said("harmonic"), "", {}},
                                {"level_db_re_fundamental", said("level"), toSay("dB of the fundamental"), {}}});
    // What finer steps may still move is no figure.
    const double overFundamental = amplitudeDb(alternatingRms(wave) / fundamental);
    const bool isUnsteady = settled.unsteadyShare > harmonicShare;
    const double faintest =
        isUnsteady ? std::clamp(std::ceil(settled.steadyAboveDb() + overFundamental), faintestDb, 0.0) : faintestDb;
    for (std::size_t n = 1; n <= shownHarmonics; ++n) {
        const double level = amplitudeDb(std::abs(harmonics[n]) / fundamental);
        table.columns[0].values.push_back(static_cast<double>(n));
        table.columns[1].values.push_back(!isSilent && level >= faintest ? level : none);
    }
    if (isSilent) {
        table.trouble = said("No signal arrives at the output.");
    }
    return table;
}

/// One period, first sample at a rising zero of the pickup's voltage.
CurveTable waveTable(const SettledWave& settled, const SolvedCircuit& solved, const Circuit& circuit, int output) {
    std::vector<double> volts = settled.wave(output);
    const double rest = solved.biasVolts(circuit.ports.output);
    const double period = 1.0 / settled.toneHz;
    const auto steps = static_cast<double>(volts.size());
    std::vector<double> time;
    std::vector<double> input;
    for (std::size_t k = 0; k < volts.size(); ++k) {
        // Settled samples begin one step in.
        const double share = static_cast<double>(k + 1) / steps;
        time.push_back(share * period / milli);
        input.push_back(settled.inputVoltsPeak * std::sin(2.0 * std::numbers::pi * share));
        volts[k] -= rest;
    }
    return tableOf(CurveKind::wave, circuit.ports.output,
                   {{"time_ms", said("time"), "ms", std::move(time)},
                    {"output_v", said("output"), "V", std::move(volts)},
                    {"pickup_v", said("pickup"), "V", std::move(input)}});
}

Result<CurveTable> toneTable(CurveKind kind, const SolvedCircuit& solved, const Circuit& circuit,
                             const Setting& setting, const std::stop_token& stop) {
    const int output = solved.equations->indexOfNet(circuit.ports.output);
    const Result<SettledWave> settled = playersWave(solved, setting, output, stop);
    if (!settled) {
        return settled.error();
    }
    return kind == CurveKind::harmonics ? harmonicTable(*settled, circuit, output)
                                        : waveTable(*settled, solved, circuit, output);
}

Result<CurveTable> noiseTable(const SolvedCircuit& solved, const Circuit& circuit, const std::stop_token& stop) {
    const std::vector<double> hertz = logarithmicGrid(lowestHz, highestHz, noisePointsPerDecade);
    const int output = solved.equations->indexOfNet(circuit.ports.output);
    const Result<NoiseCurve> noise = solveNoise(*solved.equations, *solved.bias, output, hertz, stop);
    if (!noise) {
        return noise.error();
    }
    CurveTable table = tableOf(CurveKind::noise, circuit.ports.output,
                               {{"frequency_hz", said("frequency"), "Hz", hertz},
                                {"output_nv_per_rthz", said("at the output"), "nV/√Hz", {}},
                                {"input_nv_per_rthz", said("referred to the pickup"), "nV/√Hz", {}}});
    for (std::size_t k = 0; k < hertz.size(); ++k) {
        table.columns[1].values.push_back(noise->output[k] / nano);
        const double referred = noise->inputReferred(k) / nano;
        table.columns[2].values.push_back(noise->gain[k] > 0.0 && std::isfinite(referred) ? referred : none);
    }
    return table;
}

}  // namespace

CurveTable tableOfClip(ClipCurve curve, const NetName& clipNode) {
    CurveTable table = tableOf(CurveKind::clip, clipNode,
                               {{"pick_v_peak", said("pick level"), "Vpk", std::move(curve.pickVoltsPeak)},
                                {"peak_positive_v", said("peak +"), "V", std::move(curve.positiveVolts)},
                                {"peak_negative_v", said("peak −"), "V", std::move(curve.negativeVolts)}});
    table.trouble = std::move(curve.trouble);
    return table;
}

Result<CurveTable> measureCurve(CurveKind kind, const Circuit& circuit, const Setting& setting,
                                const std::stop_token& stop) {
    if (kind == CurveKind::response) {
        return responseTable(circuit, setting, stop);
    }
    if (kind == CurveKind::clip) {
        return clipTable(circuit, setting, stop);
    }
    if (kind == CurveKind::bias) {
        return biasTable(circuit, setting, stop);
    }
    const Result<SolvedCircuit> solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    if (kind == CurveKind::ladder) {
        return ladderTable(*solved, circuit, setting, stop);
    }
    return kind == CurveKind::noise ? noiseTable(*solved, circuit, stop)
                                    : toneTable(kind, *solved, circuit, setting, stop);
}

}  // namespace ohmwright
