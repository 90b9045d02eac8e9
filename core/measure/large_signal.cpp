// Figures of the settled state at the player's level; see measureLargeSignal in figures.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/clipping.h"
#include "core/measure/figures.h"
#include "core/measure/settled_wave.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/wave.h"
#include "core/solve/settled.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

namespace ohmwright {

namespace {

/// Steps are doubled from here until the harmonics up to the tenth stand still; most circuits end at 513, a fuzz, whose
/// edges are steep, at thousands.
constexpr std::size_t firstHarmonicSteps = 257;
/// Of the output's RMS: 0.03 dB at 50 dB under the fundamental.
constexpr double harmonicShare = 1e-5;
constexpr int harmonicCount = 10;
/// Harmonics under this are the solver's own rounding and are not shown as figures.
constexpr double faintestDbc = -90.0;
const double twoDecibels = std::pow(10.0, 2.0 / 20.0);

bool isSilent(const std::vector<double>& wave) {
    return alternatingRms(wave) < silentVoltsRms;
}

double levelDbvOf(const SettledState& settled, int unknown) {
    const auto wave = settled.wave(unknown);
    return dbv(isSilent(wave) ? 0.0 : alternatingRms(wave));
}

/// The settled state at the setting's tone and pick level: every figure of one circuit is read from steps as fine.
Result<SettledWave> settledAtPlayer(const SolvedCircuit& solved, const Setting& setting, int output,
                                    const std::stop_token& stop) {
    return settleWithin(solved, {setting.toneHz, setting.pickVoltsPeak, {}}, output, firstHarmonicSteps, harmonicCount,
                        stop, harmonicShare);
}

/// "under −52": what a harmonic may at most be.
std::string under(double dbc) {
    return said("under −%1", std::lround(-dbc));
}

void addHarmonicFigures(const SettledWave& settled, int output, std::vector<Figure>& figures) {
    const std::vector<double> wave = settled.wave(output);
    const auto harmonics = harmonicsOf(wave, harmonicCount, 1.0 / double(wave.size()));
    const bool silent = isSilent(wave);
    figures.push_back(silent ? Figure{"thd", {}, toSay("no signal")}
                             : Figure{"thd", 100.0 * totalHarmonicDistortion(harmonics), ""});
    double faintest = faintestDbc;
    if (!silent && settled.unsteadyShare > harmonicShare) {
        const double overFundamental = amplitudeDb(alternatingRms(wave) / std::abs(harmonics[1]));
        faintest = std::clamp(std::ceil(settled.steadyAboveDb() + overFundamental), faintestDbc, 0.0);
    }
    for (std::size_t n = 2; n <= 7; ++n) {
        const double dbc = amplitudeDb(std::abs(harmonics[n]) / std::abs(harmonics[1]));
        Figure figure{"h" + std::to_string(n), {}, silent ? toSay("no signal") : under(faintest)};
        if (!silent && dbc >= faintest) {
            figure.value = dbc;
        }
        figures.push_back(figure);
    }
}

/// Everything that is read from the settled wave at the player's level.
const std::vector<std::string> playerFigures{"peak_positive",
                                             "peak_negative",
                                             "dc_shift",
                                             "peak_positive_out",
                                             "peak_negative_out",
                                             "level",
                                             "thd",
                                             "h2",
                                             "h3",
                                             "h4",
                                             "h5",
                                             "h6",
                                             "h7",
                                             "level_slope"};

void addNotSettled(const std::vector<std::string>& ids, std::vector<Figure>& figures) {
    for (const std::string& id : ids) {
        figures.push_back({id, {}, std::string(notSettled)});
    }
}

/// dB per dB between 2 dB above and 2 dB under the player's level: two generator settings, one meter.
Result<double> levelSlope(const SolvedCircuit& solved, const Setting& setting, std::size_t steps, int output,
                          const std::stop_token& stop) {
    auto solver = SettledSolver::make(*solved.equations, *solved.bias, setting.toneHz, steps);
    if (!solver) {
        return solver.error();
    }
    const auto louder = solver->solve(setting.pickVoltsPeak * twoDecibels, stop);
    if (!louder) {
        return louder.error();
    }
    const auto softer = solver->solve(setting.pickVoltsPeak / twoDecibels, stop);
    if (!softer) {
        return softer.error();
    }
    return (levelDbvOf(*louder, output) - levelDbvOf(*softer, output)) / 4.0;
}

void addThresholdFigures(const ClipCurve& clip, std::vector<Figure>& figures) {
    const auto add = [&](const std::string& id, const std::optional<ClipThreshold>& threshold, bool hasSettled) {
        const std::string absence(hasSettled ? toSay("none") : notSettled);
        Figure volts{id, {}, absence};
        Figure input{id + "_input", {}, absence};
        if (threshold) {
            volts.value = threshold->volts;
            input.value = 1e3 * threshold->pickVoltsPeak;
        }
        figures.push_back(volts);
        figures.push_back(input);
    };
    add("clip_threshold_positive", clip.positive, clip.positiveSettled);
    add("clip_threshold_negative", clip.negative, clip.negativeSettled);
}

}  // namespace

Result<LargeSignalState> measureLargeSignal(const Circuit& circuit, const Setting& setting,
                                            const LargeSignalOptions& options, const std::stop_token& stop) {
    const auto solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    const Equations& equations = *solved->equations;
    const int output = equations.indexOfNet(circuit.ports.output);
    const NetName& clipNode = circuit.ports.clipNode.empty() ? circuit.ports.output : circuit.ports.clipNode;
    LargeSignalState state;

    const auto settled = settledAtPlayer(*solved, setting, output, stop);
    if (!settled && !concernsOneLevel(settled.error())) {
        return settled.error();
    }
    LargeSignalOptions finer = options;
    if (settled) {
        // Where the wave needs fine steps, its peaks at other levels do too.
        finer.curveSteps = oddSteps(std::max(double(options.curveSteps), double(settled->steps) / 4.0 - 1.0));
        finer.thresholdSteps = oddSteps(std::max(double(options.thresholdSteps), double(settled->steps) / 2.0 - 1.0));
    }
    auto clip = measureClipCurve(*solved, clipNode, setting.toneHz, finer, stop);
    if (!clip) {
        return clip.error();
    }
    state.clip = *std::move(clip);
    state.trouble = settled ? state.clip.trouble : settled.error().message;
    if (options.withThresholds) {
        addThresholdFigures(state.clip, state.figures);
    }
    if (!settled) {
        const bool nothingSettled =
            state.clip.pickVoltsPeak.size() == 1 && !state.clip.positive && !state.clip.negative;
        if (nothingSettled) {
            return settled.error();
        }
        addNotSettled(playerFigures, state.figures);
        state.levelDbvAtBorder.assign(circuit.stages.size(), std::numeric_limits<double>::quiet_NaN());
        return state;
    }

    const auto addPeaks = [&](const NetName& net, const std::string& suffix) {
        const auto wave = settled->wave(equations.indexOfNet(net));
        const Peaks peaks = peaksOf(wave);
        const double rest = solved->biasVolts(net);
        state.figures.push_back({"peak_positive" + suffix, peaks.highest - rest, ""});
        state.figures.push_back({"peak_negative" + suffix, peaks.lowest - rest, ""});
        return meanOf(wave) - rest;
    };
    state.figures.push_back({"dc_shift", addPeaks(clipNode, ""), ""});
    addPeaks(circuit.ports.output, "_out");
    state.figures.push_back({"level", levelDbvOf(*settled, output), ""});
    addHarmonicFigures(*settled, output, state.figures);
    for (const Stage& stage : circuit.stages) {
        state.levelDbvAtBorder.push_back(levelDbvOf(*settled, equations.indexOfNet(stage.output)));
    }

    const auto slope = levelSlope(*solved, setting, settled->steps, output, stop);
    if (!slope && !concernsOneLevel(slope.error())) {
        return slope.error();
    }
    if (slope) {
        state.figures.push_back({"level_slope", *slope, ""});
    } else {
        addNotSettled({"level_slope"}, state.figures);
        state.trouble = state.trouble.empty() ? slope.error().message : state.trouble;
    }
    withholdUndefined(state.figures);
    return state;
}

Result<double> measureLevelDbv(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    const auto solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    const int output = solved->equations->indexOfNet(circuit.ports.output);
    const auto settled = settledAtPlayer(*solved, setting, output, stop);
    if (!settled) {
        return settled.error();
    }
    return levelDbvOf(*settled, output);
}

}  // namespace ohmwright
