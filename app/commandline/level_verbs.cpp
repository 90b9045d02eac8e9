// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/settled_tone.h"
#include "app/commandline/verbs.h"
#include "core/base/decibels.h"
#include "core/measure/ladder.h"
#include "core/measure/settled_wave.h"
#include "core/measure/two_tone.h"
#include "core/measure/wave.h"
#include "core/solve/transfer.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int defaultPoints = 401;
constexpr int mostPoints = 100000;
constexpr FigureRange sweepRange{-1000.0, 1000.0, "−1000 V to 1000 V"};
/// Each way from the input's own DC value, where the call names no ends.
constexpr double defaultSweepVolts = 1.0;

constexpr FigureRange rungRange{1e-9, 1000.0, "a level from 1 nV to 1000 V peak"};
constexpr double lowestRung = 1e-3;
constexpr double highestRung = 1.0;
constexpr int mostRungs = 10000;
/// A ladder solves three levels a rung, for the slope.
constexpr double solvesPerRung = 3.0;
constexpr std::size_t fewestLadderSteps = 257;
constexpr int ladderHarmonics = 10;
/// Some seconds of work: 401 rungs of a small circuit with 1,247 steps a period.
constexpr double stepsInAll = 1.5e6;

constexpr int defaultOrder = 5;
constexpr int highestOrder = 15;
/// A tone this far under the level that makes it is what rounding leaves of none.
constexpr double silentShare = 1e-12;
/// Level of what is nothing beside the first tone: the arithmetic itself ends at some -300 dB.
constexpr double lowestDb = -400.0;

struct Span {
    double from = 0.0;
    double to = 0.0;
};

Result<Span> spanOf(const Request& request, const Span& otherwise, const FigureRange& range) {
    const Result<double> from = readFigureOr("--from", request.from, Unit::volt, otherwise.from);
    if (!from) return from.error();
    const Result<double> fromInside = requireInside("--from", *from, range);
    if (!fromInside) return fromInside.error();
    const Result<double> to = readFigureOr("--to", request.to, Unit::volt, otherwise.to);
    if (!to) return to.error();
    const Result<double> toInside = requireInside("--to", *to, range);
    if (!toInside) return toInside.error();
    if (*to <= *from) return refuseOption("--from", "must be less than --to.");
    return Span{*from, *to};
}

/// Both ends exactly.
std::vector<double> evenly(const Span& span, int points) {
    std::vector<double> values;
    values.reserve(static_cast<std::size_t>(points));
    for (int k = 0; k < points; ++k)
        values.push_back(k + 1 == points ? span.to : span.from + (span.to - span.from) * k / (points - 1));
    return values;
}

struct LadderSteps {
    std::size_t steps = 0;
    bool areCoarse = false;  ///< The wave asks for finer ones than so many rungs leave work for.
};

/// As fine as the loudest wave needs, but no more steps in all than are solved in good time: never by the clock, so
/// that the same call gives the same figures.
LadderSteps stepsOfLadder(const SolvedCircuit& solved, double toneHz, int output, const std::vector<double>& levels,
                          const std::stop_token& stop) {
    const auto settled =
        settleWithin(solved, {toneHz, levels.back(), {}}, output, fewestLadderSteps, ladderHarmonics, stop, 1e-5);
    const double wanted = settled ? static_cast<double>(settled->steps) : static_cast<double>(fewestLadderSteps);
    const double most = stepsInAll / (solvesPerRung * static_cast<double>(levels.size()));
    const double taken = std::max(std::min(wanted, most), static_cast<double>(fewestLadderSteps)) - 1.0;
    return {oddSteps(taken), taken + 1.0 < wanted};
}

/// Empty behind the level where that level did not settle.
std::vector<Cell> rungRow(const LadderRung& rung) {
    constexpr std::size_t columns = 6;
    std::vector<Cell> row;
    row.reserve(columns);
    row.emplace_back(rung.inputVoltsPeak);
    if (const auto& reading = rung.reading) {
        for (double figure :
             {reading->outputVoltsRms, reading->fundamentalVoltsPeak, reading->positiveVolts, reading->negativeVolts})
            row.emplace_back(figure);
        if (reading->slope) row.emplace_back(*reading->slope);
    }
    row.resize(columns);
    return row;
}

bool isSilent(const LevelLadder& ladder) {
    return std::none_of(ladder.rungs.begin(), ladder.rungs.end(), [](const LadderRung& rung) {
        return rung.reading && rung.reading->outputVoltsRms >= silentVoltsRms;
    });
}

Result<double> toneAlone(const Request& request) {
    const Result<double> hz = readFigure("--tone", request.tone, Unit::hertz);
    if (!hz) return hz.error();
    return requireInside("--tone", *hz, toneRange);
}

Result<std::vector<double>> tonePair(const Request& request) {
    Result<std::vector<double>> tones = readFigureList("--tones", request.tones, Unit::hertz);
    if (!tones) return tones.error();
    if (tones->size() != 2) return refuseOption("--tones", "give two frequencies, as in --tones 82.4,123.6.");
    for (double hz : *tones) {
        const Result<double> inside = requireInside("--tones", hz, toneRange);
        if (!inside) return inside.error();
    }
    if (tones->front() == tones->back()) return refuseOption("--tones", "the two tones must differ.");
    return tones;
}

Result<double> levelAboveZero(const Request& request) {
    const Result<double> level = readFigure("--level", request.level, Unit::volt);
    if (!level) return level.error();
    return requireInside("--level", *level, rungRange);
}

}  // namespace

Result<Answer> answerTransfer(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Part* source = inputSource(prepared);
    const double rest = source == nullptr ? 0.0 : source->value;
    const Result<Span> span = spanOf(request, {rest - defaultSweepVolts, rest + defaultSweepVolts}, sweepRange);
    if (!span) return span.error();
    const Result<int> points = readCountOr("--points", request.points, 2, mostPoints, defaultPoints);
    if (!points) return points.error();
    const Result<SolvedCircuit> solved = solveBetweenEnds(prepared, stop);
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    const std::vector<double> inputs = evenly(*span, *points);
    const Result<std::vector<double>> outputs =
        dcTransfer(*solved->equations, *solved->bias, rest, *output, inputs, stop);
    if (!outputs) return asCircuitFault(outputs.error());
    Table table{{"input_v", "output_v"}, {}};
    for (std::size_t k = 0; k < inputs.size(); ++k) table.rows.push_back({inputs[k], (*outputs)[k]});
    return Answer{{std::move(table)}, {}};
}

Result<Answer> answerLadder(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<double> hz = toneAlone(request);
    if (!hz) return hz.error();
    const Result<Span> span = spanOf(request, {lowestRung, highestRung}, rungRange);
    if (!span) return span.error();
    const Result<int> points = readCountOr("--points", request.points, 2, mostRungs, defaultPoints);
    if (!points) return points.error();
    const Result<SolvedCircuit> solved = solveBetweenEnds(prepared, stop);
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    const std::vector<double> levels = ladderLevels(span->from, span->to, *points);
    const LadderSteps ladderSteps = stepsOfLadder(*solved, *hz, *output, levels, stop);
    const Result<LevelLadder> ladder = measureLadder(*solved, *output, *hz, levels, ladderSteps.steps, stop);
    if (!ladder) return asCircuitFault(ladder.error());
    const bool nothingSettled = std::none_of(ladder->rungs.begin(), ladder->rungs.end(),
                                             [](const LadderRung& rung) { return rung.reading.has_value(); });
    if (nothingSettled) return Error{ErrorCode::noConvergence, ladder->firstTrouble, ""};
    if (isSilent(*ladder)) return silentOutput(prepared, "");
    Answer answer{
        {{{"input_v_peak", "output_v_rms", "fundamental_v_peak", "peak_pos_v", "peak_neg_v", "slope_db_per_db"}, {}}},
        {}};
    for (const LadderRung& rung : ladder->rungs) answer.tables.front().rows.push_back(rungRow(rung));
    if (ladderSteps.areCoarse)
        answer.notes.push_back("Edges are so steep that " + std::to_string(ladderSteps.steps) +
                               " steps a period are coarse for them: ask for fewer points for finer steps.");
    if (!ladder->firstTrouble.empty()) answer.notes.push_back("Some cells are empty: " + ladder->firstTrouble);
    return answer;
}

Result<Answer> answerTwoTone(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<std::vector<double>> tones = tonePair(request);
    if (!tones) return tones.error();
    const Result<double> level = levelAboveZero(request);
    if (!level) return level.error();
    const Result<int> order = readCountOr("--order", request.order, 1, highestOrder, defaultOrder);
    if (!order) return order.error();
    const Result<SolvedCircuit> solved = solveBetweenEnds(prepared, stop);
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    const Result<TwoToneSpectrum> spectrum =
        measureTwoTone(*solved, *output, tones->front(), tones->back(), *level, *order, stop);
    if (!spectrum) {
        Error error = spectrum.error();
        if (error.code == ErrorCode::invalidInput) error.message = "--tones: " + error.message;
        return error;
    }
    const double reference = spectrum->firstToneVoltsPeak;
    if (!(reference > silentShare * *level)) return silentOutput(prepared, " at the first tone");
    Table table{{"frequency_hz", "level_db_re_first_tone"}, {}};
    for (const TwoToneProduct& product : spectrum->products) {
        const double share = product.voltsPeak / reference;
        table.rows.push_back({product.hertz, share > 0.0 ? std::max(amplitudeDb(share), lowestDb) : lowestDb});
    }
    Answer answer{{std::move(table)}, {}};
    if (spectrum->isUnsteady) answer.notes.push_back(unsteadyNote(spectrum->steadyAboveDb));
    return answer;
}

}  // namespace ohmwright
